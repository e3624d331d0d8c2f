// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A logbook from a stranger: what in its schema could do harm does not get to run, and each guard
// of the database is read back.
#include "logbook_files.h"
#include "store/connection.h"
#include "store/foreign_schema.h"
#include "store/logbook.h"
#include "store/restore.h"

#include <array>
#include <catch2/catch.hpp>
#include <limits>
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

void checkRefused(const std::filesystem::path& path) {
    for (const Access access : {Access::Read, Access::Write}) {
        const auto logbook = Logbook::open(path, {access});
        REQUIRE_FALSE(logbook);
        CHECK(logbook.error().code == Code::Damaged);
    }
}

// With so many rows in it whose times are texts, which the database sorts behind all numbers, and
// strikes that are entered at such a one, though the schema lets in none.
std::filesystem::path withTextsForTimes(const TemporaryFolder& folder, std::int64_t rows) {
    const auto path = withSchema(folder, "PRAGMA writable_schema = ON; UPDATE sqlite_schema"
                                         " SET sql = replace(sql, 'STRICT', '')"
                                         " WHERE name = 'records'");
    const auto many = "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < " +
                      std::to_string(rows) + ") INSERT INTO records SELECT i + 3";
    behindTheBack(path)->exec(many + ", 'icu-2', i, 'x', 'x', 'KB-0001', 'note', 'x',"
                                     " zeroblob(32), 0 FROM n");
    behindTheBack(path)->exec(many + " + " + std::to_string(rows) +
                              ", 'icu-3', i, 1000, 'x', 'KB-0001', 'strike', 'x',"
                              " zeroblob(32), 0 FROM n");
    behindTheBack(path)->exec("PRAGMA writable_schema = ON; UPDATE sqlite_schema"
                              " SET sql = sql || 'STRICT' WHERE name = 'records'");
    return path;
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
        checkRefused(path);
    }
}

// It has no room in the file, and can take any time and memory as it is read or written.
TEST_CASE("A logbook in which something is computed for each row is refused", "[unit]") {
    const auto inTable = [](const std::string& name, const std::string& column) {
        return "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, '" +
               column + " TEXT NOT NULL', '" + column +
               " TEXT NOT NULL AS (hex(zeroblob(8)))') WHERE name = '" + name + "'";
    };
    const std::vector<std::string> computed = {
        inTable("records", "content"),
        inTable("local_settings", "value"),
        "ALTER TABLE local_imports ADD COLUMN more TEXT AS (hex(zeroblob(8)))",
        "ALTER TABLE local_heads RENAME TO kept; ALTER TABLE kept RENAME TO LOCAL_HEADS;"
        "ALTER TABLE LOCAL_HEADS ADD COLUMN more TEXT AS (hex(zeroblob(8)))",
        "ALTER TABLE local_imports ADD COLUMN more TEXT DEFAULT 'x'",
        "CREATE TABLE extra (a TEXT, b TEXT AS (hex(a)))",
        "CREATE INDEX a ON records (hex(content))",
        "CREATE INDEX a ON records (seq) WHERE length(content) > 3",
        "CREATE INDEX \"a()\" ON records (seq) WHERE \"length\" (content) > 3",
        "CREATE INDEX a ON records (seq) WHERE length /* of it */ (content) > 3",
        "CREATE INDEX a ON records (seq) WHERE content LIKE '%a%a%b'",
        "CREATE INDEX a ON records (seq) WHERE content GLOB '*a*a*b'",
        "CREATE INDEX a ON records (seq) WHERE kind || device = 'x'"};
    for (const auto& sql : computed) {
        INFO(sql);
        const TemporaryFolder folder;
        const auto path = withSchema(folder, sql);
        checkRefused(path);
        const auto schema = refuseSchemaAt(path);
        REQUIRE(schema);
        CHECK(schema->text.find("computed") != std::string::npos);
        // It can be put aside all the same.
        const TemporaryFolder other;
        (void)create(other / "new");
        REQUIRE(open(other / "new", Access::Read).backup(other / "backup"));
        CHECK(restore(other / "backup", {path, "icu-1b"}, writing(0)));
    }
}

TEST_CASE("What is to be computed is refused under the lock too", "[unit]") {
    for (const auto* sql : {"CREATE INDEX a ON records (hex(content))",
                            "ALTER TABLE local_heads ADD COLUMN more TEXT AS (hex(hash))"}) {
        INFO(sql);
        const TemporaryFolder folder;
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 3));
        behindTheBack(folder / "log")->exec(sql);
        const auto refused = logbook.append(std::vector{note("icu-1", 4)}, writing());
        REQUIRE_FALSE(refused);
        CHECK(refused.error().code == Code::Damaged);
        CHECK(refused.error().text.find("computed") != std::string::npos);
        CHECK(logbook.count() == 3);
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

TEST_CASE("A gap in the numbers of arrival is not walked through", "[fault]") {
    constexpr auto highest = std::numeric_limits<std::int64_t>::max();
    for (const auto& [second, third] : {std::pair<std::int64_t, std::int64_t>{2, highest},
                                        {4'000'000'000'000'000'000, highest},
                                        {20'000, 20'001}, {20'001, 40'003}}) {
        INFO(second << ", " << third);
        const TemporaryFolder folder;
        {
            Logbook logbook = create(folder / "log");
            append(logbook, notes("icu-1", 3));
        }
        tamper(folder / "log",
               "UPDATE records SET arrival = " + std::to_string(third) +
                   " WHERE seq = 3; UPDATE records SET arrival = " + std::to_string(second) +
                   " WHERE seq = 2");
        const auto logbook = open(folder / "log", Access::Read);
        const auto given = [&](const std::optional<std::int64_t>& upTo) {
            std::vector<std::string> contents;
            REQUIRE(logbook.forEachContent(
                {"note"},
                [&](std::string_view, std::string_view content) {
                    contents.emplace_back(content);
                },
                upTo));
            return contents;
        };
        CHECK(given({}) == contents(logbook));
        CHECK(given(third - 1).size() == 2);
        CHECK(given(second - 1).size() == 1);
        CHECK_FALSE(logbook.metDamage());
    }
}

TEST_CASE("Reading comes to an end where records stand at no time", "[fault]") {
    constexpr std::int64_t rows = rowsPerTransaction + 500;
    const TemporaryFolder folder;
    const auto logbook = open(withTextsForTimes(folder, rows), Access::Read);
    std::int64_t given = 0;
    const auto each =
        logbook.forEachRow({}, [&](const Row&) { return ++given < 5 * rowsPerTransaction; });
    REQUIRE_FALSE(each);
    CHECK(each.error().code == Code::Damaged);
    std::vector<ReadRecord> portion(2'000);
    Selection selection;
    tl::expected<std::size_t, Trouble> count = portion.size();
    for (int portions = 0; count == portion.size() && portions < 100; ++portions) {
        count = logbook.readRecords(selection, portion);
        selection.after = portion.back().place;
    }
    REQUIRE_FALSE(count);
    CHECK(count.error().code == Code::Damaged);
    // Passed over as having come in later.
    Selection first;
    first.arrivedUpTo = 3;
    CHECK(logbook.readRecords(first, portion) == 3U);
    const auto strikes = logbook.strikesBeyond(placeOf(note("icu-1", 3)), nullptr);
    REQUIRE_FALSE(strikes);
    CHECK(strikes.error().code == Code::Damaged);
}

// The page that would tell where it goes on after the gap.
TEST_CASE("A page that is gone behind a gap is read round", "[fault]") {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 60));
    }
    tamper(folder / "log", "UPDATE records SET arrival = arrival + 4000000000000000000"
                           " WHERE arrival > 30");
    behindTheBack(folder / "log")->exec("VACUUM");  // no page still holds what was there
    auto bytes = bytesOf(folder / "log");
    const auto page = bytes.find(R"("seq":31,)") / 4096 * 4096;
    REQUIRE(bytes.at(page) == '\x0D');
    writeBytes(folder / "log", bytes.replace(page, 4096, std::string(4096, '\0')));
    const auto logbook = open(folder / "log", Access::Read);
    std::size_t given = 0;
    REQUIRE(logbook.forEachContent({"note"},
                                   [&](std::string_view, std::string_view) { ++given; }));
    CHECK(given == logbook.records()->records.size());
    CHECK(given > 30);
    CHECK(logbook.metDamage());
}

TEST_CASE("Where no number of arrival is left nothing is appended, and it is said why", "[fault]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 3));
    tamper(folder / "log", "UPDATE records SET arrival = 9223372036854775807 WHERE seq = 3");
    const auto appended = logbook.append(std::vector{note("icu-1", 4)}, writing());
    REQUIRE_FALSE(appended);
    CHECK(appended.error().code == Code::Damaged);
    CHECK_FALSE(appended.error().text.empty());
    CHECK(logbook.count() == 3);
}

TEST_CASE("Numbers beyond all counting in what is put aside are told as many", "[fault]") {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 3));
        REQUIRE(logbook.backup(folder / "backup"));
    }
    tamper(folder / "log",
           "INSERT INTO local_heads VALUES"
           " ('icu-8', 9223372036854775807, zeroblob(32), 0, 0),"
           " ('icu-9', 9223372036854775807, zeroblob(32), 0, 0)");
    const auto result = restore(folder / "backup", {folder / "log", "icu-1b"}, writing(0));
    REQUIRE(result);
    CHECK(result->later == std::numeric_limits<std::int64_t>::max());
}
