// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What in the schema of a file is computed for each row, and can take time and memory without end
// though it has no room in the file: in none of a logbook's is anything. No damage by chance makes
// it. For this folder only, since it shows SQLite; throws SQLite::Exception.
#pragma once

#include <SQLiteCpp/Database.h>

#include <optional>
#include <string>
#include <string_view>

namespace store {

// The tables of a logbook, for "name IN ...", in small letters.
inline constexpr std::string_view ourTables =
    "('records', 'local_heads', 'local_station', 'local_settings', 'local_imports',"
    " 'local_credentials', 'local_badges', 'local_verifications', 'derived_revision',"
    " 'derived_snapshots')";

// The first of it, told in English: a column of any table that is computed; one of our own with a
// value for where none is given; an index over what is computed, or over rows that are chosen by a
// function, a pattern or joined texts. What a table demands of its rows (CHECK) is no such thing:
// see schema_guard.h.
[[nodiscard]] std::optional<std::string> computedIn(SQLite::Database& database);

}  // namespace store
