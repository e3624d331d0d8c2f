// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Names of zones, and rules by which zones go on. The forms of rules are those of RFC 8536 section
// 3.3 and of the POSIX TZ variable; the transitions of 2026 those of support/zones.h, with their
// source.
#include "station/zone_rule.h"

#include "support/zones.h"

#include <catch2/catch.hpp>

using station::parseZoneRule;
using support::utc;

TEST_CASE("A rule gives the transitions that the tables have", "[reference]") {
    const auto rule = parseZoneRule("CST6CDT,M3.2.0,M11.1.0");
    REQUIRE(rule);
    const auto transitions = station::transitionsOf(*rule, 2026, 2027);
    REQUIRE(transitions.size() == 4);
    CHECK(transitions[0].from == utc(2026, 3, 8, 8));
    CHECK(transitions[0].offset == support::hours(-5));
    CHECK(transitions[0].abbreviation == "CDT");
    CHECK(transitions[1].from == utc(2026, 11, 1, 7));
    CHECK(transitions[1].offset == support::hours(-6));
    CHECK(transitions[1].abbreviation == "CST");
    CHECK(transitions[2].from == utc(2027, 3, 14, 8));
    CHECK(transitions[3].from == utc(2027, 11, 7, 7));
}

TEST_CASE("A rule may name the last week, a time and an offset of its own", "[reference]") {
    const auto berlin = parseZoneRule("CET-1CEST,M3.5.0,M10.5.0/3");
    REQUIRE(berlin);
    CHECK(station::transitionsOf(*berlin, 2026, 2026)[0].from == utc(2026, 3, 29, 1));
    CHECK(station::transitionsOf(*berlin, 2026, 2026)[1].from == utc(2026, 10, 25, 1));
    const auto lordHowe = parseZoneRule("<+1030>-10:30<+11>-11,M10.1.0,M4.1.0");
    REQUIRE(lordHowe);
    CHECK(lordHowe->standard.offset == support::hours(10.5));
    CHECK(lordHowe->summer.offset == support::hours(11));
    CHECK(lordHowe->summer.abbreviation == "+11");
    const auto south = station::transitionsOf(*lordHowe, 2026, 2026);
    CHECK(south[0].offset == support::hours(10.5));
    CHECK(south[0].from < south[1].from);
    const auto nuuk = parseZoneRule("<-02>2<-01>,M3.5.0/-1,M10.5.0/0");
    REQUIRE(nuuk);
    CHECK(station::transitionsOf(*nuuk, 2026, 2026)[0].from == utc(2026, 3, 29, 1));
    const auto gaza = parseZoneRule("EET-2EEST,M3.4.4/50,M10.4.4/50");
    REQUIRE(gaza);
    CHECK(gaza->begin.time == support::hours(50));
}

TEST_CASE("A name is a zone's where it means the same zone on every computer", "[unit]") {
    for (const auto* name :
         {"UTC", "GMT0", "EST5EDT", "W-SU", "NZ-CHAT", "America/Chicago", "Etc/GMT+5", "Etc/GMT-14",
          "America/Port-au-Prince", "America/Argentina/Buenos_Aires", "Africa/El_Aaiun"}) {
        CAPTURE(std::string(name));
        CHECK(station::mayNameZone(name));
    }
    for (const auto* name :
         {"localtime", "posixrules", "Factory", "right", "right/UTC", "right/America/Chicago",
          "posix/America/Chicago", "posix/Etc/GMT+5", "", "/", "/etc/localtime", "America/",
          "/America/Chicago", "America//Chicago", "../zoneinfo/UTC", "America/../localtime",
          "./UTC", "zone.tab", "America/Chicago ", " UTC", "<+01>-1", "-05"}) {
        CAPTURE(std::string(name));
        CHECK_FALSE(station::mayNameZone(name));
    }
}

TEST_CASE("What is no rule with summer time gives none", "[unit]") {
    for (const auto* text :
         {"", "UTC0", "<+01>-1", "CST6CDT", "CST6CDT,M3.2.0", "CST6CDT,M13.2.0,M11.1.0",
          "CST6CDT,M3.6.0,M11.1.0", "CST6CDT,M3.2.7,M11.1.0", "CST6CDT,M3.2.0,M11.1.0 ",
          "CST6CDT,J60,J300", "C6CDT,M3.2.0,M11.1.0", "CSTCDT,M3.2.0,M11.1.0", "<CST6CDT"}) {
        CAPTURE(std::string(text));
        CHECK_FALSE(parseZoneRule(text));
    }
}
