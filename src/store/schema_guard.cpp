// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Holding the schema against what a logbook has; see schema_guard.h.
#include "store/schema_guard.h"

#include "store/foreign_schema.h"
#include "store/schema_entries.h"

#include <map>
#include <mutex>
#include <set>
#include <sqlite3.h>
#include <string>
#include <utility>

namespace store {

namespace {

struct Seen {
    std::string cookie{};  // a number that each change of the schema raises
    std::string foreign{};
};

// Of the connections that write, which the database itself lets nothing be noted with.
class AllSeen {
public:
    Seen of(sqlite3* database) {
        const std::lock_guard lock(m_mutex);
        const auto found = m_seen.find(database);
        return found == m_seen.end() ? Seen() : found->second;
    }
    void note(sqlite3* database, Seen seen) {
        const std::lock_guard lock(m_mutex);
        m_seen[database] = std::move(seen);
    }
    void forget(sqlite3* database) {
        const std::lock_guard lock(m_mutex);
        m_seen.erase(database);
    }

private:
    std::mutex m_mutex{};
    std::map<sqlite3*, Seen> m_seen{};
};

AllSeen& allSeen() {
    static AllSeen seen;
    return seen;
}

Trouble foreignSchema(const Connection& connection, const std::string& name) {
    return connection.trouble(Trouble::Code::Damaged,
                              name + " in its schema is not as it was made");
}

}  // namespace

void forgetSchema(Database& database) {
    allSeen().forget(database.getHandle());
}

void guardSchema(Database& database, int version) {
    auto* handle = database.getHandle();
    auto cookie = answerTo(database, "schema_version");
    if (allSeen().of(handle).cookie == cookie) {
        return;
    }
    const auto changed = schemaChangedIn(database, version);
    int areOn = -1;
    sqlite3_db_config(handle, SQLITE_DBCONFIG_ENABLE_TRIGGER, changed.empty() ? 1 : 0, &areOn);
    if (areOn != (changed.empty() ? 1 : 0)) {
        throw SQLite::Exception("a guard of the database did not take");
    }
    allSeen().note(handle, {std::move(cookie), changed.empty() ? "" : *changed.begin()});
}

std::optional<Trouble> refuseForeignSchema(const Connection& connection) {
    const auto foreign = allSeen().of(connection.database().getHandle()).foreign;
    return foreign.empty() ? std::nullopt : std::optional(foreignSchema(connection, foreign));
}

std::optional<Trouble> foreignSchemaAt(const std::filesystem::path& path) {
    using Changed = tl::expected<std::set<std::string>, Trouble>;
    // It is only read.
    const auto opened = Connection::open(path, {OpenOptions::Access::Read, true});
    if (!opened) {
        return std::nullopt;
    }
    const auto& connection = **opened;
    const auto changed = connection.guarded([&]() -> Changed {
        return schemaChangedIn(connection.database(), connection.schema());
    });
    return !changed || changed->empty()
               ? std::nullopt
               : std::optional(foreignSchema(connection, *changed->begin()));
}

}  // namespace store
