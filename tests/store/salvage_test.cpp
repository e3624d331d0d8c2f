// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Damage: each page of a logbook in turn. Nothing crashes, nothing is read as if it were whole that
// is not, and what the chain proves is got out of the file.
#include "store/salvage.h"

#include "logbook_files.h"
#include "store/raw_rows.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <iostream>
#include <map>
#include <set>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Code = Trouble::Code;
using Reason = Break::Reason;

namespace {

constexpr std::size_t pageSize = 4096;
constexpr std::int64_t ofOne = 60;
constexpr std::int64_t ofOther = 20;

struct Ward {
    std::string bytes;
    std::vector<std::string> contents;
    Heads heads;
};

// One is larger than a page.
logbook::Record written(std::string_view station, std::int64_t seq) {
    const bool isLong = station == "icu-1" && seq == 30;
    return note(station, seq, isLong ? std::string(9000, 'x') : "seen");
}

const Ward& ward() {
    static const Ward made = [] {
        Ward ward;
        const TemporaryFolder folder;
        Logbook logbook = create(folder / "log");
        REQUIRE(logbook.setStation("icu-1", writing()));
        for (std::int64_t seq = 1; seq <= ofOne; ++seq) {
            append(logbook, {written("icu-1", seq)});
            if (seq <= ofOther) {
                append(logbook, {written("icu-2", seq)});
            }
        }
        ward.contents = contents(logbook);
        ward.heads = headsOf(logbook);
        ward.bytes = bytesOf(folder / "log");
        return ward;
    }();
    return made;
}

struct Count {
    int damaged = 0, refused = 0, found = 0, harmless = 0;
    std::int64_t salvaged = 0, lost = 0;
};

// What is whole stays readable: by itself or, where its index leads astray, in the order of all.
void checkReadable(const Logbook& logbook, const Heads& whole) {
    std::map<logbook::RecordName, std::string> inOrder;
    if (const auto read = logbook.records()) {
        for (const logbook::Record& record : read->records) {
            inOrder[record.name] = record.content;
        }
    }
    for (const auto& [station, head] : whole) {
        for (std::int64_t seq = 1; seq <= head.seq; ++seq) {
            const auto row = logbook.findRecord({station, seq});
            const auto among = inOrder.find({station, seq});
            REQUIRE((row || among != inOrder.end()));
            CHECK((!row || row->content == written(station, seq).content));
            CHECK((among == inOrder.end() || among->second == written(station, seq).content));
        }
    }
}

// Of a record that an answer would rest on and that is not as it was written, or that cannot be
// read by itself nor in the order of all, it is said so, or of one that its station wrote before
// it.
void checkLocated(const Logbook& logbook, const VerifyReport& report) {
    const auto isNamed = [&](const logbook::RecordName& name) {
        return std::ranges::any_of(report.breaks, [&](const Break& found) {
            return found.record.station.empty() ||
                   (found.record.station == name.station && found.record.seq <= name.seq);
        });
    };
    const auto read = logbook.records();
    CHECK((read || read.error().code == Code::Damaged));
    std::set<logbook::RecordName> whole;
    for (const auto& record : read ? read->records : std::vector<logbook::Record>()) {
        const bool isSame =
            record.content == written(record.name.station, record.name.seq).content;
        CHECK((isSame || isNamed(record.name)));
        whole.insert(record.name);
    }
    for (const auto& [station, head] : ward().heads) {
        for (std::int64_t seq = 1; seq <= head.seq; ++seq) {
            const logbook::RecordName name{station, seq};
            CHECK((whole.contains(name) || logbook.findRecord(name) || isNamed(name)));
        }
    }
}

// Whether what was opened tells of the damage, or there is none that harms a record.
void checkNoNonsense(const std::filesystem::path& path, Count& count) {
    const auto logbook = Logbook::open(path, {Access::Read});
    if (!logbook) {
        CHECK(std::set{Code::NotALogbook, Code::OtherSchema, Code::NetworkFileSystem, Code::Damaged,
                       Code::Io}.contains(logbook.error().code));
        ++count.refused;
        return;
    }
    const auto report = logbook->verify();
    REQUIRE(report);
    checkReadable(*logbook, report->heads);
    checkLocated(*logbook, *report);
    if (!report->ok()) {
        ++count.found;
        return;
    }
    ++count.harmless;
    CHECK(contents(*logbook) == ward().contents);
}

// Whether the page on which the last record of each station is noted is as it was.
bool areNotesLeft(const std::string& bytes) {
    const auto has = [](std::string_view page, const Hash& hash) {
        return page.find({reinterpret_cast<const char*>(hash.data()), hash.size()}) !=
               std::string_view::npos;
    };
    const std::string_view whole = ward().bytes;
    for (std::size_t place = 0; place < whole.size(); place += pageSize) {
        const auto page = whole.substr(place, pageSize);
        if (has(page, ward().heads.at("icu-1").hash) && has(page, ward().heads.at("icu-2").hash)) {
            return place + pageSize <= bytes.size() &&
                   std::string_view(bytes).substr(place, pageSize) == page;
        }
    }
    FAIL("there is no page of notes");
    return false;
}

// What a station has lost is named, as far as it was noted.
void checkNamed(const SalvageResult& result, const std::string& station, std::int64_t proven) {
    const auto lacking = std::find_if(
        result.unproven.begin(), result.unproven.end(),
        [&](const Unproven& each) { return each.first.station == station; });
    const auto last = ward().heads.at(station).seq;
    REQUIRE((lacking != result.unproven.end()) == (proven < last));
    CHECK((proven == last || lacking->first.seq == proven + 1));
    CHECK((proven == last || lacking->last == last));
}

// All that comes out is as it was written, and what does not come out is named.
void checkSalvaged(const TemporaryFolder& folder, Count& count) {
    const auto result = salvage(folder / "log", folder / "new", minute(2000));
    REQUIRE(result);
    if (result->records == 0) {
        CHECK_FALSE(std::filesystem::exists(folder / "new"));
        if (areNotesLeft(bytesOf(folder / "log"))) {
            checkNamed(*result, "icu-1", 0);
            checkNamed(*result, "icu-2", 0);
        }
        count.lost += ofOne + ofOther;
        return;
    }
    const Logbook logbook = open(folder / "new", Access::Read);
    CHECK(logbook.verify()->ok());
    CHECK(headsOf(logbook) == result->heads);
    CHECK(logbook.station()->has_value() == false);
    const auto& before = ward().contents;
    const std::set<std::string> written(before.begin(), before.end());
    for (const std::string& content : contents(logbook)) {
        CHECK(written.count(content) == 1);
    }
    std::map<std::string, std::int64_t> proven{{"icu-1", 0}, {"icu-2", 0}};
    for (const auto& [station, head] : result->heads) {
        proven.at(station) = head.seq;
    }
    for (const Unproven& lacking : result->unproven) {
        CHECK(lacking.first.seq == proven.at(lacking.first.station) + 1);
        CHECK(lacking.last <= ward().heads.at(lacking.first.station).seq);
    }
    if (areNotesLeft(bytesOf(folder / "log"))) {
        for (const auto& [station, last] : proven) {
            checkNamed(*result, station, last);
        }
    }
    count.salvaged += result->records;
    count.lost += ofOne + ofOther - result->records;
    std::filesystem::remove(folder / "new");
}

// Most significant first, seven bits a byte.
std::string variable(std::size_t number) {
    std::string bytes(1, static_cast<char>(number & 0x7FU));
    for (number >>= 7U; number > 0; number >>= 7U) {
        bytes.insert(bytes.begin(), static_cast<char>(0x80U | (number & 0x7FU)));
    }
    return bytes;
}

std::string bigEndian(std::size_t number, std::size_t size) {
    std::string bytes;
    for (std::size_t i = size; i-- > 0;) {
        bytes += static_cast<char>(number >> (8 * i) & 0xFFU);
    }
    return bytes;
}

// A file whose second page is one of `records` and says so often that one row stands there, which
// goes on over the pages behind it; as sections 1.6 and 2.1 of SQLite's fileformat2.html have it.
std::string withOneRow(const std::string& content, std::size_t times) {
    const std::string types = std::string("\0\x17\1\1\1\x0D\x15", 7) +
                              variable(13 + 2 * content.size()) + "\x4C\1";
    const std::string row = variable(types.size() + 1) + types + "icu-1\1\1\1note" + content +
                            std::string(32, 'h') + "\1";
    const std::size_t here = 489 + (row.size() - 489) % (pageSize - 4);
    constexpr std::size_t place = 2100;
    std::string page = "\x0D" + bigEndian(0, 2) + bigEndian(times, 2) + bigEndian(place, 3);
    for (std::size_t i = 0; i < times; ++i) {
        page += bigEndian(place, 2);
    }
    page.resize(place);
    page += variable(row.size()) + variable(1) + row.substr(0, here) + bigEndian(3, 4);
    REQUIRE(page.size() <= pageSize);
    page.resize(pageSize);
    std::string bytes(pageSize, '\0');
    bytes += page;
    for (std::size_t taken = here; taken < row.size(); taken += pageSize - 4) {
        bytes += bigEndian(bytes.size() / pageSize + 2, 4) + row.substr(taken, pageSize - 4);
    }
    bytes.resize((bytes.size() + pageSize - 1) / pageSize * pageSize);
    return bytes;
}

void damage(const std::string& bytes, Count& count) {
    const TemporaryFolder folder;
    writeBytes(folder / "log", bytes);
    ++count.damaged;
    checkNoNonsense(folder / "log", count);
    CHECK(bytesOf(folder / "log") == bytes);
    checkSalvaged(folder, count);
}

void print(std::string_view kind, const Count& count) {
    std::cout << "damage: " << kind << ": " << count.damaged << " files: refused "
              << count.refused << ", found by verify " << count.found << ", harmless "
              << count.harmless << "; records salvaged " << count.salvaged << ", lost "
              << count.lost << "\n";
}

}  // namespace

TEST_CASE("Each page with a bit turned is found out or harms nothing", "[fault]") {
    Count count;
    for (std::size_t page = 0; page < ward().bytes.size() / pageSize; ++page) {
        for (const std::size_t place : {std::size_t{0}, std::size_t{5}, std::size_t{17},
                                        std::size_t{41}, std::size_t{2000}, pageSize - 20}) {
            INFO("page " << page + 1 << " byte " << place);
            std::string bytes = ward().bytes;
            bytes[page * pageSize + place] ^= static_cast<char>(1U << (place % 8));
            damage(bytes, count);
        }
    }
    print("a bit turned", count);
    CHECK(count.found > 10);
    CHECK(count.salvaged > count.lost);
}

TEST_CASE("Each page that is gone is found out, and the others give what they hold", "[fault]") {
    Count count;
    for (std::size_t page = 0; page < ward().bytes.size() / pageSize; ++page) {
        INFO("page " << page + 1);
        std::string bytes = ward().bytes;
        bytes.replace(page * pageSize, pageSize, std::string(pageSize, '\0'));
        damage(bytes, count);
    }
    print("a page zeroed", count);
    CHECK(count.found + count.refused > 10);
    CHECK(count.salvaged > count.lost);
}

TEST_CASE("A file that ends at any page is found out", "[fault]") {
    Count count;
    for (std::size_t page = 1; page < ward().bytes.size() / pageSize; ++page) {
        INFO("page " << page);
        damage(ward().bytes.substr(0, page * pageSize), count);
    }
    print("cut short", count);
    CHECK(count.harmless == 0);
}

TEST_CASE("Without its first page a logbook is no database, and yet all is got out", "[fault]") {
    const TemporaryFolder folder;
    std::string bytes = ward().bytes;
    bytes.replace(0, pageSize, std::string(pageSize, '\0'));
    writeBytes(folder / "log", bytes);
    REQUIRE_FALSE(Logbook::open(folder / "log", {Access::Read}));
    const auto result = salvage(folder / "log", folder / "new", minute(2000));
    REQUIRE(result);
    CHECK(result->heads == ward().heads);
    CHECK(result->records == ofOne + ofOther);
    CHECK(result->unproven.empty());
    CHECK(result->path == folder / "new");
    CHECK(contents(open(folder / "new")) == ward().contents);
    CHECK(open(folder / "new").setStation("icu-1", writing()).error().code == Code::StationTaken);
    CHECK(folder.names() == std::vector<std::string>{"log", "new"});
}

TEST_CASE("What cannot be proven is named, and how much of it stands there", "[unit]") {
    const TemporaryFolder folder;
    const auto salvaged = [&](const std::string& sql) {
        writeBytes(folder / "log", ward().bytes);
        tamper(folder / "log", sql);
        std::filesystem::remove(folder / "new");
        const auto result = salvage(folder / "log", folder / "new", minute(2000));
        REQUIRE(result);
        return result->unproven;
    };
    CHECK(salvaged("UPDATE records SET content = replace(content, 'seen', 'Seen')"
                   " WHERE station = 'icu-1' AND seq = 50") ==
          std::vector<Unproven>{{{"icu-1", 50}, Reason::WrongHash, ofOne, 10, {{51, ofOne}}}});
    CHECK(salvaged("PRAGMA secure_delete = ON; DELETE FROM records"
                   " WHERE station = 'icu-1' AND seq = 50") ==
          std::vector<Unproven>{{{"icu-1", 50}, Reason::Gap, ofOne, 10, {{51, ofOne}}}});
    CHECK(salvaged("PRAGMA secure_delete = ON; DELETE FROM records"
                   " WHERE station = 'icu-2' AND seq > 15") ==
          std::vector<Unproven>{{{"icu-2", 16}, Reason::TailLost, ofOther, 0}});
    CHECK(salvaged("PRAGMA secure_delete = ON; DELETE FROM records"
                   " WHERE station = 'icu-1' AND seq IN (1, 2, 7, 20, 21, 59)") ==
          std::vector<Unproven>{{{"icu-1", 1}, Reason::Gap, ofOne, ofOne - 6,
                                 {{3, 6}, {8, 19}, {22, 58}, {60, ofOne}}}});
}

TEST_CASE("Of a row that a page tells again and again one is kept", "[unit]") {
    const TemporaryFolder folder;
    const std::string content(489 + 4092 * 49 - 58, 'x');  // so that little stands on its page
    writeBytes(folder / "log", withOneRow(content, 1000));
    {
        const RawRows rows(folder / "log");
        REQUIRE(rows.records().size() == 1);
        CHECK(rows.records().front().station == "icu-1");
        CHECK(rows.records().front().seq == 1);
        CHECK(rows.contentOf(rows.records().front()) == content);
    }
    CHECK(salvage(folder / "log", folder / "new", minute(0))->records == 0);
    // Larger than any record: not read at all.
    writeBytes(folder / "log", withOneRow(std::string(489 + 4092 * 600 - 58, 'x'), 1));
    CHECK(RawRows(folder / "log").records().empty());
    // Nor is a file that is larger than any logbook.
    writeBytes(folder / "log", withOneRow(content, 1));
    CHECK(RawRows(folder / "log").records().size() == 1);
    std::filesystem::resize_file(folder / "log", std::uint64_t{1} << 40);
    CHECK(RawRows(folder / "log").records().empty());
}

TEST_CASE("What is lacking is named where nothing can be proven", "[unit]") {
    const TemporaryFolder folder;
    writeBytes(folder / "log", ward().bytes);
    tamper(folder / "log", "UPDATE records SET content = replace(content, 'seen', 'Seen')"
                           " WHERE seq = 1");
    const auto result = salvage(folder / "log", folder / "new", minute(0));
    REQUIRE(result);
    CHECK(result->records == 0);
    CHECK(result->unproven ==
          std::vector<Unproven>{
              {{"icu-1", 1}, Reason::WrongHash, ofOne, ofOne - 1, {{2, ofOne}}},
              {{"icu-2", 1}, Reason::WrongHash, ofOther, ofOther - 1, {{2, ofOther}}}});
    CHECK(folder.names() == std::vector<std::string>{"log"});
}

TEST_CASE("Salvage writes over nothing and makes nothing of nothing", "[unit]") {
    const TemporaryFolder folder;
    writeBytes(folder / "log", ward().bytes);
    writeBytes(folder / "letter", "Dear Rowan, the circuits have come. " + std::string(9000, 'x'));
    CHECK(salvage(folder / "log", folder / "letter", minute(0)).error().code == Code::Exists);
    const auto nothing = salvage(folder / "letter", folder / "new", minute(0));
    REQUIRE(nothing);
    CHECK(nothing->records == 0);
    CHECK(nothing->unproven.empty());
    CHECK_FALSE(std::filesystem::exists(folder / "new"));
    CHECK(salvage(folder.path(), folder / "new", minute(0)).error().code == Code::NotALogbook);
    CHECK(salvage("/dev/null", folder / "new", minute(0)).error().code == Code::NotALogbook);
    CHECK(salvage(folder / "none", folder / "new", minute(0)).error().code == Code::NotFound);
    CHECK(salvage(folder / "log", folder / "no/new", minute(0)).error().code == Code::NotFound);
    CHECK(folder.names() == std::vector<std::string>{"letter", "log"});
}
