// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Damage: each page of a logbook in turn. Nothing crashes, nothing is read as if it were whole that
// is not, and what the chain proves is got out of the file.
#include "store/salvage.h"

#include "logbook_files.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <iostream>
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

const Ward& ward() {
    static const Ward made = [] {
        Ward ward;
        const TemporaryFolder folder;
        Logbook logbook = create(folder / "log");
        REQUIRE(logbook.setStation("icu-1", writing()));
        for (std::int64_t seq = 1; seq <= ofOne; ++seq) {
            // One is larger than a page.
            append(logbook, {note("icu-1", seq, seq == 30 ? std::string(9000, 'x') : "seen")});
            if (seq <= ofOther) {
                append(logbook, {note("icu-2", seq)});
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

// Whether what was opened tells of the damage, or there is none that harms a record.
void checkNoNonsense(const std::filesystem::path& path, Count& count) {
    const auto logbook = Logbook::open(path, {Access::Read});
    if (!logbook) {
        CHECK((logbook.error().code == Code::NotALogbook ||
               logbook.error().code == Code::NewerSchema ||
               logbook.error().code == Code::NetworkFileSystem ||
               logbook.error().code == Code::Damaged || logbook.error().code == Code::Io));
        ++count.refused;
        return;
    }
    const auto report = logbook->verify();
    REQUIRE(report);
    const auto records = logbook->records();
    if (!report->ok()) {
        const bool named = !report->breaks.empty() || !report->integrity.empty() ||
                           !report->schemaChanged.empty();
        CHECK(named);
        ++count.found;
        return;
    }
    ++count.harmless;
    CHECK(contents(*logbook) == ward().contents);
}

// All that comes out is as it was written, and what does not come out is named.
void checkSalvaged(const TemporaryFolder& folder, Count& count) {
    const auto result = salvage(folder / "log", folder / "new", minute(2000));
    const std::int64_t all = ofOne + ofOther;
    if (!result) {
        CHECK(result.error().code == Code::NoRecord);
        count.lost += all;
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
    count.salvaged += result->records;
    count.lost += all - result->records;
    std::filesystem::remove(folder / "new");
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
          std::vector<Unproven>{{{"icu-1", 50}, Reason::WrongHash, ofOne, 10}});
    CHECK(salvaged("PRAGMA secure_delete = ON; DELETE FROM records"
                   " WHERE station = 'icu-1' AND seq = 50") ==
          std::vector<Unproven>{{{"icu-1", 50}, Reason::Gap, ofOne, 10}});
    CHECK(salvaged("PRAGMA secure_delete = ON; DELETE FROM records"
                   " WHERE station = 'icu-2' AND seq > 15") ==
          std::vector<Unproven>{{{"icu-2", 16}, Reason::TailLost, ofOther, 0}});
}

TEST_CASE("Salvage writes over nothing and makes nothing of nothing", "[unit]") {
    const TemporaryFolder folder;
    writeBytes(folder / "log", ward().bytes);
    writeBytes(folder / "letter", "Dear Rowan, the circuits have come. " + std::string(9000, 'x'));
    CHECK(salvage(folder / "log", folder / "letter", minute(0)).error().code == Code::Exists);
    CHECK(salvage(folder / "letter", folder / "new", minute(0)).error().code == Code::NoRecord);
    CHECK(salvage(folder / "none", folder / "new", minute(0)).error().code == Code::NotFound);
    CHECK(salvage(folder / "log", folder / "no/new", minute(0)).error().code == Code::NotFound);
    CHECK(folder.names() == std::vector<std::string>{"letter", "log"});
}
