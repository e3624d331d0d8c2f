// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A logbook with a strange trigger or table in its schema, or without a trigger of its own: what
// can wait is not written into it, and what must not wait is written so that it stands there as it
// is and nothing else is changed, or not at all.
#include "store/foreign_schema.h"

#include "logbook_files.h"

#include <catch2/catch.hpp>

using namespace store;
using namespace store::test;
using Code = Trouble::Code;

namespace {

const std::vector<std::string>& changes() {
    static const std::vector<std::string> all = {
        "CREATE TRIGGER a BEFORE UPDATE ON local_heads BEGIN SELECT raise(IGNORE); END",
        "CREATE TRIGGER a BEFORE INSERT ON records BEGIN SELECT raise(IGNORE); END",
        "DROP TRIGGER records_are_never_updated; CREATE TRIGGER a AFTER INSERT ON records BEGIN"
        " UPDATE records SET content = replace(content, 'seen', 'Seen') WHERE seq = 2; END",
        "DROP TRIGGER records_are_never_deleted",
        "DROP TRIGGER records_are_only_appended; CREATE TRIGGER records_are_only_appended"
        " AFTER INSERT ON records BEGIN DELETE FROM local_heads; END"};
    return all;
}

// Makes `records` anew, by its own text with the one in the place of the other.
void makeAnew(const std::filesystem::path& path, const std::string& old, const std::string& with) {
    const auto database = behindTheBack(path);
    std::string table =
        database->execAndGet("SELECT sql FROM sqlite_schema WHERE name = 'records'").getString();
    const std::string indexes =
        database
            ->execAndGet("SELECT group_concat(sql, ';') FROM sqlite_schema"
                         " WHERE tbl_name = 'records' AND type = 'index' AND sql IS NOT NULL")
            .getString();
    const auto place = table.find(old);
    REQUIRE(place != std::string::npos);
    table.replace(place, old.size(), with);
    const std::string beginning = "CREATE TABLE records";
    REQUIRE(table.starts_with(beginning));
    table.replace(0, beginning.size(), "CREATE TABLE strange");
    database->exec(table + "; INSERT INTO strange SELECT * FROM records; DROP TABLE records;"
                           "ALTER TABLE strange RENAME TO records;" +
                   indexes);
}

std::vector<Hash> hashes(const Logbook& logbook) {
    std::vector<Hash> hashes;
    REQUIRE(logbook.forEachRow({}, [&](const Row& row) {
        hashes.push_back(row.hash);
        return true;
    }));
    return hashes;
}

void checkWaits(const tl::expected<void, Trouble>& written) {
    REQUIRE_FALSE(written);
    CHECK(written.error().code == Code::Damaged);
    CHECK(written.error().text.find("in its schema is not as it was made") != std::string::npos);
}

// Also where it was opened before.
void checkGuarded(Logbook& logbook, const std::filesystem::path& path) {
    const auto last = headsOf(logbook).at("icu-1").seq;
    const auto before = contents(logbook);
    append(logbook, {note("icu-1", last + 1)});
    auto after = contents(logbook);
    REQUIRE(after.size() == before.size() + 1);
    CHECK(after.back() == note("icu-1", last + 1).content);
    after.pop_back();
    CHECK(after == before);
    CHECK(headsOf(logbook).at("icu-1").seq == last + 1);
    CHECK(logbook.verify()->breaks.empty());
    checkWaits(logbook.setSetting("place", "Bay 4", writing()));
    checkWaits(logbook.importRecords({}, "er-2.jsonl", writing()).map([](const auto&) {}));
    const auto foreign = foreignSchemaAt(path);
    REQUIRE(foreign);
    checkWaits(tl::unexpected<Trouble>(*foreign));
}

}  // namespace

TEST_CASE("No strange trigger runs, and what can wait is refused", "[unit]") {
    for (const auto& sql : changes()) {
        INFO(sql);
        const TemporaryFolder folder;
        Logbook earlier = create(folder / "log");
        REQUIRE(earlier.setStation("icu-1", writing()));
        append(earlier, notes("icu-1", 3));
        CHECK_FALSE(foreignSchemaAt(folder / "log"));
        behindTheBack(folder / "log")->exec(sql);
        checkGuarded(earlier, folder / "log");
        Logbook later = open(folder / "log");
        checkGuarded(later, folder / "log");
    }
}

TEST_CASE("A schema that is put right is written into as before", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 3));
    const auto strange = behindTheBack(folder / "log");
    strange->exec("CREATE TRIGGER a BEFORE UPDATE ON local_heads BEGIN SELECT raise(IGNORE); END");
    checkWaits(logbook.setSetting("place", "Bay 4", writing()));
    strange->exec("DROP TRIGGER a");
    CHECK(logbook.setSetting("place", "Bay 4", writing()));
    append(logbook, {note("icu-1", 4)});
    CHECK(headsOf(logbook).at("icu-1").seq == 4);
    CHECK(logbook.verify()->ok());
}

TEST_CASE("No foreign key of a strange table changes what was there", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    REQUIRE(logbook.setStation("icu-1", writing()));
    append(logbook, notes("icu-1", 3));
    // The head that is noted with an entry would alter the hash of the one before.
    makeAnew(folder / "log", "length(hash) = 32)",
             "length(hash) = 32) REFERENCES local_heads (hash) ON UPDATE CASCADE"
             " DEFERRABLE INITIALLY DEFERRED");
    behindTheBack(folder / "log")->exec("CREATE UNIQUE INDEX by_hash ON local_heads (hash)");
    const auto before = hashes(logbook);
    checkGuarded(logbook, folder / "log");
    auto after = hashes(logbook);
    REQUIRE(after.size() == 4);
    after.pop_back();
    CHECK((after == before));
}

TEST_CASE("No strange table gives up an entry for another", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    REQUIRE(logbook.setStation("icu-1", writing()));
    append(logbook, notes("icu-1", 3));
    makeAnew(folder / "log", "UNIQUE (station, seq)",
             "UNIQUE (station, seq), UNIQUE (at_ms, device, kind, station) ON CONFLICT REPLACE");
    const auto before = contents(logbook);
    const auto refused = logbook.append(std::vector{noteAt("icu-1", 4, 3)}, writing());
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == Code::Damaged);
    CHECK(contents(logbook) == before);
    CHECK(headsOf(logbook).at("icu-1").seq == 3);
    CHECK(logbook.verify()->breaks.empty());
    checkGuarded(logbook, folder / "log");
}
