// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Times, spans and numbers as people read them.
#include "words/times.h"
#include "support/zones.h"

#include <catch2/catch.hpp>

namespace {

const words::Words& english() {
    return *words::Words::builtIn();
}

std::string durationOf(std::int64_t seconds) {
    return words::duration(english(), {seconds * 1000});
}

}  // namespace

using support::utc;

TEST_CASE("times are local, short on the day asked about", "[unit]") {
    const auto zone = support::zone("America/Chicago");
    const words::Times times(english(), *zone, utc(2026, 11, 14, 18, 0));
    CHECK(times.time(utc(2026, 11, 14, 8, 10)) == "02:10");
    CHECK(times.time(utc(2026, 11, 14, 5, 59)) == "13 Nov 23:59");
    CHECK(times.time(utc(2025, 11, 14, 9, 40)) == "14 Nov 2025 03:40");
    CHECK(times.when(utc(2026, 11, 14, 8, 10)) == "at 02:10");
    CHECK(times.when(utc(2026, 11, 12, 9, 40)) == "on 12 Nov at 03:40");
    CHECK(times.lately(utc(2026, 11, 14, 0, 5)) == "18:05 yesterday");
    CHECK(times.lately(utc(2026, 11, 13, 0, 5)) == "12 Nov 18:05");
    CHECK(times.full(utc(2026, 11, 14, 9, 40)) ==
          "14 Nov 2026 03:40 CST (UTC-06:00, 2026-11-14T09:40:00Z)");
    CHECK(times.month(std::chrono::year{2026} / std::chrono::October) == "Oct 2026");
    CHECK(times.dayOf(utc(2026, 11, 14, 5, 59)) == "13 Nov");
}

TEST_CASE("in the night of two 01:30s each says which it is", "[unit]") {
    const auto zone = support::zone("America/Chicago");
    const words::Times times(english(), *zone, utc(2026, 11, 1, 12, 0));
    CHECK(times.time(utc(2026, 11, 1, 6, 30)) == "01:30 (first, CDT)");
    CHECK(times.time(utc(2026, 11, 1, 7, 30)) == "01:30 (second, CST)");
    CHECK(times.time(utc(2026, 11, 1, 8, 30)) == "02:30");
}

TEST_CASE("spans are said in the units that matter", "[unit]") {
    CHECK(durationOf(0) == "0 min");
    CHECK(durationOf(45) == "45 s");
    CHECK(durationOf(12 * 60 + 59) == "12 min");
    CHECK(durationOf(3600) == "1 h");
    CHECK(durationOf(3 * 3600 + 20 * 60) == "3 h 20 min");
    CHECK(durationOf(47 * 3600) == "47 h");
    CHECK(durationOf(48 * 3600) == "2 days");
    CHECK(durationOf(53 * 3600) == "2 days 5 h");
    CHECK(durationOf(9 * 86400 + 5 * 3600) == "9 days");
    CHECK(words::wait(english(), {11 * 60'000 + 1}) == "12 min");
    CHECK(words::wait(english(), {60'000}) == "1 min");
    CHECK(words::wait(english(), {48 * 3'600'000 - 1}) == "2 days");
    CHECK(words::wait(english(), {53 * 3'600'000 + 1}) == "2 days 6 h");
    CHECK(words::wait(english(), {9 * 86'400'000LL + 1}) == "10 days");
}

TEST_CASE("what may not be done earlier is told by the whole minute after it", "[unit]") {
    const auto zone = support::zone("America/Chicago");
    const words::Times times(english(), *zone, utc(2026, 11, 14, 18, 0));
    const auto told = [&times](std::int64_t second, std::int64_t ms = 0) {
        const logbook::Instant at{utc(2026, 11, 14, 22, 9).ms + second * 1000 + ms};
        return times.time(words::wholeMinute(at));
    };
    CHECK(told(0) == "16:09");
    CHECK(told(0, 1) == "16:10");
    CHECK(told(22) == "16:10");
    CHECK(told(59, 999) == "16:10");
    CHECK(words::wholeMinute({-1}).ms == 0);
    CHECK(words::wholeMinute({-60'001}).ms == -60'000);
}

TEST_CASE("spans of one table are said alike, to the minute", "[unit]") {
    using words::SpanUnit;
    const auto said = [](std::int64_t seconds, SpanUnit unit) {
        return words::span(english(), {seconds * 1000}, unit);
    };
    CHECK(words::unitFor({}) == SpanUnit::Minutes);
    CHECK(words::unitFor({{59 * 60'000}, {0}}) == SpanUnit::Minutes);
    CHECK(words::unitFor({{59 * 60'000 + 30'000}, {0}}) == SpanUnit::Hours);
    CHECK(words::unitFor({{60'000}, {24 * 3'600'000 - 30'001}}) == SpanUnit::Hours);
    CHECK(words::unitFor({{60'000}, {24 * 3'600'000}}) == SpanUnit::Days);
    CHECK(said(0, SpanUnit::Days) == "none");
    CHECK(said(29, SpanUnit::Days) == "under 1 min");
    CHECK(said(30, SpanUnit::Minutes) == "1 min");
    CHECK(said(59 * 60, SpanUnit::Hours) == "0 h 59 min");
    CHECK(said(10 * 3600 + 5 * 60, SpanUnit::Hours) == "10 h 05 min");
    CHECK(said(76 * 3600 + 5 * 60, SpanUnit::Days) == "3 d 04 h 05 min");
    CHECK(said(30 * 86400, SpanUnit::Days) == "30 d 00 h 00 min");
}

TEST_CASE("numbers come with units and without false precision", "[unit]") {
    CHECK(words::quantity(english(), 180, "mL/min") == "180 mL/min");
    CHECK(words::quantity(english(), 37.5, "degC") == "37.5 °C");
    CHECK(words::quantity(english(), 0.21, "fraction") == "0.21");
    CHECK(words::number(english(), 1234567) == "1234567");
    CHECK(words::number(english(), 0.1 + 0.2) == "0.3");
}

TEST_CASE("a rate is never rounded up to all or down to none", "[unit]") {
    CHECK(words::percent(english(), 9996, 10000) == "99.9 %");
    CHECK(words::percent(english(), 1, 1) == "100 %");
    CHECK(words::percent(english(), 0, 7) == "0 %");
    CHECK(words::percent(english(), 1, 10000) == "under 0.1 %");
    CHECK(words::percent(english(), 2, 3) == "66.7 %");
}
