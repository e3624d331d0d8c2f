// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading the schema that a database has; see schema_entries.h.
#include "store/schema_entries.h"

#include "store/logbook.h"
#include "store/schema.h"

#include <SQLiteCpp/Statement.h>

#include <algorithm>
#include <iterator>
#include <vector>

namespace store {

namespace {

std::set<SchemaEntry> madeAnew(int schema) {
    SQLite::Database model(":memory:", SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    model.exec(schemaTextOf(schema));
    return schemaEntriesIn(model);
}

}  // namespace

std::set<SchemaEntry> schemaEntriesIn(SQLite::Database& database) {
    // The tables of the database's own statistics change nothing, nor do those of what can be made
    // again. What a row makes is decided by its text: a name alone leaves nothing out.
    SQLite::Statement statement(
        database, "SELECT type, name, coalesce(sql, '') FROM sqlite_schema WHERE NOT"
                  " (type = 'table' AND name IN ('sqlite_stat1', 'sqlite_stat3', 'sqlite_stat4')"
                  " AND substr(coalesce(sql, ''), 1, 26) = 'CREATE TABLE ' || name || '(') AND NOT"
                  " (type = 'table' AND substr(lower(name), 1, 8) = 'derived_'"
                  " AND substr(lower(coalesce(sql, '')), 1, 21) = 'create table derived_')");
    std::set<SchemaEntry> schema;
    while (statement.executeStep()) {
        schema.emplace(statement.getColumn(0).getString(), statement.getColumn(1).getString(),
                       statement.getColumn(2).getString());
    }
    return schema;
}

std::set<SchemaEntry> schemaEntriesOf(int schema) {
    if (schema != schemaVersion) {
        return madeAnew(schema);
    }
    static const auto current = madeAnew(schemaVersion);
    return current;
}

std::set<std::string> schemaChangedIn(SQLite::Database& database, int schema) {
    const std::set<SchemaEntry> wanted = schemaEntriesOf(schema);
    const std::set<SchemaEntry> found = schemaEntriesIn(database);
    std::vector<SchemaEntry> differences;
    std::set_symmetric_difference(wanted.begin(), wanted.end(), found.begin(), found.end(),
                                  std::back_inserter(differences));
    std::set<std::string> names;
    for (const SchemaEntry& entry : differences) {
        names.insert(std::get<1>(entry));
    }
    return names;
}

}  // namespace store
