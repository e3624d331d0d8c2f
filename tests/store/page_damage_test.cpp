// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A list of free pages that names pages on which records stand: nothing tells but verify, and
// whatever takes a page would be put over them.
#include "store/page_damage.h"

#include "logbook_files.h"
#include "store/credentials.h"

#include <catch2/catch.hpp>
#include <vector>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Code = Trouble::Code;

namespace {

constexpr std::size_t pageSize = 4096;

// Section 1.3 and 1.5 of SQLite's fileformat2.html.
std::uint32_t numberAt(const std::string& bytes, std::size_t place) {
    std::uint32_t number = 0;
    for (std::size_t i = 0; i < 4; ++i) {
        number = number << 8U | static_cast<unsigned char>(bytes.at(place + i));
    }
    return number;
}

void putNumber(std::string& bytes, std::size_t place, std::size_t number) {
    for (std::size_t i = 4; i-- > 0; number >>= 8U) {
        bytes.at(place + i) = static_cast<char>(number & 0xFFU);
    }
}

// The leaves of the table of records.
std::vector<std::size_t> leavesIn(const std::string& bytes) {
    std::vector<std::size_t> leaves;
    for (std::size_t page = 1; page < bytes.size() / pageSize; ++page) {
        const auto text = std::string_view(bytes).substr(page * pageSize, pageSize);
        if (text.front() == '\x0D' && text.find("\"kind\":\"note\"") != text.npos) {
            leaves.push_back(page + 1);
        }
    }
    return leaves;
}

// Of so many stations that a whole note of verify takes more than a page.
std::size_t fill(const std::filesystem::path& path) {
    std::vector<logbook::Record> records;
    for (int station = 0; station < 80; ++station) {
        for (const auto& record : notes("ward-" + std::to_string(station), 3)) {
            records.push_back(record);
        }
    }
    {
        Logbook logbook = create(path);
        append(logbook, records);
    }
    behindTheBack(path)->exec(
        "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 30)"
        " INSERT INTO local_settings SELECT i, hex(zeroblob(3000)) FROM n;"
        " DELETE FROM local_settings");
    auto bytes = bytesOf(path);
    const auto leaves = leavesIn(bytes);
    REQUIRE(leaves.size() > 10);
    const auto trunk = (numberAt(bytes, 32) - 1) * pageSize;
    const auto count = numberAt(bytes, trunk + 4);
    REQUIRE(count > 10);
    for (std::size_t i = 0; i < count; ++i) {
        putNumber(bytes, trunk + 8 + 4 * i, leaves[i % leaves.size()]);
    }
    writeBytes(path, bytes);
    return records.size();
}

std::size_t wholeIn(const std::filesystem::path& path) {
    const auto read = open(path, Access::Read).records();
    REQUIRE(read);
    return read->inDoubt.empty() ? read->records.size() : 0;
}

}  // namespace

TEST_CASE("What verify notes is put over no record", "[fault]") {
    const TemporaryFolder folder;
    const auto all = fill(folder / "log");
    REQUIRE(wholeIn(folder / "log") == all);
    Logbook logbook = open(folder / "log");
    const auto report = logbook.verify();
    REQUIRE(report);
    CHECK(report->breaks.empty());
    REQUIRE_FALSE(report->integrity.empty());
    REQUIRE(logbook.noteVerified(*report, writing()));
    CHECK(wholeIn(folder / "log") == all);
    REQUIRE(*logbook.lastVerification());
    CHECK(arePagesDamaged(**logbook.lastVerification()));
    // Nor is anything else that can wait.
    const auto bytes = bytesOf(folder / "log");
    const auto records = notes("icu-9", 200);
    CHECK(logbook.importRecords(lent(records), "in", writing()).error().code == Code::Damaged);
    CHECK(logbook.setSetting("place", "shelf", writing()).error().code == Code::Damaged);
    CHECK(logbook.keepSnapshots({}, {}, writing()).error().code == Code::Damaged);
    CHECK(logbook.dropDerived(writing()).error().code == Code::Damaged);
    CHECK(logbook.takeNumbers("forms", 3, writing()).error().code == Code::Damaged);
    CHECK(logbook.setStation("icu-9", writing()).error().code == Code::Damaged);
    const Credentials credentials(folder / "log");
    CHECK(credentials.setPin("mt", "271828", writing()).error().code == Code::Damaged);
    CHECK(credentials.setPins({{"mt", "271828"}}, writing()).error().code == Code::Damaged);
    CHECK(credentials.setCode("0123456789", writing()).error().code == Code::Damaged);
    CHECK(credentials.setBadge("mt", "0042717", writing()).error().code == Code::Damaged);
    CHECK(bytesOf(folder / "log") == bytes);
    // A copy has pages of its own.
    REQUIRE(logbook.backup(folder / "copy"));
    CHECK_FALSE(*open(folder / "copy").lastVerification());
    // A second time the note is where it was.
    REQUIRE(logbook.noteVerified(*report, writing(1001)));
    CHECK((*logbook.lastVerification())->at == minute(1001));
    CHECK(wholeIn(folder / "log") == all);
}

// Nor by the recovery code, though that it was tried in vain is counted where it was set.
TEST_CASE("In a file with damaged pages a recovery code gives no new PIN", "[fault]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    const Credentials credentials(folder / "log");
    REQUIRE(credentials.setCode("0123456789", writing()));
    auto report = *logbook.verify();
    report.integrity.emplace_back("Freelist: 2nd reference to page 90");
    REQUIRE(logbook.noteVerified(report, writing()));
    const auto tried = credentials.recover({"mt", "0123456789", "271828", "9876543210"},
                                           [] { return minute(1000); });
    REQUIRE_FALSE(tried);
    CHECK(tried.error().code == Code::Damaged);
    CHECK(credentials.pins()->empty());
}

TEST_CASE("A note that has no place of its own is not made", "[fault]") {
    const TemporaryFolder folder;
    const auto all = fill(folder / "log");
    Logbook logbook = open(folder / "log");
    auto report = *logbook.verify();
    const auto bytes = bytesOf(folder / "log");
    SECTION("where its page is among those that are named") {
        const auto page = behindTheBack(folder / "log")
                              ->execAndGet("SELECT rootpage FROM sqlite_schema"
                                           " WHERE name = 'local_verifications'")
                              .getString();
        report.integrity.push_back("2nd reference to page " + page);
    }
    SECTION("where not all is known that was found") {
        report.integrity.resize(100, report.integrity.front());
    }
    CHECK(logbook.noteVerified(report, writing()).error().code == Code::Damaged);
    CHECK(bytesOf(folder / "log") == bytes);
    CHECK(wholeIn(folder / "log") == all);
}
