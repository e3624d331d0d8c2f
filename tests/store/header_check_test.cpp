// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A byte at the head of the file by which the database would take a whole logbook for a read-only
// one, or for none ("The Database Header" in SQLite's fileformat2.html, offsets 18 and 19).
#include "store/header_check.h"

#include "logbook_files.h"

#include <catch2/catch.hpp>
#include <string>
#include <vector>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Code = Trouble::Code;

namespace {

constexpr std::size_t writePlace = 18, readPlace = 19;

void makeLog(const std::filesystem::path& path) {
    Logbook logbook = create(path);
    append(logbook, notes("icu-1", 5));
}

void putByte(const std::filesystem::path& path, std::size_t place, int value) {
    auto bytes = bytesOf(path);
    bytes.at(place) = static_cast<char>(value);
    writeBytes(path, bytes);
}

}  // namespace

TEST_CASE("Versions at the head that no program writes are harm", "[unit]") {
    const TemporaryFolder folder;
    const auto path = folder / "log";
    makeLog(path);
    CHECK_FALSE(harmOfHeader(path));
    const std::size_t place = GENERATE(writePlace, readPlace);
    for (const int value : {0, 2, 3, 65, 129, 255}) {
        CAPTURE(place, value);
        putByte(path, place, value);
        CHECK(harmOfHeader(path));
    }
    // As other programs may leave it, with a log.
    putByte(path, writePlace, 2);
    putByte(path, readPlace, 2);
    CHECK_FALSE(harmOfHeader(path));
}

TEST_CASE("What is no logbook has no head that could be harmed", "[unit]") {
    const TemporaryFolder folder;
    const auto path = folder / "file";
    CHECK_FALSE(harmOfHeader(path));
    for (const auto& bytes : {std::string(), std::string(200, 'x'),
                              std::string("SQLite format 3\0", 16) + std::string(200, 'x')}) {
        writeBytes(path, bytes);
        CHECK_FALSE(harmOfHeader(path));
    }
}

TEST_CASE("A harmed version for writing is damage of the file, and got over by a backup",
          "[fault]") {
    const TemporaryFolder folder;
    const auto path = folder / "log";
    makeLog(path);
    putByte(path, writePlace, GENERATE(3, 17, 255));
    const auto before = bytesOf(path);
    Logbook logbook = open(path);
    CHECK(contents(logbook).size() == 5);
    const auto report = logbook.verify();
    REQUIRE(report);
    CHECK_FALSE(report->ok());
    CHECK(report->checked == 5);
    CHECK(report->breaks.empty());
    REQUIRE(report->integrity.size() == 1);
    CHECK_THAT(report->integrity[0], Catch::Contains("its header"));
    const auto appended = logbook.append(std::vector{note("icu-1", 6)}, writing());
    REQUIRE_FALSE(appended);
    CHECK(appended.error().code == Code::Damaged);
    CHECK_THAT(appended.error().text, Catch::Contains("its header"));
    CHECK((bytesOf(path) == before));
    REQUIRE(logbook.backup(folder / "copy"));
    checkRestores(folder / "copy", logbook);
    CHECK(open(folder / "copy", Access::Read).verify()->ok());
}

TEST_CASE("A harmed version for reading is damage of the file, not another kind of file",
          "[fault]") {
    const TemporaryFolder folder;
    const auto path = folder / "log";
    makeLog(path);
    putByte(path, readPlace, GENERATE(3, 255));
    for (const auto access : {Access::Read, Access::Write}) {
        const auto refused = Logbook::open(path, {access});
        REQUIRE_FALSE(refused);
        CHECK(refused.error().code == Code::Damaged);
        CHECK_THAT(refused.error().text, Catch::Contains("its header"));
    }
}
