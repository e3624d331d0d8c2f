// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rows and cells as RFC 4180, section 2, has them; and whatever bytes come, every one is in a cell
// or a separator.
#include "exchange/csv.h"

#include "support/seed.h"

#include <catch2/catch.hpp>
#include <random>

using exchange::CsvFault;
using exchange::CsvReader;
using exchange::CsvRow;
using Cells = std::vector<std::string>;

namespace {

std::vector<CsvRow> rowsOf(std::string_view text) {
    CsvReader reader(text);
    std::vector<CsvRow> rows;
    while (auto row = reader.next()) {
        rows.push_back(*std::move(row));
    }
    return rows;
}

std::vector<Cells> cellsOf(std::string_view text) {
    std::vector<Cells> cells;
    for (const auto& row : rowsOf(text)) {
        CHECK_FALSE(row.fault);
        cells.push_back(row.cells);
    }
    return cells;
}

std::string written(const Cells& cells) {
    std::string line;
    for (const auto& cell : cells) {
        line += (line.empty() ? "\"" : ",\"");
        for (const char letter : cell) {
            line += letter == '"' ? "\"\"" : std::string(1, letter);
        }
        line += '"';
    }
    return line;
}

}  // namespace

// RFC 4180, section 2, rules 1, 2, 4, 5, 6 and 7, with its own examples.
TEST_CASE("The examples of RFC 4180 are read as it says", "[reference]") {
    const std::vector<Cells> both{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}};
    CHECK(cellsOf("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") == both);
    CHECK(cellsOf("aaa,bbb,ccc\r\nzzz,yyy,xxx") == both);
    CHECK(cellsOf("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx") == both);
    CHECK(cellsOf("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx") ==
          std::vector<Cells>{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}});
    CHECK(cellsOf("\"aaa\",\"b\"\"bb\",\"ccc\"") == std::vector<Cells>{{"aaa", "b\"bb", "ccc"}});
    CHECK(cellsOf("a, b ,c") == std::vector<Cells>{{"a", " b ", "c"}});
}

TEST_CASE("Line ends, a byte-order mark and blank lines", "[unit]") {
    CHECK(cellsOf("").empty());
    CHECK(cellsOf("\xEF\xBB\xBF").empty());
    CHECK(cellsOf("\xEF\xBB\xBF\"a\",b\n") == std::vector<Cells>{{"a", "b"}});
    CHECK(cellsOf("a\n\n\r\nb") == std::vector<Cells>{{"a"}, {"b"}});
    CHECK(cellsOf(",\n") == std::vector<Cells>{{"", ""}});
    CHECK(cellsOf("a\rb\n") == std::vector<Cells>{{"a\rb"}});
    CHECK(cellsOf("\"\"\n").empty());
}

TEST_CASE("Rows know the line on which they begin", "[unit]") {
    const auto rows = rowsOf("\na,\"b\n\nb\"\r\n\r\nc\n");
    REQUIRE(rows.size() == 2);
    CHECK(rows[0].line == 2);
    CHECK(rows[1].line == 6);
}

TEST_CASE("Quotation marks where none can be", "[unit]") {
    const auto faultOf = [](std::string_view text) { return rowsOf(text).front().fault; };
    CHECK(faultOf("a,b\"c\"\nd") == CsvFault::StrayQuote);
    CHECK(faultOf("\"a\"b,c\nd") == CsvFault::StrayQuote);
    CHECK(faultOf("a, \"b\"\nd") == CsvFault::StrayQuote);
    CHECK(faultOf("a,\"b\nd\n") == CsvFault::OpenQuote);
    CHECK(faultOf("\"") == CsvFault::OpenQuote);
    CHECK(rowsOf("a,b\"c\"\nd").size() == 2);
    CHECK(rowsOf("a,\"b\nd\n").size() == 1);
}

TEST_CASE("A row has a thousand cells at most", "[unit]") {
    const auto rows = rowsOf(std::string(exchange::mostCells - 1, ',') + "\n" +
                             std::string(exchange::mostCells, ','));
    REQUIRE(rows.size() == 2);
    CHECK_FALSE(rows[0].fault);
    CHECK(rows[0].cells.size() == exchange::mostCells);
    CHECK(rows[1].fault == CsvFault::TooManyCells);
    CHECK(rows[1].cells.size() == exchange::mostCells);
}

TEST_CASE("What is written in quotation marks is read back the same", "[property]") {
    const auto seed = support::seedOfRun();
    INFO("seed " << seed);
    std::mt19937 dice(seed);
    const std::string_view letters = "ab,\"\n\r; \xC3";
    for (int round = 0; round < 2000; ++round) {
        std::vector<Cells> table;
        std::string text;
        for (std::size_t row = 0; row <= dice() % 4; ++row) {
            Cells cells{"x"};
            for (std::size_t cell = 0; cell < dice() % 4; ++cell) {
                std::string& added = cells.emplace_back();
                for (std::size_t letter = 0; letter < dice() % 6; ++letter) {
                    added += letters[dice() % letters.size()];
                }
            }
            text += written(cells) + (dice() % 2 == 0 ? "\n" : "\r\n");
            table.push_back(std::move(cells));
        }
        CAPTURE(text);
        CHECK(cellsOf(text) == table);
    }
}

TEST_CASE("Any bytes end, and lines are counted on", "[property]") {
    const auto seed = support::seedOfRun();
    INFO("seed " << seed);
    std::mt19937 dice(seed);
    const std::string_view letters = "a,\"\n\r\0";
    for (int round = 0; round < 5000; ++round) {
        std::string text;
        for (std::size_t letter = 0; letter < dice() % 30; ++letter) {
            text += letters[dice() % letters.size()];
        }
        CAPTURE(text);
        std::size_t last = 0;
        for (const auto& row : rowsOf(text)) {
            CHECK(row.line > last);
            CHECK_FALSE(row.cells.empty());
            last = row.line;
        }
    }
}
