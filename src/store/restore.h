// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Restoring: a backup, proved, takes the place of a logbook, which is put aside and never deleted.
#pragma once

#include "store/logbook.h"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <tl/expected.hpp>

namespace store {

struct RestoreTo {
    std::filesystem::path path;  // if a link, what it leads to is meant
    // Under which it goes on; of no record in the backup or at `path`, as far as that can be read.
    std::string station;
    bool trustLocks = false;  // as of OpenOptions
};

struct RestoreResult {
    std::filesystem::path path;
    std::optional<std::filesystem::path> aside;  // where what stood at `path` is now
    Heads heads;
    // What is left of a write into it that was cut off, where it is beside `aside`: without it what
    // stands there may not be whole.
    std::optional<std::filesystem::path> asideJournal{};
    // How many entries what was put aside holds, or held, that the backup does not have, those of
    // the same name included; nothing where nothing of it can be read.
    std::optional<std::int64_t> later{};
    bool isAtLeast = false;  // it is damaged: there may be more
    bool isOther = false;    // it is of another log than the backup
};

// Nothing is put aside before the copy of the backup is whole, verified, named and on the disk
// beside it. Where the file system can exchange two names, the backup takes the place in that one
// step, and at no moment does nothing stand there; a kill just before it leaves a copy of the
// backup under the name meant for what is put aside, which `writing.at` is in.
// As Logbook::open and Logbook::backup of the backup, and BadStation, StationTaken; Busy where
// somebody writes in what is to be put aside; Exists where no name is left for it; LeftAside,
// NotConfirmed. In every other case what stood there stands there.
[[nodiscard]] tl::expected<RestoreResult, Trouble> restore(const std::filesystem::path& backup,
                                                           const RestoreTo& to,
                                                           const Writing& writing);

}  // namespace store
