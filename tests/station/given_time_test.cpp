// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Times as people give them. The clock of America/Chicago went from 02:00 to 03:00 on 8 March 2026
// and goes from 02:00 CDT to 01:00 CST on 1 November 2026 (15 U.S.C. 260a; tz database,
// "northamerica").
#include "station/given_time.h"

#include "station/ward.h"

using support::utc;
using support::Ward;

namespace {

std::string resolved(std::string_view text, logbook::Instant now,
                     station::Tense tense = station::Tense::Past) {
    const auto given = station::parseGivenTime(text, *words::Words::builtIn());
    if (!given) return "no time";
    if (const auto* instant = std::get_if<logbook::Instant>(&*given)) return toText(*instant);
    const auto zone = support::zones()("America/Chicago");
    const auto found = station::instantAt(*words::Words::builtIn(), *zone,
                                          std::get<station::WallTime>(*given), now, tense);
    return found ? toText(*found) : found.error().code + ": " + found.error().notice.says;
}

// What is to be done about a time that cannot be taken.
std::string actionFor(std::string_view text, logbook::Instant now) {
    const auto given = station::parseGivenTime(text, *words::Words::builtIn());
    const auto zone = support::zones()("America/Chicago");
    const auto found = station::instantAt(*words::Words::builtIn(), *zone,
                                          std::get<station::WallTime>(*given), now,
                                          station::Tense::Past);
    return found ? std::string() : found.error().notice.action;
}

}  // namespace

TEST_CASE("A time is given in UTC or by the clock on the wall", "[unit]") {
    const auto now = utc(2026, 3, 2, 20, 30);  // 14:30 in Chicago
    CHECK(resolved("2026-03-02T14:00:00Z", now) == "2026-03-02T14:00:00Z");
    CHECK(resolved("14:20", now) == "2026-03-02T20:20:00Z");
    CHECK(resolved("14:20:05", now) == "2026-03-02T20:20:05Z");
    CHECK(resolved("2026-03-01 23:50", now) == "2026-03-02T05:50:00Z");
    CHECK(resolved("2026-03-01T23:50", now) == "2026-03-02T05:50:00Z");
    CHECK(resolved("  2026-03-01   23:50  ", now) == "2026-03-02T05:50:00Z");
    for (const std::string text :
         {"", "now", "25:00", "14:60", "1420", "2 pm", "14:20 pm", "2026-03-02", "2026-02-30 14:20",
          "2026-03-02 14:20 third", "14:20 first second third", "2026-03-02T14:20:00+01:00"}) {
        CAPTURE(text);
        CHECK(resolved(text, now) == "no time");
    }
}

TEST_CASE("Which of two equal times is meant is said in English or in the language spoken",
          "[unit]") {
    const auto whichOf = [](std::string_view text, std::string_view language) {
        const auto given = station::parseGivenTime(text, *words::Words::builtIn(language));
        if (!given) return 0;
        return std::get<station::WallTime>(*given).which.value_or(0);
    };
    CHECK(whichOf("01:30 first", "es") == 1);
    CHECK(whichOf("01:30 second", "es") == 2);
    CHECK(whichOf("01:30 (primera, CDT)", "es") == 1);
    CHECK(whichOf("2026-11-01 01:30 segunda", "es") == 2);
    CHECK(whichOf("01:30 segunda", "en") == 0);
}

TEST_CASE("Without a day it is the last time for what happened, today for what is asked",
          "[unit]") {
    const auto now = utc(2026, 3, 2, 6, 10);  // 00:10 in Chicago
    CHECK(resolved("23:50", now) == "2026-03-02T05:50:00Z");
    CHECK(resolved("00:10", now) == "2026-03-02T06:10:00Z");
    CHECK(resolved("23:50", now, station::Tense::Any) == "2026-03-03T05:50:00Z");
    // A day that is said is taken as it is; that it lies ahead is refused where it is written.
    CHECK(resolved("2026-03-02 23:50", now) == "2026-03-03T05:50:00Z");
}

TEST_CASE("In the night in which an hour comes twice it must be said which", "[unit]") {
    const auto now = utc(2026, 11, 1, 12);
    CHECK(resolved("01:30", now) ==
          "time_given.twice: On 1 Nov 2026 the clock showed 01:30 twice: 1 Nov 2026 01:30 CDT "
          "(UTC-05:00, 2026-11-01T06:30:00Z) and 1 Nov 2026 01:30 CST (UTC-06:00, "
          "2026-11-01T07:30:00Z).");
    CHECK(resolved("01:30 first", now) == "2026-11-01T06:30:00Z");
    CHECK(resolved("01:30 second", now) == "2026-11-01T07:30:00Z");
    CHECK(resolved("01:30 (second, CST)", now) == "2026-11-01T07:30:00Z");
    CHECK(resolved("2026-11-01 01:30 CDT", now) == "2026-11-01T06:30:00Z");
    CHECK(resolved("02:30", now) == "2026-11-01T08:30:00Z");
    CHECK(resolved("02:30 CST", now) == "2026-11-01T08:30:00Z");
    CHECK(resolved("02:30 CDT", now).find("time_given.never") == 0);
    // While the second one is still to come, only the first has happened.
    CHECK(resolved("01:30", utc(2026, 11, 1, 7)) == "2026-11-01T06:30:00Z");
}

TEST_CASE("What is said of a time that comes twice must be so", "[unit]") {
    // Ten past midnight on the day on which the clock is put back: that was yesterday.
    CHECK(resolved("23:30 (CDT)", utc(2026, 11, 1, 5, 10)) == "2026-11-01T04:30:00Z");
    // A quarter to two, for the first time: the second half past one is to come.
    const auto first = utc(2026, 11, 1, 6, 45);
    CHECK(resolved("01:30 second", first).find("time_given.no_second") == 0);
    CHECK(resolved("01:30 first", first) == "2026-11-01T06:30:00Z");
    const auto after = utc(2026, 11, 1, 12);
    CHECK(resolved("01:30 (second, CDT)", after).find("time_given.never") == 0);
    CHECK(resolved("01:30 (first, CST)", after).find("time_given.never") == 0);
    CHECK(resolved("04:30 second", after).find("time_given.no_second") == 0);
    CHECK(resolved("2026-10-31 01:30 second", after).find("time_given.no_second") == 0);
    CHECK(resolved("01:30 first second", after) == "no time");
    CHECK(resolved("01:30 CDT CST", after) == "no time");
}

TEST_CASE("In the night in which an hour is left out there is no such time", "[unit]") {
    const auto now = utc(2026, 3, 8, 12);
    CHECK(resolved("2026-03-08 02:30", now) ==
          "time_given.skipped: On 8 Mar 2026 the clock went from 02:00 to 03:00: it never showed "
          "02:30.");
    CHECK(resolved("01:59", now) == "2026-03-08T07:59:00Z");
    CHECK(resolved("03:00", now) == "2026-03-08T08:00:00Z");
    CHECK(resolved("02:30", now).find("time_given.skipped") == 0);
    CHECK(resolved("02:30 CDT", now).find("time_given.skipped") == 0);
    CHECK(actionFor("02:30", now) ==
          "If the clock that showed 02:30 had not been put forward yet, write 03:30.");
}

TEST_CASE("The clock on the wall is that of the edition in force", "[unit]") {
    Ward ward;
    REQUIRE(station::foundStation(ward.surroundings, ward.logbook, "icu-1"));
    CHECK(station::zoneInForce(ward.surroundings, ward.logbook).error().code ==
          "time_given.no_zone");
    ward.found();
    const auto zone = [&] {
        const auto found = station::zoneInForce(ward.surroundings, ward.logbook);
        REQUIRE(found);
        return (*found)->name();
    };
    CHECK(zone() == "America/Chicago");
    std::string moved(Ward::policy);
    moved.replace(moved.find("America/Chicago"), 15, "Europe/Berlin");
    REQUIRE(station::adopt(ward.surroundings, ward.logbook,
                           {ward.as("mt"), ward.folder.write("moved.toml", moved)}));
    CHECK(zone() == "Europe/Berlin");
}
