// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a database says of its own tables, indexes and triggers, to be held against what a logbook
// has. For this folder only, since it shows SQLite; throws SQLite::Exception.
#pragma once

#include <SQLiteCpp/Database.h>

#include <set>
#include <string>
#include <tuple>

namespace store {

using SchemaEntry = std::tuple<std::string, std::string, std::string>;  // type, name, SQL

[[nodiscard]] std::set<SchemaEntry> schemaEntriesIn(SQLite::Database& database);

// Of a logbook of that schema that is made anew.
[[nodiscard]] std::set<SchemaEntry> schemaEntriesOf(int schema);

// The names of what is not as it is in those.
[[nodiscard]] std::set<std::string> schemaChangedIn(SQLite::Database& database, int schema);

}  // namespace store
