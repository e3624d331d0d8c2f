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
        "CREATE TRIGGER sqlite1stat_a BEFORE INSERT ON local_heads BEGIN SELECT raise(IGNORE); END",
        "CREATE INDEX sqlite1stat_a ON records (seq)",
        "DROP TRIGGER records_are_never_updated; CREATE TRIGGER a AFTER INSERT ON records BEGIN"
        " UPDATE records SET content = replace(content, 'seen', 'Seen') WHERE seq = 2; END",
        "DROP TRIGGER records_are_never_deleted",
        "DROP TRIGGER records_are_only_appended; CREATE TRIGGER records_are_only_appended"
        " AFTER INSERT ON records BEGIN DELETE FROM local_heads; END"};
    return all;
}

struct Change {
    std::string table, old, with;
};

// Makes a table anew, by its own text with the one in the place of the other.
void makeAnew(const std::filesystem::path& path, const Change& change) {
    const auto& [name, old, with] = change;
    const auto database = behindTheBack(path);
    std::string table =
        database->execAndGet("SELECT sql FROM sqlite_schema WHERE name = '" + name + "'")
            .getString();
    const std::string indexes =
        database
            ->execAndGet("SELECT group_concat(sql, ';') FROM sqlite_schema WHERE tbl_name = '" +
                         name + "' AND type = 'index' AND sql IS NOT NULL")
            .getString();
    const auto place = table.find(old);
    REQUIRE(place != std::string::npos);
    table.replace(place, old.size(), with);
    const std::string beginning = "CREATE TABLE " + name;
    REQUIRE(table.starts_with(beginning));
    table.replace(0, beginning.size(), "CREATE TABLE strange");
    database->exec(table + "; INSERT INTO strange SELECT * FROM " + name + "; DROP TABLE " + name +
                   "; ALTER TABLE strange RENAME TO " + name + ";" + indexes);
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
    const auto refused = refuseSchemaAt(path);
    REQUIRE(refused);
    checkWaits(tl::unexpected<Trouble>(*refused));
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

TEST_CASE("A schema that cannot be looked at is none that is as it was made", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    CHECK_FALSE(refuseSchemaAt(folder / "log"));
    writeBytes(folder / "other", "no logbook");
    for (const auto& [name, code] :
         {std::pair("none", Code::NotFound), std::pair("other", Code::NotALogbook)}) {
        CHECK_FALSE(foreignSchemaAt(folder / name));
        const auto refused = refuseSchemaAt(folder / name);
        REQUIRE(refused);
        CHECK(refused->code == code);
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
    makeAnew(folder / "log", {"records", "length(hash) = 32)",
                              "length(hash) = 32) REFERENCES local_heads (hash) ON UPDATE CASCADE"
                              " DEFERRABLE INITIALLY DEFERRED"});
    behindTheBack(folder / "log")->exec("CREATE UNIQUE INDEX by_hash ON local_heads (hash)");
    const auto before = hashes(logbook);
    checkGuarded(logbook, folder / "log");
    auto after = hashes(logbook);
    REQUIRE(after.size() == 4);
    after.pop_back();
    CHECK((after == before));
}

// It is computed for each row that is written, and by verify for each that is there.
TEST_CASE("What a strange table demands of entries keeps none out, unlooked at", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    REQUIRE(logbook.setStation("icu-1", writing()));
    append(logbook, notes("icu-1", 3));
    makeAnew(folder / "log", {"records", "length(hash) = 32", "length(hash) = 32 AND seq < 4"});
    checkGuarded(logbook, folder / "log");
    for (const auto access : {OpenOptions::Access::Read, OpenOptions::Access::Write}) {
        const auto report = open(folder / "log", access).verify();
        REQUIRE(report);
        CHECK(report->schemaChanged.size() > 0);
        CHECK(report->integrity.empty());
        CHECK(report->checked == 4);
    }
}

TEST_CASE("No strange table gives up an entry for another", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    REQUIRE(logbook.setStation("icu-1", writing()));
    append(logbook, notes("icu-1", 3));
    makeAnew(folder / "log", {"records", "UNIQUE (station, seq)",
                              "UNIQUE (station, seq),"
                              " UNIQUE (at_ms, device, kind, station) ON CONFLICT REPLACE"});
    const auto before = contents(logbook);
    const auto refused = logbook.append(std::vector{noteAt("icu-1", 4, 3)}, writing());
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == Code::Damaged);
    CHECK(contents(logbook) == before);
    CHECK(headsOf(logbook).at("icu-1").seq == 3);
    CHECK(logbook.verify()->breaks.empty());
    checkGuarded(logbook, folder / "log");
}

TEST_CASE("No note of verify takes an entry away, whatever a strange trigger is named", "[unit]") {
    const auto name = GENERATE(as<std::string>(), "a", "sqlite1stat_a");
    CAPTURE(name);
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 3));
    // The next one of the station would be put in the place of the second.
    behindTheBack(folder / "log")
        ->exec("CREATE UNIQUE INDEX " + name + "_i ON records (kind) WHERE seq IN (2, 4);"
               "CREATE TRIGGER " + name + "_t BEFORE INSERT ON local_verifications BEGIN"
               " INSERT OR REPLACE INTO records SELECT 4, station, 4, at_ms, entered_ms, device,"
               " kind, content, hash, arrived_ms FROM records WHERE seq = 2; END");
    const auto before = contents(logbook);
    const auto report = logbook.verify();
    REQUIRE(report);
    CHECK(report->schemaChanged == std::vector{name + "_i", name + "_t"});
    CHECK(logbook.noteVerified(*report, writing()));
    CHECK(contents(logbook) == before);
    CHECK(logbook.verify()->breaks.empty());
}

TEST_CASE("No strange table gives up a note of verify for another", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 3));
    const auto whole = logbook.verify();
    REQUIRE(whole);
    REQUIRE(whole->ok());
    REQUIRE(logbook.noteVerified(*whole, writing()));
    makeAnew(folder / "log", {"local_verifications", "checked INTEGER NOT NULL",
                              "checked INTEGER NOT NULL UNIQUE ON CONFLICT REPLACE"});
    const auto strange = logbook.verify();
    REQUIRE(strange);
    REQUIRE(strange->checked == whole->checked);
    CHECK_FALSE(strange->ok());
    const auto noted = logbook.noteVerified(*strange, writing());
    REQUIRE_FALSE(noted);
    CHECK(noted.error().code == Code::Damaged);
    const auto last = logbook.lastVerification();
    REQUIRE(last);
    REQUIRE(*last);
    CHECK((*last)->ok);
}
