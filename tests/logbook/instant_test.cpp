// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Instants, durations and calendar intervals as texts.
#include "logbook/instant.h"

#include <catch2/catch.hpp>

#include <cstdint>
#include <optional>

using namespace logbook;

namespace {

std::optional<std::int64_t> msOf(const char* text) {
    const auto duration = parseDuration(text);
    return duration ? std::optional(duration->ms) : std::nullopt;
}

std::optional<int> monthsOf(const char* text) {
    const auto interval = parseCalendarInterval(text);
    return interval ? std::optional(interval->months) : std::nullopt;
}

constexpr std::int64_t hourMs = 3600000;
constexpr std::int64_t dayMs = 24 * hourMs;

}  // namespace

// RFC 3339, section 5.8: 1996-12-20T00:39:57Z is the example's second form; the count of seconds
// is POSIX's "seconds since the epoch" formula.
TEST_CASE("An instant counts milliseconds since 1970", "[reference]") {
    CHECK(parseInstant("1970-01-01T00:00:00Z") == Instant{0});
    CHECK(parseInstant("1996-12-20T00:39:57Z") == Instant{851042397000});
    CHECK(parseInstant("2001-09-09T01:46:40Z") == Instant{1000000000000});
    CHECK(parseInstant("1969-12-31T23:59:59.999Z") == Instant{-1});
}

TEST_CASE("An instant is written as short as it can be", "[unit]") {
    const auto rewritten = [](const char* text) { return toText(parseInstant(text).value()); };
    CHECK(rewritten("2026-03-02T14:00:00Z") == "2026-03-02T14:00:00Z");
    CHECK(rewritten("2026-03-02T14:00:00.000Z") == "2026-03-02T14:00:00Z");
    CHECK(rewritten("2026-03-02T14:00:00.050Z") == "2026-03-02T14:00:00.050Z");
    CHECK(rewritten("1900-01-01T00:00:00.001Z") == "1900-01-01T00:00:00.001Z");
    CHECK(rewritten("9999-12-31T23:59:59.999Z") == "9999-12-31T23:59:59.999Z");
}

// The first five are RFC 3339's own examples (section 5.8) and valid there; a record takes
// UTC with Z, seconds or milliseconds, and no leap second.
TEST_CASE("Other forms of RFC 3339 are no instants", "[reference]") {
    for (const char* text :
         {"1985-04-12T23:20:50.52Z", "1996-12-19T16:39:57-08:00", "1990-12-31T23:59:60Z",
          "1990-12-31T15:59:60-08:00", "1937-01-01T12:00:27.87+00:20", "2026-03-02t14:00:00Z",
          "2026-03-02T14:00:00z", "2026-03-02 14:00:00Z", "2026-03-02T14:00:00+00:00"}) {
        INFO(text);
        CHECK_FALSE(parseInstant(text));
    }
}

TEST_CASE("What is no instant is not read", "[unit]") {
    for (const char* text :
         {"", "Z", "2026-03-02", "2026-03-02T14:00Z", "2026-03-02T14:00:00", "2026-03-02T24:00:00Z",
          "2026-03-02T14:60:00Z", "2026-03-02T14:00:60Z", "2026-02-29T14:00:00Z",
          "1899-12-31T23:59:59Z", "2026-03-02T14:00:00.Z", "2026-03-02T14:00:00.1Z",
          "2026-03-02T14:00:00.0000Z", "2026-03-02T14:00:00,000Z", "2026-03-02T14:00:00.+12Z",
          "2026-03-02T1:000:00Z", "2026-03-02T14-00-00Z", " 2026-03-02T14:00:00Z",
          "2026-03-02T14:00:00Z "}) {
        INFO(text);
        CHECK_FALSE(parseInstant(text));
    }
}

TEST_CASE("A duration is exact", "[unit]") {
    CHECK(msOf("PT2M") == 120000);
    CHECK(msOf("PT20M") == 1200000);
    CHECK(msOf("P7D") == 7 * dayMs);
    CHECK(msOf("P2W") == 14 * dayMs);
    CHECK(msOf("P1DT2H3M4S") == dayMs + 2 * hourMs + 184000);
    CHECK(msOf("PT90M") == 90 * 60000);
    CHECK(msOf("P1DT4S") == dayMs + 4000);
    CHECK(msOf("P0D") == 0);
    CHECK(msOf("PT0S") == 0);
    CHECK(msOf("P365250D") == 365250 * dayMs);
}

TEST_CASE("What is no duration is not read", "[unit]") {
    for (const char* text :
         {"", "P", "PT", "P1DT", "7D", "P7", "P7d", "p7D", "PD", "-P7D", "P-7D", "+P7D", "P1.5D",
          "PT1,5H", "P1M", "P1Y", "P1Y2D", "P1W2D", "P1DT1W", "P2D1D", "PT1M1H", "PT1H1H", "P1H",
          "PT1D", "P1DTT1H", "PT1HT1M", "P7D ", " P7D", "P365251D", "P365250DT1S",
          "P99999999999999999999D", "PT99999999999999999999999S", "P52179W"}) {
        INFO(text);
        CHECK_FALSE(parseDuration(text));
    }
}

TEST_CASE("A calendar interval is months or years", "[unit]") {
    CHECK(monthsOf("P12M") == 12);
    CHECK(monthsOf("P1Y") == 12);
    CHECK(monthsOf("P0M") == 0);
    CHECK(monthsOf("P1000Y") == 12000);
    CHECK(monthsOf("P12000M") == 12000);
    for (const char* text : {"", "P", "P1", "PM", "1M", "P1Y6M", "P1D", "P4W", "PT1M", "P-1M",
                             "P1.5Y", "P1001Y", "P12001M", "P1m", "P1M "}) {
        INFO(text);
        CHECK_FALSE(parseCalendarInterval(text));
    }
}

TEST_CASE("Instants and durations add up", "[unit]") {
    constexpr Instant noon{12 * hourMs};
    CHECK(noon + Duration{5} == Instant{12 * hourMs + 5});
    CHECK(noon - Duration{5} == Instant{12 * hourMs - 5});
    CHECK(noon - Instant{0} == Duration{12 * hourMs});
    CHECK(Instant{0} < noon);
}
