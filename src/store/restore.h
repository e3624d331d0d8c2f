// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Restoring: a backup, proved, takes the place of a logbook, which is put aside and never deleted.
#pragma once

#include "store/logbook.h"

#include <filesystem>
#include <optional>
#include <string>
#include <tl/expected.hpp>

namespace store {

struct RestoreTo {
    std::filesystem::path path;
    std::string station;      // under which it goes on; no station of the backup
    bool trustLocks = false;  // as of OpenOptions
};

struct RestoreResult {
    std::filesystem::path path;
    std::optional<std::filesystem::path> aside;  // where what stood at `path` is now
    Heads heads;
};

// Nothing is put aside before the copy of the backup is whole, verified, named and on the disk
// beside it. `writing.at` gives the file put aside its name. As Logbook::open and Logbook::backup
// of the backup, and BadStation, StationTaken; Busy where somebody writes in what is to be put
// aside; Exists where no name is left for it; LeftAside, NotConfirmed. In every other case what
// stood there stands there.
[[nodiscard]] tl::expected<RestoreResult, Trouble> restore(const std::filesystem::path& backup,
                                                           const RestoreTo& to,
                                                           const Writing& writing);

}  // namespace store
