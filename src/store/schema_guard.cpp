// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Holding the schema against what a logbook has; see schema_guard.h.
#include "store/schema_guard.h"

#include "store/computed_schema.h"
#include "store/foreign_schema.h"
#include "store/schema_entries.h"

#include <sqlite3.h>
#include <string>
#include <utility>

namespace store {

namespace {

Trouble foreignSchema(const Connection& connection, const std::string& name) {
    return connection.trouble(Trouble::Code::Damaged,
                              name + " in its schema is not as it was made");
}

void applyRules(Database& database, bool areOurs) {
    const std::string setting = "ignore_check_constraints";
    answerTo(database, setting + (areOurs ? " = OFF" : " = ON"));
    if (answerTo(database, setting) != (areOurs ? "0" : "1")) {
        throw SQLite::Exception("a guard of the database did not take");
    }
}

// Whether it is foreign.
tl::expected<std::optional<Trouble>, Trouble> lookAt(const std::filesystem::path& path) {
    using Looked = tl::expected<std::optional<Trouble>, Trouble>;
    // It is only read.
    const auto opened = Connection::open(path, {OpenOptions::Access::Read, true});
    if (!opened) {
        return tl::unexpected<Trouble>(opened.error());
    }
    const auto& connection = **opened;
    return connection.guarded([&]() -> Looked {
        const auto changed = schemaChangedIn(connection.database(), connection.schema());
        return changed.empty() ? std::nullopt
                               : std::optional(foreignSchema(connection, *changed.begin()));
    });
}

}  // namespace

void guardSchema(Database& database, int version) {
    auto* handle = database.getHandle();
    auto cookie = answerTo(database, "schema_version");
    if (database.seenSchema().cookie == cookie) {
        return;
    }
    const auto changed = schemaChangedIn(database, version);
    if (const auto computed = changed.empty() ? std::nullopt : computedIn(database)) {
        throw SQLite::Exception(*computed, SQLITE_CORRUPT);
    }
    applyRules(database, changed.empty());
    int areOn = -1;
    sqlite3_db_config(handle, SQLITE_DBCONFIG_ENABLE_TRIGGER, changed.empty() ? 1 : 0, &areOn);
    if (areOn != (changed.empty() ? 1 : 0)) {
        throw SQLite::Exception("a guard of the database did not take");
    }
    database.noteSchema({std::move(cookie), changed.empty() ? "" : *changed.begin()});
}

std::optional<Trouble> refuseForeignSchema(const Connection& connection) {
    const auto& [cookie, foreign] = connection.database().seenSchema();
    if (cookie.empty()) {
        throw SQLite::Exception("nobody has looked at the schema", SQLITE_MISUSE);
    }
    return foreign.empty() ? std::nullopt : std::optional(foreignSchema(connection, foreign));
}

std::optional<Trouble> foreignSchemaAt(const std::filesystem::path& path) {
    auto looked = lookAt(path);
    return looked ? *std::move(looked) : std::nullopt;
}

std::optional<Trouble> refuseSchemaAt(const std::filesystem::path& path) {
    auto looked = lookAt(path);
    return looked ? *std::move(looked) : std::optional(std::move(looked.error()));
}

}  // namespace store
