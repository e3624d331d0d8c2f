// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Bringing a logbook of an older schema to this program's, after a verified backup of it. No record
// is touched by it.
#pragma once

#include "store/logbook.h"

#include <filesystem>
#include <optional>
#include <tl/expected.hpp>

namespace store {

struct MigrateTo {
    std::filesystem::path backup;  // where the backup goes; nothing may be there
    bool trustLocks = false;       // as of OpenOptions
};

struct Migrated {
    int from = 0;
    BackupResult backup;
};

// Nothing if the file has this program's schema. All in one transaction, which is verified before
// it is committed. As Logbook::open to write and Logbook::backup, and LogMoved where another
// program has just done it. A backup that was made stays also where the rest was refused.
[[nodiscard]] tl::expected<std::optional<Migrated>, Trouble> migrate(
    const std::filesystem::path& path, const MigrateTo& to, const Writing& writing);

}  // namespace store
