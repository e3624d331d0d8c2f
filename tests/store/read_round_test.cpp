// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A file that is damaged beside its records: what is whole is read all the same, and it is told
// that something is not.
#include "logbook_files.h"
#include "store/proven_records.h"

#include <SQLiteCpp/Statement.h>
#include <algorithm>
#include <catch2/catch.hpp>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Code = Trouble::Code;
using logbook::RecordName;
using Reason = Break::Reason;

namespace {

constexpr std::int64_t ofOne = 9;
constexpr std::int64_t ofOther = 3;

// Two stations, a name, a setting, and a verify that was noted.
std::string wholeBytes() {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", ofOne));
        append(logbook, notes("icu-2", ofOther));
        append(logbook, {founding("adopt", "er-1", 1, 20)});
        REQUIRE(logbook.setStation("desk", writing()));
        REQUIRE(logbook.setSetting("stale_after", "PT6H", writing()));
        REQUIRE(logbook.noteVerified(*logbook.verify(), writing()));
    }
    return bytesOf(folder / "log");
}

// The same with the first page of that table or index zeroed.
void writeWithout(const std::filesystem::path& path, const std::string& bytes,
                  const std::string& name) {
    writeBytes(path, bytes);
    const auto page = [&] {
        const auto database = behindTheBack(path);
        SQLite::Statement statement(*database,
                                    "SELECT rootpage FROM sqlite_schema WHERE name = ?");
        statement.bind(1, name);
        REQUIRE(statement.executeStep());
        return static_cast<std::size_t>(statement.getColumn(0).getInt());
    }();
    auto damaged = bytes;
    damaged.replace((page - 1) * 4096, 4096, 4096, '\0');
    writeBytes(path, damaged);
}

Logbook openToRead(const std::filesystem::path& path) {
    return open(path, Access::Read);
}

std::vector<RecordName> namesOf(const std::vector<logbook::Record>& records) {
    std::vector<RecordName> names;
    for (const auto& record : records) {
        names.push_back(record.name);
    }
    return names;
}

}  // namespace

TEST_CASE("A page beside the records keeps none of them from being read", "[fault]") {
    const auto bytes = wholeBytes();
    const TemporaryFolder folder;
    writeBytes(folder / "whole", bytes);
    const auto whole = openToRead(folder / "whole");
    const auto records = contents(whole);
    const auto heads = headsOf(whole);
    REQUIRE(records.size() == ofOne + ofOther + 1);
    CHECK_FALSE(whole.metDamage());
    for (const auto* name :
         {"records_in_reading_order", "records_by_device", "records_that_found",
          "sqlite_autoindex_records_1", "local_heads", "local_verifications", "local_settings",
          "local_station"}) {
        INFO(name);
        writeWithout(folder / "log", bytes, name);
        const auto logbook = openToRead(folder / "log");
        CHECK(contents(logbook) == records);
        CHECK(headsOf(logbook) == heads);
        CHECK(logbook.count() == ofOne + ofOther + 1);
        CHECK(namesOf(logbook.records({std::nullopt, "KB-0001"})->records).size() ==
              ofOne + ofOther);
        std::vector<ReadRecord> founding(2);
        REQUIRE(logbook.readRecords({.kinds = Selection::Kinds::Founding}, founding) == 1U);
        CHECK(founding.front().whole);
        CHECK(founding.front().record.name == RecordName{"er-1", 1});
        CHECK(logbook.findRecord({"icu-1", 4})->content == note("icu-1", 4).content);
        CHECK(logbook.findRecord({"icu-1", 99}).error().code == Code::NoRecord);
        CHECK(logbook.latestEntered(minute(5)) == minute(5));
        CHECK(logbook.lastVerification());
        CHECK(logbook.settings());
        CHECK(logbook.station());
        CHECK(logbook.metDamage());
        const auto report = logbook.verify();
        REQUIRE(report);
        CHECK_FALSE(report->ok());
        CHECK(report->breaks.empty());
        CHECK(report->checked == ofOne + ofOther + 1);
        const auto proven = provenRecords(logbook);
        REQUIRE(proven);
        CHECK(proven->breaks.empty());
        CHECK(proven->records.size() == records.size());
    }
}

// Of each record it is known that there is one, and what can be read of it is as it was.
TEST_CASE("A damaged page of records costs those on it, and no other", "[fault]") {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 60));
        append(logbook, notes("icu-2", 20));
        append(logbook, {founding("adopt", "er-1", 1, 200)});
    }
    const auto bytes = bytesOf(folder / "log");
    const auto whole = openToRead(folder / "log").records()->records;
    REQUIRE(whole.size() == 81);
    std::size_t costly = 0;
    int refused = 0;
    for (std::size_t page = 1; page < bytes.size() / 4096; ++page) {
        INFO("page " << page + 1);
        auto damaged = bytes;
        damaged.replace(page * 4096, 4096, 4096, '\0');
        writeBytes(folder / "log", damaged);
        const auto opened = Logbook::open(folder / "log", {Access::Read});
        if (!opened) {
            // Without its schema no file opens: one page beside the first.
            CHECK(opened.error().code == Code::Damaged);
            CHECK(++refused == 1);
            continue;
        }
        const auto& logbook = *opened;
        const auto read = logbook.records();
        REQUIRE(read);
        for (const auto& record : read->records) {
            const auto before = std::ranges::find(whole, record.name, &logbook::Record::name);
            REQUIRE(before != whole.end());
            CHECK(record.content == before->content);
        }
        CHECK(read->records.size() + read->inDoubt.size() == whole.size());
        CHECK(logbook.lastArrival() == 81);
        if (read->inDoubt.empty()) {
            continue;
        }
        ++costly;
        CHECK(logbook.metDamage());
        const auto& lost = read->inDoubt.front();
        CHECK(logbook.findRecord(lost)->content.empty());
        std::vector<ReadRecord> again(100);
        REQUIRE(logbook.readRecords({}, again) == whole.size());
        CHECK(std::ranges::count(again, false, &ReadRecord::whole) - 19 ==
              static_cast<std::ptrdiff_t>(read->inDoubt.size()));
        const auto report = logbook.verify();
        REQUIRE(report);
        CHECK(std::ranges::any_of(report->breaks, [&](const Break& found) {
            return found.record == lost && found.reason == Reason::Unreadable;
        }));
    }
    CHECK(costly > 3);
}

TEST_CASE("A logbook that is opened to write reads round nothing", "[fault]") {
    const TemporaryFolder folder;
    writeWithout(folder / "log", wholeBytes(), "records_in_reading_order");
    const Logbook logbook = open(folder / "log", Access::Write);
    CHECK(logbook.records().error().code == Code::Damaged);
    CHECK_FALSE(logbook.metDamage());
}

TEST_CASE("A value longer than any logbook holds is read round, and named by verify", "[fault]") {
    const TemporaryFolder folder;
    writeBytes(folder / "log", wholeBytes());
    tamper(folder / "log", "UPDATE records SET content = CAST(zeroblob(268435457) AS TEXT)"
                           " WHERE station = 'icu-1' AND seq = 7");
    const auto logbook = openToRead(folder / "log");
    const auto records = logbook.records();
    REQUIRE(records);
    CHECK(records->inDoubt == std::vector<RecordName>{{"icu-1", 7}});
    CHECK(records->records.size() == ofOne + ofOther);
    CHECK(logbook.metDamage());
    const auto report = logbook.verify();
    REQUIRE(report);
    REQUIRE(report->breaks.size() == 1);
    CHECK(report->breaks.front().record == RecordName{"icu-1", 7});
    CHECK(report->heads.at("icu-1").seq == 6);
    CHECK_FALSE(report->diskFailed);
}

TEST_CASE("Records are handed on up to the first that does not fit", "[fault]") {
    struct Tampering {
        std::string sql;
        Break found;
        std::size_t left;  // of icu-1
    };
    const std::vector<Tampering> tamperings{
        {"UPDATE records SET content = replace(content, 'seen', 'sean')"
         " WHERE station = 'icu-1' AND seq = 4",
         {{"icu-1", 4}, Reason::WrongHash},
         3},
        {"UPDATE records SET content = 'none' WHERE station = 'icu-1' AND seq = 4",
         {{"icu-1", 4}, Reason::NotARecord},
         3},
        {"DELETE FROM records WHERE station = 'icu-1' AND seq = 4",
         {{"icu-1", 4}, Reason::Gap},
         3},
        {"DELETE FROM records WHERE station = 'icu-1' AND seq > 4",
         {{"icu-1", 5}, Reason::TailLost},
         4},
        {"DELETE FROM records WHERE station = 'icu-1'", {{"icu-1", 1}, Reason::TailLost}, 0},
        // The notes of heads gone too: what verify noted still tells.
        {"DELETE FROM records WHERE station = 'icu-1' AND seq > 4; DELETE FROM local_heads",
         {{"icu-1", 5}, Reason::TailLost},
         4},
        {"UPDATE local_heads SET hash = zeroblob(32) WHERE station = 'icu-1'",
         {{"icu-1", ofOne}, Reason::NotAsNoted},
         ofOne - 1}};
    const auto bytes = wholeBytes();
    for (const auto& tampering : tamperings) {
        INFO(tampering.sql);
        const TemporaryFolder folder;
        writeBytes(folder / "log", bytes);
        CHECK(provenRecords(openToRead(folder / "log"))->breaks.empty());
        tamper(folder / "log", tampering.sql);
        const auto proven = provenRecords(openToRead(folder / "log"));
        REQUIRE(proven);
        CHECK(proven->breaks == std::vector{tampering.found});
        CHECK(proven->records.size() == tampering.left + ofOther + 1);
    }
}

TEST_CASE("What verify once noted is left out, though it fits now", "[fault]") {
    const TemporaryFolder folder;
    writeBytes(folder / "log", wholeBytes());
    VerifyReport report;
    report.breaks = {{{"icu-1", 6}, Reason::WrongHash}, {{"", 3}, Reason::Hole}};
    REQUIRE(open(folder / "log").noteVerified(report, writing()));
    const auto proven = provenRecords(openToRead(folder / "log"));
    REQUIRE(proven);
    CHECK(proven->breaks == std::vector<Break>{report.breaks[1], report.breaks[0]});
    CHECK(proven->records.size() == 5 + ofOther + 1);
}
