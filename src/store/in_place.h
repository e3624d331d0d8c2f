// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What stands where a backup is to go: of which stations, and how much more it holds than the
// backup, as far as can be told of a file that may be damaged or of another version. For this
// folder only.
#pragma once

#include "store/heads.h"
#include "store/trouble.h"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <tl/expected.hpp>

namespace store {

// A file that is no logbook of this version. A newer or an older program may write into it.
[[nodiscard]] bool isUnknown(Trouble::Code code);

struct InPlace {
    Heads heads{};        // where it is not whole of each station the last number, and no hash
    bool isWhole = false;  // all of its heads are known
    bool isOther = false;  // it is of another log than the backup

    // How many entries it holds after those of the backup; nothing where nothing is known.
    [[nodiscard]] std::optional<std::int64_t> laterThan(const Heads& backup) const;
};

// A copy of it, and its heads.
struct Proved {
    std::filesystem::path path;
    const Heads& heads;
};

// Trouble where it is a logbook of this version, and yet cannot be read.
[[nodiscard]] tl::expected<InPlace, Trouble> lookAt(const std::filesystem::path& path,
                                                    bool trustLocks, const Proved& backup);

}  // namespace store
