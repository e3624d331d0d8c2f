// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// However many rows are gone through for one answer, between two portions of them others may write,
// and the answer is that of the log in which it began.
#include "logbook_files.h"
#include "support/statement_moments.h"

#include <array>
#include <catch2/catch.hpp>

using namespace store;
using namespace store::test;
using support::StatementMoments;
using logbook::RecordName;

namespace {

constexpr std::int64_t late = 1'000'000;  // minutes

logbook::Record strikeAt(std::int64_t seq, std::int64_t atMinute) {
    const std::string at = logbook::toText(minute(atMinute));
    return recordOf(R"({"station":"icu-3","seq":)" + std::to_string(seq) + R"(,"at":")" + at +
                    R"(","entered":")" + at +
                    R"(","by":"mt","device":"KB-0001","kind":"strike","body":)"
                    R"({"target":"icu-1/2","reason":"wrong unit"}})");
}

// A note early and one late, and so many rows of icu-2 between, one a minute, with that content.
void lay(const std::filesystem::path& path, std::int64_t rows, const std::string& kind,
         const std::string& content) {
    Logbook logbook = create(path);
    append(logbook, {noteAt("icu-1", 1, 0), noteAt("icu-1", 2, late)});
    tamper(path, "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < " +
                     std::to_string(rows) +
                     ") INSERT INTO records SELECT i + 2, 'icu-2', i, " +
                     std::to_string(minute(0).ms) + " + i * 60000, " +
                     std::to_string(minute(0).ms) + " + i * 60000, 'KB-0001', '" + kind +
                     "', '" + content + "', zeroblob(32), 0 FROM n");
}

}  // namespace

TEST_CASE("Strikes are looked through in portions, as of the moment of the question", "[fault]") {
    constexpr std::int64_t rows = 10'200;
    const TemporaryFolder folder;
    lay(folder / "log", rows, "strike", strikeAt(1, 0).content);
    const auto place = placeOf(noteAt("icu-1", 9, late - 1));
    const StatementMoments watched(0, {});
    const auto reader = open(folder / "log", OpenOptions::Access::Read);
    Logbook writer = open(folder / "log");
    std::vector<RecordName> found;
    std::int64_t seq = 0;
    int moments = 0;
    for (bool came = true; came;) {
        const auto before = rows + seq;
        bool isWritten = false;
        {
            const StatementMoments each(++moments, [&](sqlite3*) {
                ++seq;
                isWritten = writer.append(std::vector{strikeAt(seq, 15'000 + seq)}, writing())
                                .has_value();
            });
            found = *reader.strikesBeyond(place, nullptr);
            came = each.came();
        }
        CHECK(isWritten == came);
        // In the first moment it is not known yet which log is asked about.
        CHECK(static_cast<std::int64_t>(found.size()) == before + (moments == 1 ? 1 : 0));
        CHECK(found.front() == RecordName{"icu-2", 1});
        CHECK(found[rows - 1] == RecordName{"icu-2", rows});
    }
    // So it is with those that are told to be looked at.
    Snapshot earlier;
    earlier.place = place;
    earlier.strikes = found;
    CHECK(*reader.strikesBeyond(place, &earlier) == found);
    CHECK(moments - 1 == 3);  // before the moment is noted, and before each portion
}

TEST_CASE("What came in later is passed over in portions", "[fault]") {
    const TemporaryFolder folder;
    lay(folder / "log", 2 * rowsPerTransaction + 500, "note", "x");
    const StatementMoments watched(0, {});
    const auto reader = open(folder / "log", OpenOptions::Access::Read);
    Logbook writer = open(folder / "log");
    std::int64_t seq = 0;
    int moments = 0;
    for (bool came = true; came;) {
        bool isWritten = false;
        const StatementMoments each(++moments, [&](sqlite3*) {
            ++seq;
            isWritten = writer.append(std::vector{noteAt("icu-4", seq, late - seq)}, writing())
                            .has_value();
        });
        std::array<ReadRecord, 10> records;
        Selection selection;
        selection.arrivedUpTo = 2;
        const auto count = reader.readRecords(selection, records);
        came = each.came();
        CHECK(isWritten == came);
        REQUIRE(count == 2U);
        CHECK(records[0].place.name == RecordName{"icu-1", 1});
        CHECK(records[1].place.name == RecordName{"icu-1", 2});
        CHECK((records[0].whole && records[1].whole));
    }
    CHECK(moments - 1 == 3);
}

TEST_CASE("A portion ends where its rows hold so many bytes", "[fault]") {
    const TemporaryFolder folder;
    (void)create(folder / "log");
    // Together they hold more than is read at once.
    tamper(folder / "log", "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n"
                           " WHERE i < 3) INSERT INTO records SELECT i, 'icu-1', i, i, i,"
                           " 'KB-0001', 'note', hex(zeroblob(3 * 1024 * 1024)), zeroblob(32), 0"
                           " FROM n");
    const auto reader = open(folder / "log", OpenOptions::Access::Read);
    Logbook writer = open(folder / "log");
    std::vector<RecordName> given;
    REQUIRE(reader.forEachRow({}, [&](const Row& row) {
        if (given.empty()) {
            append(writer, {note("icu-2", 1)});
        }
        given.push_back(row.place.name);
        return true;
    }));
    CHECK(given ==
          std::vector<RecordName>{{"icu-1", 1}, {"icu-1", 2}, {"icu-1", 3}, {"icu-2", 1}});
}

TEST_CASE("Verify gives others their turn where its rows hold so many bytes", "[fault]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    for (std::int64_t seq = 1; seq <= 20; ++seq) {
        append(logbook, {note("icu-1", seq, std::string(1'000'000, 'x'))});
    }
    std::vector<std::int64_t> steps;
    const auto report = logbook.verify([&](std::int64_t done, std::int64_t) {
        steps.push_back(done);
        return true;
    });
    REQUIRE(report);
    CHECK(report->ok());
    CHECK(steps == std::vector<std::int64_t>{17, 20});
}
