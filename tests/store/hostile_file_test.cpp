// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A logbook from a stranger: what in its schema could do harm does not get to run, and each guard
// of the database is read back.
#include "logbook_files.h"
#include "store/connection.h"
#include "store/logbook.h"

#include <array>
#include <catch2/catch.hpp>
#include <sqlite3.h>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Code = Trouble::Code;

namespace {

// A logbook with three records into whose schema that was put.
std::filesystem::path withSchema(const TemporaryFolder& folder, const std::string& sql) {
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 3));
    }
    behindTheBack(folder / "log", true)->exec(sql);
    return folder / "log";
}

}  // namespace

TEST_CASE("The guards of the database are on, however the file is opened", "[unit]") {
    const TemporaryFolder folder;
    (void)create(folder / "log");
    for (const Access access : {Access::Read, Access::Write}) {
        const auto connection = Connection::open(folder / "log", {access});
        REQUIRE(connection);
        SQLite::Database& database = (*connection)->database();
        constexpr std::array<std::pair<int, int>, 4> switches = {{
            {SQLITE_DBCONFIG_DQS_DML, 0},
            {SQLITE_DBCONFIG_DQS_DDL, 0},
            {SQLITE_DBCONFIG_DEFENSIVE, 1},
            {SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0},
        }};
        for (const auto& [setting, wanted] : switches) {
            int answer = -1;
            sqlite3_db_config(database.getHandle(), setting, -1, &answer);
            CHECK(answer == wanted);
        }
        CHECK(sqlite3_limit(database.getHandle(), SQLITE_LIMIT_ATTACHED, -1) == 0);
        CHECK(sqlite3_limit(database.getHandle(), SQLITE_LIMIT_LENGTH, -1) == 256 << 20);
        // And do what they are for.
        CHECK_THROWS_AS(database.exec("SELECT \"no such column\""), SQLite::Exception);
        database.exec("PRAGMA writable_schema = ON");
        CHECK_THROWS_AS(database.exec("UPDATE sqlite_schema SET sql = ''"), SQLite::Exception);
        CHECK_THROWS_AS(database.exec("ATTACH ':memory:' AS other"), SQLite::Exception);
    }
}

TEST_CASE("What bears the name of a table and is none is refused", "[unit]") {
    const std::vector<std::string> disguises = {
        // Rows without end.
        "ALTER TABLE records RENAME TO kept;"
        "CREATE VIEW records AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n)"
        " SELECT i AS arrival, 'icu-1' AS station, i AS seq, 0 AS at_ms, 0 AS entered_ms,"
        " '' AS device, 'note' AS kind, '' AS content, x'' AS hash, 0 AS arrived_ms FROM n",
        "DROP TABLE local_heads; CREATE VIEW local_heads AS SELECT 1",
        "DROP TABLE local_settings; CREATE VIRTUAL TABLE local_settings USING fts5(name, value)",
        "CREATE VIEW derived_snapshots AS SELECT 1",
        // The database minds no capitals in a name.
        "ALTER TABLE records RENAME TO kept; CREATE VIEW Records AS SELECT * FROM kept",
        "DROP TABLE local_heads; CREATE VIEW LOCAL_HEADS AS SELECT 1",
        "CREATE VIEW Derived_Snapshots AS SELECT 1"};
    for (const auto& sql : disguises) {
        INFO(sql);
        const TemporaryFolder folder;
        const auto path = withSchema(folder, sql);
        for (const Access access : {Access::Read, Access::Write}) {
            const auto logbook = Logbook::open(path, {access});
            REQUIRE_FALSE(logbook);
            CHECK(logbook.error().code == Code::Damaged);
        }
    }
}

TEST_CASE("A value larger than any logbook holds is trouble, not memory", "[unit]") {
    const TemporaryFolder folder;
    const auto path = withSchema(folder, "INSERT INTO local_settings VALUES ('place',"
                                         " hex(zeroblob(150 * 1024 * 1024)))");
    const auto toWrite = Logbook::open(path, {Access::Write});
    REQUIRE(toWrite);
    const auto settings = toWrite->settings();
    REQUIRE_FALSE(settings);
    CHECK(settings.error().code == Code::Damaged);
    const auto logbook = Logbook::open(path, {Access::Read});
    REQUIRE(logbook);
    REQUIRE(logbook->settings());
    CHECK(logbook->settings()->empty());
    CHECK(logbook->metDamage());
    CHECK(contents(*logbook).size() == 3);
}
