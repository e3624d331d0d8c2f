// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Wrapping and tables.
#include "report/layout.h"

#include <catch2/catch.hpp>

TEST_CASE("lines wrap at words and break only what is too long", "[unit]") {
    CHECK(report::wrapped("one two three", 8) == "one two\nthree\n");
    CHECK(report::wrapped("one two three", 10, 2) == "  one two\n  three\n");
    CHECK(report::wrapped("abcdefghij k", 4) == "abcd\nefgh\nij k\n");
    CHECK(report::wrapped("", 10) == "\n");
    CHECK(report::wrapped("Größe Größe", 5) == "Größe\nGröße\n");
}

TEST_CASE("tables line up, and long cells wrap in their column", "[unit]") {
    report::Table table({"Unit", "What"});
    table.add({"KB-1", "leak test due; circuit missing"});
    table.add({"KB-22", "nothing"});
    CHECK(table.text(100) ==
          "Unit   What\n"
          "KB-1   leak test due; circuit missing\n"
          "KB-22  nothing\n");
    CHECK(table.text({5, 14}) ==
          "Unit   What\n"
          "KB-1   leak test due;\n"
          "       circuit\n"
          "       missing\n"
          "KB-22  nothing\n");
}

TEST_CASE("where there is too little room the widest columns give way", "[unit]") {
    const auto widths = report::fitted({40, 10, 50}, 60);
    CHECK(widths == std::vector<std::size_t>{31, 10, 15});
    CHECK(report::fitted({5, 5, 90}, 60) == std::vector<std::size_t>{5, 5, 46});
    CHECK(report::fitted({5, 5, 9}, 60) == std::vector<std::size_t>{5, 5, 9});
    CHECK(report::usableWidth({10}) == 60);
}
