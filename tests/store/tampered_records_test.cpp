// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Verify: whichever record of a small logbook is changed, taken out, put in or moved, it is found
// there.
#include "store/logbook.h"

#include "store/proven_records.h"
#include "store/salvage.h"
#include "victim.h"

#include <catch2/catch.hpp>

using namespace store;
using namespace store::test;
using logbook::RecordName;
using Reason = Break::Reason;

namespace {

std::string isAt(const RecordName& name) {
    return " WHERE station = '" + name.station + "' AND seq = " + std::to_string(name.seq);
}

// The row of a note, at the next number of arrival.
std::string putIn(const std::string& station, const logbook::Record& record, const Hash& hash) {
    return "INSERT INTO records SELECT 1 + max(arrival), '" + station + "', " +
           std::to_string(record.name.seq) + ", " + std::to_string(record.at.ms) + ", " +
           std::to_string(record.entered.ms) + ", 'KB-0001', 'note', '" + record.content + "', " +
           hexOf(hash) + ", 0 FROM records;";
}

// SQL that puts another text into a record and chains it and all after it anew.
std::string rewriteFrom(Logbook& logbook, const RecordName& name) {
    std::string sql;
    Hash hash{};
    for (std::int64_t i = 1; i <= lastOf(name.station); ++i) {
        std::string content = logbook.findRecord({name.station, i})->content;
        if (i == name.seq) {
            content = note(name.station, i, "forged").content;
        }
        hash = chainHash(hash, content);
        sql += "UPDATE records SET content = '" + content + "', hash = " + hexOf(hash) +
               isAt({name.station, i}) + ";";
    }
    return sql;
}

}  // namespace

TEST_CASE("A change to any one record is found there", "[exhaustive]") {
    struct Change {
        std::string set;
        Reason reason;
        std::string detail;
    };
    const std::vector<Change> changes = {
        {"content = replace(content, 'seen', 'Seen')", Reason::WrongHash, ""},
        {"content = content || ' '", Reason::WrongHash, ""},
        {"content = ''", Reason::WrongHash, ""},
        {"hash = zeroblob(32)", Reason::WrongHash, ""},
        {"at_ms = at_ms - 1", Reason::Column, "at_ms"},
        {"entered_ms = entered_ms + 1", Reason::Column, "entered_ms"},
        {"device = 'KB-0002'", Reason::Column, "device"},
        {"kind = 'soil'", Reason::Column, "kind"},
    };
    for (const Change& change : changes) {
        for (const auto& name : eachRecord()) {
            INFO(change.set << " of " << name);
            Victim victim;
            victim.tamper("UPDATE records SET " + change.set + isAt(name));
            CHECK(victim.breaks() == std::vector<Break>{{name, change.reason, change.detail}});
        }
    }
}

TEST_CASE("A record taken out is missed, whichever it is", "[exhaustive]") {
    for (const auto& name : eachRecord()) {
        INFO(name);
        Victim victim;
        victim.tamper("DELETE FROM records" + isAt(name));
        const bool isLast = name.seq == lastOf(name.station);
        CHECK(victim.breaks() ==
              std::vector<Break>{{name, isLast ? Reason::TailLost : Reason::Gap}});
    }
}

TEST_CASE("A record put in is found", "[unit]") {
    const auto record = note("icu-2", ofOther + 1);
    Victim unchained;
    unchained.tamper(putIn("icu-2", record, sha256("x")));
    CHECK(unchained.breaks() == std::vector<Break>{{record.name, Reason::WrongHash}});

    Victim chained;
    const Hash last = headsOf(chained.logbook()).at("icu-2").hash;
    chained.tamper(putIn("icu-2", record, chainHash(last, record.content)));
    CHECK(chained.breaks() == std::vector<Break>{{record.name, Reason::NotNoted}});
    // Nor is it handed on.
    CHECK(provenRecords(chained.logbook())->breaks == chained.breaks());
    CHECK(provenRecords(chained.logbook())->records.size() == ofOne + ofOther);

    Victim newStation;
    const auto first = note("icu-3", 1);
    newStation.tamper(putIn("icu-3", first, chainHash({}, first.content)));
    CHECK(newStation.breaks() == std::vector<Break>{{{"icu-3", 1}, Reason::NotNoted}});
    CHECK(provenRecords(newStation.logbook())->breaks == newStation.breaks());
}

TEST_CASE("A record put in under the name of no station is found, and named by all", "[unit]") {
    const auto record = note("icu-3", 1);
    const std::vector<std::pair<Hash, Break>> rows = {
        {sha256("x"), {{"", 1}, Reason::WrongHash}},
        {chainHash({}, record.content), {{"", 1}, Reason::Column, "station"}}};
    for (const auto& [hash, found] : rows) {
        INFO(found);
        Victim victim;
        victim.tamper(putIn("", record, hash));
        CHECK(victim.breaks() == std::vector<Break>{found});
        CHECK(provenRecords(victim.logbook())->records.size() == ofOne + ofOther);
        CHECK(victim.logbook().records()->inDoubt == std::vector<RecordName>{{"", 1}});
        const TemporaryFolder other;
        const auto copied = victim.logbook().backup(other / "copy");
        REQUIRE_FALSE(copied);
        CHECK(copied.error().code == Trouble::Code::ChainBroken);
        CHECK(copied.error().records == std::vector<RecordName>{{"", 1}});
        CHECK(other.names().empty());
        const auto salvaged = salvage(victim.path(), other / "new", minute(2000));
        REQUIRE(salvaged);
        CHECK(salvaged->records == ofOne + ofOther);
        CHECK(salvaged->unproven.empty());
        CHECK(salvaged->nameless == 1);
    }
}

TEST_CASE("A record put in under what is no text is counted", "[unit]") {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 3));
    }
    behindTheBack(folder / "log", true)
        ->exec("PRAGMA writable_schema = ON; UPDATE sqlite_schema"
               " SET sql = replace(sql, 'STRICT', '') WHERE name = 'records'");
    behindTheBack(folder / "log")
        ->exec("INSERT INTO records SELECT 1 + max(arrival), x'7A7A', 1, at_ms, entered_ms,"
               " device, kind, content, hash, 0 FROM records");
    const auto report = open(folder / "log", OpenOptions::Access::Read).verify();
    REQUIRE(report);
    CHECK(report->breaks.empty());
    CHECK(report->integrity ==
          std::vector<std::string>{"rows of records that are of no station: 1"});
}

TEST_CASE("A record put in between any two is found", "[exhaustive]") {
    for (const auto& name : eachRecord()) {
        for (const bool chained : {false, true}) {
            INFO(name << (chained ? " chained" : ""));
            const auto& [station, seq] = name;
            Victim victim;
            const auto record = note(station, seq, "put in");
            const Hash before =
                seq == 1 ? Hash{} : victim.logbook().findRecord({station, seq - 1})->hash;
            const auto ofStation = " WHERE station = '" + station + "' AND seq ";
            victim.tamper(
                "UPDATE records SET seq = seq + 1000" + ofStation + ">= " + std::to_string(seq) +
                "; UPDATE records SET seq = seq - 999" + ofStation + "> 1000;" +
                putIn(station, record,
                      chained ? chainHash(before, record.content) : sha256("x")));
            // One that is chained is found by what no longer fits behind it, the last by its note.
            const bool isLast = seq == lastOf(station);
            const Break found = !chained  ? Break{name, Reason::WrongHash}
                                : !isLast ? Break{{station, seq + 1}, Reason::WrongHash}
                                          : Break{name, Reason::NotAsNoted};
            CHECK(victim.breaks() == std::vector<Break>{found});
        }
    }
}

TEST_CASE("Any two records in each other's place are found", "[exhaustive]") {
    const auto names = eachRecord();
    const auto move = [](const RecordName& from, const RecordName& to) {
        return "UPDATE records SET station = '" + to.station +
               "', seq = " + std::to_string(to.seq) + isAt(from) + ";";
    };
    for (auto one = names.begin(); one != names.end(); ++one) {
        for (auto other = one + 1; other != names.end(); ++other) {
            INFO(*one << " and " << *other);
            Victim victim;
            const RecordName between{"icu-3", 100};
            victim.tamper(move(*one, between) + move(*other, *one) + move(between, *other));
            // Each first of a chain fits the beginning of the other's.
            const bool areFirst = one->seq == 1 && other->seq == 1;
            const auto foundAt = [&](const RecordName& name) {
                return areFirst ? Break{name, Reason::Column, "station"}
                                : Break{name, Reason::WrongHash};
            };
            std::vector<Break> found{foundAt(*one)};
            if (one->station != other->station) {
                found.push_back(foundAt(*other));
            }
            CHECK(victim.breaks() == found);
        }
    }
}

TEST_CASE("A chain written anew does not fit the notes of it", "[exhaustive]") {
    for (const auto& name : eachRecord()) {
        INFO(name);
        Victim victim;
        victim.tamper(rewriteFrom(victim.logbook(), name));
        CHECK(victim.breaks() ==
              std::vector<Break>{{{name.station, lastOf(name.station)}, Reason::NotAsNoted}});
    }
    Victim thorough;
    thorough.noteVerified();
    thorough.tamper(rewriteFrom(thorough.logbook(), {"icu-1", 3}) +
                    "UPDATE local_heads SET hash = (SELECT hash FROM records WHERE records.station"
                    " = local_heads.station AND records.seq = local_heads.seq)");
    CHECK(thorough.breaks() == std::vector<Break>{{{"icu-1", ofOne}, Reason::NotAsNoted}});
}
