// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Appending: what goes in, what is skipped, and what refuses the whole.
#include "store/logbook.h"

#include "logbook_files.h"

#include <SQLiteCpp/Exception.h>
#include <catch2/catch.hpp>

#include <algorithm>

using namespace store;
using namespace store::test;
using logbook::Record;
using logbook::RecordName;
using Code = Trouble::Code;

namespace {

// That the append is refused with that code and those names, and nothing has changed.
void checkRefused(Logbook& logbook, const std::vector<Record>& records, Code code,
                  const std::vector<RecordName>& named) {
    const auto before = contents(logbook);
    const auto headsBefore = headsOf(logbook);
    const auto result = logbook.append(records, writing());
    REQUIRE_FALSE(result);
    CHECK(result.error().code == code);
    CHECK(result.error().records == named);
    CHECK(contents(logbook) == before);
    CHECK(headsOf(logbook) == headsBefore);
    CHECK(logbook.verify()->ok());
}

}  // namespace

TEST_CASE("Records of several stations are chained each by itself", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    const std::vector<Record> records = {note("icu-2", 1), note("icu-1", 2), note("icu-1", 1)};
    const AppendResult result = append(logbook, records);
    CHECK(result.added == 3);
    CHECK(result.skipped == 0);
    CHECK(result.addedRecords ==
          std::vector<RecordName>{{"icu-1", 1}, {"icu-1", 2}, {"icu-2", 1}});
    const Hash first = chainHash({}, records[2].content);
    CHECK(headsOf(logbook) == Heads{{"icu-1", {2, chainHash(first, records[1].content)}},
                                    {"icu-2", {1, chainHash({}, records[0].content)}}});
    CHECK(logbook.count() == 3);
    CHECK(logbook.lastArrival() == 3);
    CHECK(logbook.verify()->ok());
}

TEST_CASE("A chain does not depend on how records came in", "[unit]") {
    const TemporaryFolder folder;
    Logbook atOnce = create(folder / "at-once");
    Logbook oneByOne = create(folder / "one-by-one");
    const std::vector<Record> records = notes("icu-1", 7);
    append(atOnce, records);
    for (const Record& record : records) {
        append(oneByOne, {record});
    }
    CHECK(headsOf(atOnce) == headsOf(oneByOne));
}

TEST_CASE("What is here already is skipped and counted", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 3));
    std::vector<Record> again = notes("icu-1", 5);
    again.push_back(note("icu-1", 5));
    const AppendResult result = append(logbook, again);
    CHECK(result.added == 2);
    CHECK(result.skipped == 4);
    CHECK(logbook.count() == 5);
    CHECK(append(logbook, {}) == AppendResult{});
}

TEST_CASE("Another content under the same name is a fork", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 3));
    checkRefused(logbook, {note("icu-2", 1), note("icu-1", 2, "other"), note("icu-1", 4)},
                 Code::Fork, {{"icu-1", 2}});
    checkRefused(logbook, {note("icu-2", 1), note("icu-2", 1, "other")}, Code::Fork,
                 {{"icu-2", 1}});
}

TEST_CASE("A gap refuses all and names what is wanted", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 3));
    checkRefused(logbook,
                 {note("icu-1", 4), note("icu-1", 6), note("icu-1", 7), note("icu-1", 9),
                  note("icu-2", 2), note("icu-3", 1)},
                 Code::Gap, {{"icu-1", 5}, {"icu-1", 8}, {"icu-2", 1}});
}

TEST_CASE("Which record founds the log is not changed later", "[unit]") {
    const TemporaryFolder folder;
    for (const std::string kind : {"adopt", "person"}) {
        Logbook logbook = create(folder / kind);
        append(logbook, {founding(kind, "icu-1", 1, 10)});
        checkRefused(logbook, {founding(kind, "icu-2", 1, 9)}, Code::FirstChanged,
                     {{"icu-1", 1}, {"icu-2", 1}});
        append(logbook, {founding(kind, "icu-2", 1, 11)});
        CHECK(logbook.count() == 2);
    }
}

TEST_CASE("Nothing is updated, deleted or replaced", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 3));
    const auto before = contents(logbook);
    const auto database = behindTheBack(folder / "log");
    const std::string values = " (station, seq, at_ms, entered_ms, device, kind, content, hash,"
                               " arrived_ms, arrival) SELECT station, seq, at_ms, entered_ms,"
                               " device, kind, 'x', hash, arrived_ms, ";
    const std::vector<std::string> statements = {
        "UPDATE records SET content = 'x'",
        "UPDATE records SET arrival = arrival + 10",
        "UPDATE OR REPLACE records SET seq = 2 WHERE seq = 3",
        "DELETE FROM records WHERE seq = 3",
        "DELETE FROM records",
        "INSERT OR REPLACE INTO records" + values + "arrival FROM records WHERE seq = 2",
        "INSERT OR REPLACE INTO records" + values + "NULL FROM records WHERE seq = 2",
        "REPLACE INTO records" + values + "4 FROM records WHERE seq = 2",
        "INSERT INTO records" + values + "arrival FROM records WHERE seq = 2"
        " ON CONFLICT DO UPDATE SET content = 'x'",
    };
    for (const std::string& statement : statements) {
        INFO(statement);
        CHECK_THROWS_AS(database->exec(statement), SQLite::Exception);
    }
    CHECK(contents(logbook) == before);
    CHECK(logbook.verify()->ok());
}

TEST_CASE("No seq is given twice after a tail was cut off", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 3));
    behindTheBack(folder / "log", true)->exec("DELETE FROM records WHERE seq = 3");
    const auto result = logbook.append(std::vector{note("icu-1", 3, "other")}, writing());
    REQUIRE_FALSE(result);
    CHECK(result.error().code == Code::ChainBroken);
    CHECK(result.error().records == std::vector<RecordName>{{"icu-1", 3}});
}

TEST_CASE("The own station's numbers go on without a gap", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    const auto one = [](const RecordName& next) {
        return std::vector{note(next.station, next.seq)};
    };
    const auto early = logbook.appendOwn(one, writing());
    REQUIRE_FALSE(early);
    CHECK(early.error().code == Code::NoStation);

    REQUIRE(logbook.setStation("icu-1", writing()));
    append(logbook, notes("icu-2", 4));
    CHECK(logbook.appendOwn(one, writing()) == std::vector<RecordName>{{"icu-1", 1}});
    const auto two = logbook.appendOwn(
        [](const RecordName& next) {
            return std::vector{note(next.station, next.seq), note(next.station, next.seq + 1)};
        },
        writing());
    CHECK(two == std::vector<RecordName>{{"icu-1", 2}, {"icu-1", 3}});
    const auto none =
        logbook.appendOwn([](const RecordName&) { return std::vector<Record>{}; }, writing());
    CHECK(none == std::vector<RecordName>{});
    CHECK(headsOf(logbook).at("icu-1").seq == 3);
}

TEST_CASE("Only the next records of the own station are its own", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    REQUIRE(logbook.setStation("icu-1", writing()));
    append(logbook, notes("icu-1", 2));
    for (const Record& wrong : {note("icu-1", 2), note("icu-1", 4), note("icu-2", 1)}) {
        const auto result =
            logbook.appendOwn([&](const RecordName&) { return std::vector{wrong}; }, writing());
        REQUIRE_FALSE(result);
        CHECK(result.error().code == Code::NotOwn);
        CHECK(result.error().records == std::vector{wrong.name});
    }
    CHECK(logbook.count() == 2);
}

TEST_CASE("Who builds an own record may read the logbook", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    REQUIRE(logbook.setStation("icu-1", writing()));
    append(logbook, notes("icu-1", 2));
    std::size_t seen = 0;
    const auto result = logbook.appendOwn(
        [&](const RecordName& next) {
            seen = logbook.records()->records.size();
            return std::vector{note(next.station, next.seq)};
        },
        writing());
    CHECK(result);
    CHECK(seen == 2);
}

TEST_CASE("What could not be read again is never kept", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 1));
    Record bad = note("icu-1", 2, "seen");
    bad.content.replace(bad.content.find("seen"), 4, "caf\xe9");
    checkRefused(logbook, {bad}, Code::Io, {{"icu-1", 2}});
    Record other = note("icu-1", 2);
    other.device = "KB-0002";
    checkRefused(logbook, {other}, Code::Io, {{"icu-1", 2}});
    append(logbook, {note("icu-1", 2)});
}

TEST_CASE("A logbook opened to read is not written", "[unit]") {
    const TemporaryFolder folder;
    (void)create(folder / "log");
    const std::string before = bytesOf(folder / "log");
    Logbook logbook = open(folder / "log", OpenOptions::Access::Read);
    CHECK(logbook.append(notes("icu-1", 1), writing()).error().code == Code::ReadOnly);
    CHECK(logbook.importRecords(lent(notes("icu-1", 1)), "a", writing()).error().code ==
          Code::ReadOnly);
    CHECK(logbook.setStation("icu-1", writing()).error().code == Code::ReadOnly);
    CHECK(logbook.setSetting("a", "b", writing()).error().code == Code::ReadOnly);
    CHECK(logbook.noteVerified({}, writing()).error().code == Code::ReadOnly);
    CHECK(bytesOf(folder / "log") == before);
}
