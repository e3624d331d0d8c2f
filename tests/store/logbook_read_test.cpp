// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading: the order, the portions, the selections, and what of a damaged row.
#include "store/logbook.h"

#include "logbook_files.h"
#include "store/proven_records.h"
#include "support/seed.h"
#include "support/statement_moments.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

using namespace store;
using namespace store::test;
using support::StatementMoments;
using logbook::Record;
using logbook::RecordName;

namespace {

std::vector<RecordName> namesOf(const std::vector<Record>& records) {
    std::vector<RecordName> names;
    for (const Record& record : records) {
        names.push_back(record.name);
    }
    return names;
}

std::vector<Record> inReadingOrder(std::vector<Record> records) {
    std::sort(records.begin(), records.end(),
              [](const Record& a, const Record& b) { return readingOrder(a, b) < 0; });
    return records;
}

}  // namespace

TEST_CASE("Records are read by at, entered, station and seq", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    const auto enteredLate = [](std::string_view station, int seq, int at, int entered) {
        return recordOf("{\"station\":\"" + std::string(station) + "\",\"seq\":" +
                        std::to_string(seq) + ",\"at\":\"" + toText(minute(at)) +
                        "\",\"entered\":\"" + toText(minute(entered)) +
                        "\",\"by\":\"mt\",\"device\":\"KB-0001\",\"kind\":\"note\","
                        "\"body\":{\"text\":\"\"}}");
    };
    append(logbook, {enteredLate("b", 1, 5, 9), enteredLate("b", 2, 5, 6),
                     enteredLate("b", 3, 4, 9), enteredLate("a", 1, 5, 9),
                     enteredLate("a", 2, 5, 6), enteredLate("a-1", 1, 5, 6),
                     enteredLate("a", 3, 5, 6)});
    CHECK(namesOf(logbook.records()->records) ==
          std::vector<RecordName>{
              {"b", 3}, {"a", 2}, {"a", 3}, {"a-1", 1}, {"b", 2}, {"a", 1}, {"b", 1}});
}

TEST_CASE("Over several portions the order is that of one sort", "[property]") {
    const auto seed = support::seedOfRun();
    INFO("seed " << seed);
    std::mt19937 random(seed);
    std::vector<Record> records;
    const int each = rowsPerTransaction / 2 + 700;
    for (const char* station : {"icu-1", "icu-2"}) {
        for (int seq = 1; seq <= each; ++seq) {
            // Few instants, so that many records share one and portions end among them.
            records.push_back(noteAt(station, seq, static_cast<int>(random() % 50)));
        }
    }
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, records);
    const auto read = logbook.records();
    REQUIRE(read);
    CHECK(read->inDoubt.empty());
    CHECK(read->lastArrival == 2 * each);
    const std::vector<Record> sorted = inReadingOrder(records);
    REQUIRE(read->records.size() == sorted.size());
    const bool same = std::equal(
        sorted.begin(), sorted.end(), read->records.begin(),
        [](const Record& a, const Record& b) { return a.content == b.content; });
    CHECK(same);
    // Handed on is the log of one moment, whatever others write in whichever: here a late entry,
    // and one behind all others.
    const StatementMoments watched(0, {});
    const auto reader = open(folder / "log", OpenOptions::Access::Read);
    std::int64_t last = each;
    int moment = 1;
    for (bool came = true; came; ++moment) {
        INFO("moment " << moment);
        const StatementMoments moments(moment, [&](sqlite3*) {
            append(logbook, {noteAt("icu-1", last + 1, 0), noteAt("icu-1", last + 2, 60)});
            last += 2;
        });
        const auto proven = provenRecords(reader);
        came = moments.came();
        REQUIRE(proven);
        CHECK(proven->breaks.empty());
        const auto count = static_cast<std::int64_t>(proven->records.size());
        CHECK((count == each + last || count == each + last - 2));
    }
    CHECK(moment > 6);
}

TEST_CASE("Between portions writers get their turn", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 10));
    Logbook writer = open(folder / "log");
    int seen = 0;
    const auto read = logbook.forEachRow({}, [&](const Row&) {
        if (++seen == 5) {
            CHECK(writer.append(std::vector{note("icu-2", 1)}, writing()));
            CHECK(logbook.append(std::vector{note("icu-3", 1)}, writing()));
        }
        return true;
    });
    CHECK(read);
    CHECK(seen == 10);
    CHECK(logbook.count() == 12);
}

TEST_CASE("A reader may stop", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 10));
    int seen = 0;
    CHECK(logbook.forEachRow({}, [&](const Row&) { return ++seen < 4; }));
    CHECK(seen == 4);
}

TEST_CASE("Rows are selected by place, device and arrival", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 4));
    append(logbook, {founding("person", "icu-2", 1, 2), noteAt("icu-2", 2, 0)});
    const auto selected = [&](const Selection& selection) {
        return namesOf(logbook.records(selection)->records);
    };
    CHECK(selected({}).size() == 6);
    CHECK(selected({placeOf(note("icu-1", 2))}) ==
          std::vector<RecordName>{{"icu-2", 1}, {"icu-1", 3}, {"icu-1", 4}});
    CHECK(selected({std::nullopt, ""}) == std::vector<RecordName>{{"icu-2", 1}});
    CHECK(selected({placeOf(note("icu-1", 2)), "KB-0001"}) ==
          std::vector<RecordName>{{"icu-1", 3}, {"icu-1", 4}});
    CHECK(selected({std::nullopt, "KB-0002"}).empty());
    CHECK(selected({std::nullopt, std::nullopt, 4}) ==
          std::vector<RecordName>{{"icu-2", 2}, {"icu-2", 1}});
    CHECK(selected({placeOf(note("icu-1", 1)), std::nullopt, 3}) ==
          std::vector<RecordName>{{"icu-2", 1}, {"icu-1", 4}});
    CHECK(selected({std::nullopt, std::nullopt, 6}).empty());
}

TEST_CASE("A row tells all that is kept of a record", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    const Record record = noteAt("icu-1", 1, 30);
    REQUIRE(logbook.append(std::vector{record}, writing(45)));
    const auto row = logbook.findRecord({"icu-1", 1});
    REQUIRE(row);
    CHECK(row->place == placeOf(record));
    CHECK(row->device == "KB-0001");
    CHECK(row->kind == "note");
    CHECK(row->content == record.content);
    CHECK(row->hash == chainHash({}, record.content));
    CHECK(row->arrived == minute(45));
    CHECK(row->arrival == 1);

    const auto none = logbook.findRecord({"icu-1", 2});
    REQUIRE_FALSE(none);
    CHECK(none.error().code == Trouble::Code::NoRecord);
    CHECK(none.error().records == std::vector<RecordName>{{"icu-1", 2}});
}

TEST_CASE("Heads say until when a station was heard", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    REQUIRE(logbook.append(std::vector{noteAt("icu-1", 1, 30)}, writing(40)));
    // A clock put back: the latest entry is not the last one.
    REQUIRE(logbook.append(std::vector{noteAt("icu-1", 2, 20)}, writing(50)));
    const auto heads = logbook.heads();
    REQUIRE(heads);
    CHECK(heads->at("icu-1").head.seq == 2);
    CHECK(heads->at("icu-1").entered == minute(30));
    CHECK(heads->at("icu-1").arrived == minute(50));
}

TEST_CASE("What cannot be read as a record does not stop the others", "[fault]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 6));
    const auto database = behindTheBack(folder / "log", true);
    database->exec("UPDATE records SET content = 'x' WHERE seq = 2");
    database->exec("UPDATE records SET device = 'KB-0009' WHERE seq = 4");
    database->exec("UPDATE records SET kind = 'soil' WHERE seq = 5");
    const auto records = logbook.records();
    REQUIRE(records);
    CHECK(namesOf(records->records) ==
          std::vector<RecordName>{{"icu-1", 1}, {"icu-1", 3}, {"icu-1", 6}});
    CHECK(records->inDoubt ==
          std::vector<RecordName>{{"icu-1", 2}, {"icu-1", 4}, {"icu-1", 5}});
}

TEST_CASE("An edition or a person that does not fit its seal is not whole", "[fault]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, {founding("adopt", "icu-1", 1, 1), founding("person", "icu-1", 2, 2),
                     noteAt("icu-1", 3, 3), founding("person", "icu-1", 4, 4)});
    const auto wholeOnes = [&](const Selection& selection) {
        std::vector<ReadRecord> read(8);
        const auto count = logbook.readRecords(selection, read);
        REQUIRE(count);
        std::vector<std::int64_t> whole;
        for (std::size_t index = 0; index < *count; ++index) {
            if (read[index].whole) whole.push_back(read[index].place.name.seq);
        }
        return whole;
    };
    using Numbers = std::vector<std::int64_t>;
    REQUIRE(wholeOnes({}) == Numbers{1, 2, 3, 4});
    const auto alter = [&](const std::string& of, const std::string& into) {
        tamper(folder / "log", "UPDATE records SET content = replace(content, '" + of + "', '" +
                                   into + "')");
    };
    SECTION("by a letter of an edition") {
        alter("edition = ", "editiom = ");
        CHECK(wholeOnes({}) == Numbers{2, 3, 4});
        CHECK(wholeOnes({.kinds = Selection::Kinds::Founding}) == Numbers{2, 4});
        CHECK(wholeOnes({.withContent = logbook::WithContent::No}) == Numbers{2, 3, 4});
    }
    SECTION("by a letter of a role") {
        alter("chief", "thief");
        CHECK(wholeOnes({}) == Numbers{1, 3});
    }
    SECTION("by the seal of the one before") {
        tamper(folder / "log", "UPDATE records SET hash = zeroblob(32) WHERE seq = 3");
        CHECK(wholeOnes({}) == Numbers{1, 2, 3});
    }
    SECTION("of which the one before is gone it is told otherwise") {
        tamper(folder / "log", "DELETE FROM records WHERE seq = 3");
        CHECK(wholeOnes({}) == Numbers{1, 2, 4});
    }
    SECTION("what is no founding is left to verify") {
        alter("seen", "sees");
        CHECK(wholeOnes({}) == Numbers{1, 2, 3, 4});
    }
}
