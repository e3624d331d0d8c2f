// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Calendar days: which exist, and what a month later is.
#include "logbook/day.h"

#include <catch2/catch.hpp>

using namespace logbook;

namespace {

std::string monthsLater(const char* day, int months) {
    return toText(plus(parseDay(day).value(), CalendarInterval{months}));
}

}  // namespace

TEST_CASE("A day is read and written back", "[unit]") {
    for (const char* text : {"1900-01-01", "1970-01-01", "2026-03-02", "9999-12-31"}) {
        INFO(text);
        REQUIRE(parseDay(text));
        CHECK(toText(*parseDay(text)) == text);
    }
    CHECK(parseDay("1970-01-01")->time_since_epoch().count() == 0);
}

// Leap years of the Gregorian calendar; RFC 3339, appendix C.
TEST_CASE("29 February exists in leap years only", "[reference]") {
    CHECK(parseDay("2000-02-29"));
    CHECK(parseDay("2024-02-29"));
    CHECK(parseDay("2400-02-29"));
    CHECK_FALSE(parseDay("1900-02-29"));
    CHECK_FALSE(parseDay("2023-02-29"));
    CHECK_FALSE(parseDay("2100-02-29"));
}

TEST_CASE("What is no day is not read", "[unit]") {
    for (const char* text :
         {"", "2026-3-2", "2026-03-2", "26-03-02", "2026-00-10", "2026-13-01", "2026-01-00",
          "2026-01-32", "2026-04-31", "1899-12-31", "10000-01-01", "2026/03/02", "20260302",
          " 2026-03-02", "2026-03-02 ", "2026-03-02Z", "+026-03-02", "2026-+3-02", "2026-03--2"}) {
        INFO(text);
        CHECK_FALSE(parseDay(text));
    }
}

TEST_CASE("A month later is the same day, or the month's last", "[unit]") {
    CHECK(monthsLater("2026-01-31", 1) == "2026-02-28");
    CHECK(monthsLater("2024-01-31", 1) == "2024-02-29");
    CHECK(monthsLater("2024-02-29", 12) == "2025-02-28");
    CHECK(monthsLater("2024-02-29", 48) == "2028-02-29");
    CHECK(monthsLater("2026-02-28", 1) == "2026-03-28");
    CHECK(monthsLater("2026-12-15", 1) == "2027-01-15");
    CHECK(monthsLater("2026-05-31", 0) == "2026-05-31");
    CHECK(monthsLater("2026-08-31", 13) == "2027-09-30");
}

TEST_CASE("Every day of 1900 to 2200 keeps its text and its order", "[exhaustive]") {
    const Day last = parseDay("2200-12-31").value();
    std::string before = "1899-12-31";
    for (Day day = parseDay("1900-01-01").value(); day <= last; day += std::chrono::days(1)) {
        const std::string text = toText(day);
        REQUIRE(before < text);
        REQUIRE(parseDay(text) == day);
        before = text;
    }
}
