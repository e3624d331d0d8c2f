// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Snapshots: which of them still holds for all that came in since, and what is made of those that
// are damaged, of another revision, or of another log.
#include "store/logbook.h"

#include "logbook_files.h"

#include <SQLiteCpp/Statement.h>
#include <catch2/catch.hpp>

using namespace store;
using namespace store::test;
using logbook::RecordName;

namespace {

constexpr int engine = 7;

logbook::Record strikeOf(std::string_view station, std::int64_t seq, std::int64_t atMinute,
                         std::string_view target) {
    const std::string at = logbook::toText(minute(atMinute));
    return recordOf(R"({"station":")" + std::string(station) + R"(","seq":)" +
                    std::to_string(seq) + R"(,"at":")" + at + R"(","entered":")" + at +
                    R"(","by":"mt","device":"KB-0001","kind":"strike","body":{"target":")" +
                    std::string(target) + R"(","reason":"wrong unit"}})");
}

// Notes of minutes 1 to 20 of one station.
class Log {
public:
    Log() : m_logbook(create(m_folder / "log")) { add(notes("icu-1", 20)); }

    void add(const std::vector<logbook::Record>& records) { append(m_logbook, records); }

    [[nodiscard]] Snapshot at(std::int64_t seq, std::string bytes = "bytes") const {
        Snapshot snapshot;
        snapshot.place = placeOf(note("icu-1", seq));
        snapshot.arrival = *m_logbook.lastArrival();
        snapshot.heads = store::headsOf(*m_logbook.heads());
        snapshot.engine = engine;
        snapshot.bytes = std::move(bytes);
        return snapshot;
    }
    void keep(const std::vector<Snapshot>& snapshots, const std::vector<Place>& staying = {}) {
        REQUIRE(m_logbook.keepSnapshots(snapshots, staying, writing()));
    }
    [[nodiscard]] std::optional<Snapshot> found(std::int64_t atMinute = 10'000) const {
        const auto snapshot = m_logbook.snapshotFor({minute(atMinute), engine});
        REQUIRE(snapshot);
        return *snapshot;
    }
    // Of the place of the one found; 0 for none.
    [[nodiscard]] std::int64_t seqFound(std::int64_t atMinute = 10'000) const {
        const auto snapshot = found(atMinute);
        return snapshot ? snapshot->place.name.seq : 0;
    }
    [[nodiscard]] Logbook& logbook() { return m_logbook; }
    [[nodiscard]] std::filesystem::path path() const { return m_folder / "log"; }
    void tamper(const std::string& sql) const { behindTheBack(path())->exec(sql); }

private:
    TemporaryFolder m_folder;
    Logbook m_logbook;
};

}  // namespace

TEST_CASE("a snapshot that is kept comes back as it was", "[unit]") {
    Log log;
    CHECK(log.seqFound() == 0);
    auto snapshot = log.at(10, std::string("a\0b", 3));
    snapshot.strikes = {{"icu-1", 3}, {"icu-2", 9}};
    snapshot.rulebooks.fill(5);
    log.keep({snapshot});
    CHECK(log.found() == snapshot);
    CHECK(*log.logbook().snapshotAt(snapshot.place) == snapshot);
    CHECK(log.logbook().verify()->ok());
}

TEST_CASE("the newest that lies before the time asked is found", "[unit]") {
    Log log;
    log.keep({log.at(5), log.at(10), log.at(15)});
    CHECK(log.seqFound() == 15);
    CHECK(log.seqFound(15) == 15);
    CHECK(log.seqFound(14) == 10);
    CHECK(log.seqFound(4) == 0);
    const auto older = log.logbook().snapshotFor({minute(10'000), engine, log.at(15).place});
    REQUIRE(*older);
    CHECK((*older)->place == log.at(10).place);
    CHECK_FALSE(*log.logbook().snapshotFor({minute(10'000), engine + 1}));
}

TEST_CASE("a record that arrives later voids those whose place it precedes", "[unit]") {
    Log log;
    log.keep({log.at(5), log.at(10), log.at(15)});
    SECTION("after them all") {
        log.add({noteAt("icu-2", 1, 21)});
        CHECK(log.seqFound() == 15);
    }
    SECTION("between two") {
        log.add({noteAt("icu-2", 1, 12)});
        CHECK(log.seqFound() == 10);
    }
    SECTION("before them all") {
        log.add({noteAt("icu-2", 1, 1)});
        CHECK(log.seqFound() == 0);
    }
    SECTION("at the same instant, it is the whole order that counts") {
        log.add({noteAt("icu-0", 1, 10)});
        CHECK(log.seqFound() == 5);
    }
    SECTION("one that is made afterwards holds") {
        log.add({noteAt("icu-2", 1, 12)});
        const std::vector<Place> staying{log.at(5).place};
        log.keep({log.at(14)}, staying);
        CHECK(log.seqFound() == 14);
        const auto kept = *log.logbook().snapshotsKept();
        REQUIRE(kept.size() == 2);
        CHECK(kept[0].place == log.at(5).place);
        CHECK((kept[0].isValid && kept[1].isValid));
    }
}

TEST_CASE("a strike voids those that hold what it strikes", "[unit]") {
    Log log;
    log.keep({log.at(5), log.at(10), log.at(15)});
    log.add({strikeOf("icu-2", 1, 30, "icu-1/12")});
    CHECK(log.seqFound() == 10);
    log.add({strikeOf("icu-2", 2, 31, "icu-9/1")});
    CHECK(log.seqFound() == 10);
}

TEST_CASE("who may strike voids what strikes after it may bear on", "[unit]") {
    Log log;
    log.add({strikeOf("icu-2", 1, 30, "icu-1/2")});
    log.keep({log.at(10)});
    const std::string kind = GENERATE("adopt", "person");
    SECTION("no strike lies behind it") {
        log.add({founding(kind, "icu-3", 1, 31)});
        CHECK(log.seqFound() == 10);
    }
    SECTION("one does") {
        log.add({founding(kind, "icu-3", 1, 29)});
        CHECK(log.seqFound() == 0);
    }
}

TEST_CASE("strikes of what lies behind a place are told", "[unit]") {
    Log log;
    log.add({strikeOf("icu-2", 1, 6, "icu-1/3"), strikeOf("icu-2", 2, 7, "icu-1/12"),
             strikeOf("icu-2", 3, 8, "icu-9/1"), strikeOf("icu-2", 4, 16, "icu-1/18")});
    auto first = log.at(10);
    first.strikes = *log.logbook().strikesBeyond(first.place, nullptr);
    CHECK(first.strikes == std::vector<RecordName>{{"icu-2", 2}, {"icu-2", 3}});
    const auto second = log.at(17).place;
    const auto wanted = std::vector<RecordName>{{"icu-2", 3}, {"icu-2", 4}};
    CHECK(*log.logbook().strikesBeyond(second, nullptr) == wanted);
    CHECK(*log.logbook().strikesBeyond(second, &first) == wanted);
}

TEST_CASE("one that was changed in any column is not found", "[unit]") {
    const std::string column =
        GENERATE("at_ms = at_ms - 1", "entered_ms = entered_ms - 1", "station = 'icu-2'",
                 "seq = seq - 1", "arrival = arrival - 1", "heads = '{}'",
                 "heads = 'nothing'", "strikes = '[\"icu-1/1\"]'", "strikes = '[1]'",
                 "rulebooks = zeroblob(32)", "hash = zeroblob(32)", "bytes = x'00'",
                 "bytes = zeroblob(0)");
    CAPTURE(column);
    Log log;
    auto snapshot = log.at(10);
    snapshot.rulebooks.fill(1);
    log.keep({log.at(5), snapshot});
    log.tamper("UPDATE derived_snapshots SET " + column + " WHERE seq = 10");
    CHECK(log.seqFound() == 5);
    CHECK(log.logbook().verify()->ok());
}

TEST_CASE("of the bytes of one, none can be changed", "[exhaustive]") {
    Log log;
    const std::string bytes = "the state of all units";
    log.keep({log.at(10, bytes)});
    for (std::size_t place = 0; place < bytes.size(); ++place) {
        auto changed = bytes;
        changed[place] = static_cast<char>(changed[place] ^ 1);
        log.tamper("UPDATE derived_snapshots SET bytes = CAST('" + changed + "' AS BLOB)");
        REQUIRE(log.seqFound() == 0);
    }
    log.tamper("UPDATE derived_snapshots SET bytes = CAST('" + bytes + "' AS BLOB)");
    CHECK(log.seqFound() == 10);
}

TEST_CASE("one of another log is not found, though it is whole", "[unit]") {
    Log log;
    auto snapshot = log.at(10);
    SECTION("of other chains") {
        snapshot.heads.at("icu-1").hash.fill(9);
    }
    SECTION("with more records than there are") {
        ++snapshot.arrival;
    }
    log.keep({snapshot});
    CHECK(log.seqFound() == 0);
}

TEST_CASE("derived tables of another revision are made anew by a writer", "[unit]") {
    Log log;
    log.keep({log.at(10)});
    SECTION("of another revision") {
        log.tamper("UPDATE derived_revision SET revision = revision + 1");
    }
    SECTION("with half of them gone") {
        log.tamper("DROP TABLE derived_revision");
    }
    SECTION("with other columns") {
        log.tamper("DROP TABLE derived_snapshots; CREATE TABLE derived_snapshots (at_ms INTEGER);"
                   "CREATE TABLE derived_others (one); UPDATE derived_revision SET revision = 0");
    }
    SECTION("under names in capitals") {
        log.tamper("UPDATE derived_revision SET revision = 0;"
                   "DROP TABLE derived_snapshots; CREATE TABLE DERIVED_Snapshots (at_ms INTEGER)");
    }
    CHECK(log.seqFound() == 0);
    CHECK(log.logbook().verify()->ok());
    log.keep({log.at(12)});
    CHECK(log.seqFound() == 12);
}

TEST_CASE("what is derived can be thrown away, and is in no backup", "[unit]") {
    Log log;
    log.keep({log.at(10)});
    const TemporaryFolder folder;
    REQUIRE(log.logbook().backup(folder / "copy"));
    checkRestores(folder / "copy", log.logbook());
    const auto copy = behindTheBack(folder / "copy");
    CHECK(copy->execAndGet("SELECT count(*) FROM sqlite_schema WHERE name LIKE 'derived%'")
              .getInt() == 0);
    REQUIRE(log.logbook().dropDerived(writing()));
    CHECK(log.seqFound() == 0);
    CHECK(log.logbook().snapshotsKept()->empty());
    CHECK(log.logbook().verify()->ok());
}

TEST_CASE("a table that only bears the name of a derived one is told by verify", "[unit]") {
    Log log;
    const std::string made = GENERATE(
        "CREATE TRIGGER derived_guard AFTER INSERT ON records BEGIN SELECT 1; END",
        "CREATE VIEW derived_view AS SELECT 1", "CREATE INDEX derived_index ON records (kind)");
    log.tamper(made);
    CHECK_FALSE(log.logbook().verify()->schemaChanged.empty());
}

TEST_CASE("rows after a place are counted up to a bound", "[unit]") {
    Log log;
    CHECK(*log.logbook().countAfter(log.at(15).place, 100) == 5);
    CHECK(*log.logbook().countAfter(log.at(15).place, 3) == 3);
    CHECK(*log.logbook().countAfter(std::nullopt, 100) == 20);
}
