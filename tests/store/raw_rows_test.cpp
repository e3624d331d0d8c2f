// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rows out of the bytes of a file: what is too short to be a record is not kept, so that a file of
// nothing but such rows takes no memory.
#include "store/raw_rows.h"

#include "logbook_files.h"
#include "store/salvage.h"

#include <catch2/catch.hpp>

using namespace store;
using namespace store::test;
using Reason = Break::Reason;

namespace {

constexpr std::size_t pageSize = 4096;

std::string bigEndian(std::size_t number) {
    return {static_cast<char>(number >> 8U & 0xFFU), static_cast<char>(number & 0xFFU)};
}

// A page of a table with as many of the shortest rows that have the columns of a record as it has
// room for; as sections 1.6 and 2.1 of SQLite's fileformat2.html have it.
std::string pageOfShortRows(std::size_t& rows) {
    const std::string row = std::string("\x0B\0\x0F\x09\x09\x09\x0D\x0D\x0D\x4C\x09", 11) + "a" +
                            std::string(32, 'h');
    const std::string cell = static_cast<char>(row.size()) + std::string(1, '\1') + row;
    rows = (pageSize - 8) / (cell.size() + 2);
    std::string page = "\x0D" + std::string(2, '\0') + bigEndian(rows) + std::string(3, '\0');
    std::string cells;
    for (std::size_t i = 1; i <= rows; ++i) {
        page += bigEndian(pageSize - i * cell.size());
        cells += cell;
    }
    page.resize(pageSize - cells.size());
    return page + cells;
}

}  // namespace

TEST_CASE("Rows that are too short for a record are not kept", "[fault]") {
    const TemporaryFolder folder;
    std::size_t rows = 0;
    const auto page = pageOfShortRows(rows);
    REQUIRE(rows > 80);
    std::string bytes(pageSize, '\0');
    for (int i = 0; i < 100; ++i) {
        bytes += page;
    }
    writeBytes(folder / "log", bytes);
    const RawRows read(folder / "log");
    CHECK(read.records().empty());
    CHECK(read.nameless() == 0);
}

TEST_CASE("A record whose content is gone counts as one that is nowhere", "[fault]") {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 3));
    }
    tamper(folder / "log", "UPDATE records SET content = '' WHERE seq = 2");
    const RawRows rows(folder / "log");
    REQUIRE(rows.records().size() == 2);
    CHECK(rows.records().front().seq == 1);
    CHECK(rows.records().back().seq == 3);
    const auto result = salvage(folder / "log", folder / "new", minute(2000));
    REQUIRE(result);
    CHECK(result->records == 1);
    REQUIRE(result->unproven.size() == 1);
    CHECK(result->unproven.front().first == logbook::RecordName{"icu-1", 2});
    CHECK(result->unproven.front().reason == Reason::Gap);
    CHECK(result->unproven.front().readable == 1);
}
