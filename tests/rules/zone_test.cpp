// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Local days and clock times around transitions.
#include "rules/zone.h"

#include "support/zones.h"

#include <catch2/catch.hpp>

using logbook::Day;
using logbook::Duration;
using logbook::Instant;
using rules::Zone;
using support::hours;
using support::utc;

namespace {

Day date(int year, unsigned month, unsigned day) {
    return Day{std::chrono::year{year} / std::chrono::month{month} / std::chrono::day{day}};
}

// Source: zdump of tz database 2025b (public domain). `local` is the local clock just before the
// transition, rounded up to the whole second after 59, and just after it.
struct Row {
    std::string zone;
    Instant transition;
    Duration before, after;  // offsets
};

const std::vector<Row> published{
    {"America/New_York", utc(2026, 3, 8, 7), hours(-5), hours(-4)},
    {"America/New_York", utc(2026, 11, 1, 6), hours(-4), hours(-5)},
    {"America/New_York", utc(2027, 3, 14, 7), hours(-5), hours(-4)},
    {"America/New_York", utc(2027, 11, 7, 6), hours(-4), hours(-5)},
    {"Europe/London", utc(2026, 3, 29, 1), hours(0), hours(1)},
    {"Europe/London", utc(2026, 10, 25, 1), hours(1), hours(0)},
    {"Europe/Berlin", utc(2026, 3, 29, 1), hours(1), hours(2)},
    {"Europe/Berlin", utc(2026, 10, 25, 1), hours(2), hours(1)},
};

// Zones of which only these transitions matter here, from the same source.
Zone zoneOf(const std::string& name, Instant transition, Duration before, Duration after) {
    return Zone(name, {{utc(2000, 1, 1), before, "A"}, {transition, after, "B"}});
}

const Zone auckland("Pacific/Auckland", {{utc(2000, 1, 1), hours(13), "NZDT"},
                                         {utc(2026, 4, 4, 14), hours(12), "NZST"},
                                         {utc(2026, 9, 26, 14), hours(13), "NZDT"}});
const Zone lordHowe("Australia/Lord_Howe", {{utc(2000, 1, 1), hours(11), "+11"},
                                            {utc(2026, 4, 4, 15), hours(10.5), "+1030"},
                                            {utc(2026, 10, 3, 15, 30), hours(11), "+11"}});
const Zone cairo("Africa/Cairo", {{utc(2000, 1, 1), hours(2), "EET"},
                                  {utc(2026, 4, 23, 22), hours(3), "EEST"},
                                  {utc(2026, 10, 29, 21), hours(2), "EET"}});

// Left out the whole of 30 December 2011 (from memory).
const Zone apia = zoneOf("Pacific/Apia", utc(2011, 12, 30, 10), hours(-10), hours(14));

}  // namespace

TEST_CASE("The offset changes at the published transitions", "[reference]") {
    for (const auto& row : published) {
        INFO(row.zone);
        const auto zone = support::zone(row.zone);
        REQUIRE(zone);
        CHECK(zone->at(row.transition - Duration{1}).offset == row.before);
        CHECK(zone->at(row.transition).offset == row.after);
    }
}

TEST_CASE("A clock time within a gap never comes", "[reference]") {
    // Source of the local times: zdump of tz database 2025b.
    const auto newYork = support::zone("America/New_York");
    CHECK(newYork->instantsOf(date(2026, 3, 8), hours(2.5)).empty());
    CHECK(newYork->instantsOf(date(2026, 3, 8), hours(2)).empty());
    CHECK(newYork->instantsOf(date(2026, 3, 8), hours(3)) == std::vector{utc(2026, 3, 8, 7)});
    CHECK(support::zone("Europe/London")->instantsOf(date(2026, 3, 29), hours(1.5)).empty());
    CHECK(auckland.instantsOf(date(2026, 9, 27), hours(2.5)).empty());
    CHECK(lordHowe.instantsOf(date(2026, 10, 4), hours(2.25)).empty());
    CHECK(lordHowe.instantsOf(date(2026, 10, 4), hours(2.5)) ==
          std::vector{utc(2026, 10, 3, 15, 30)});
    CHECK(cairo.instantsOf(date(2026, 4, 24), hours(0)).empty());
}

TEST_CASE("A clock time within an overlap comes twice", "[reference]") {
    const auto berlin = support::zone("Europe/Berlin");
    const auto twice = berlin->instantsOf(date(2026, 10, 25), hours(2.5));
    CHECK(twice == std::vector{utc(2026, 10, 25, 0, 30), utc(2026, 10, 25, 1, 30)});
    CHECK(berlin->occurrence(twice[0]) == 1);
    CHECK(berlin->occurrence(twice[1]) == 2);
    CHECK(berlin->occurrence(utc(2026, 10, 25, 2)) == 0);
    CHECK(berlin->occurrence(utc(2026, 10, 24, 23, 59)) == 0);

    const auto newYork = support::zone("America/New_York");
    CHECK(newYork->occurrence(utc(2026, 11, 1, 5)) == 1);
    CHECK(newYork->occurrence(utc(2026, 11, 1, 6)) == 2);
    CHECK(newYork->occurrence(utc(2026, 11, 1, 7)) == 0);

    CHECK(auckland.occurrence(utc(2026, 4, 4, 13, 30)) == 1);
    CHECK(auckland.occurrence(utc(2026, 4, 4, 14, 30)) == 2);
    // Half an hour only: 01:30 to 01:59 come twice, 01:29 does not.
    CHECK(lordHowe.occurrence(utc(2026, 4, 4, 14, 30)) == 1);
    CHECK(lordHowe.occurrence(utc(2026, 4, 4, 15)) == 2);
    CHECK(lordHowe.occurrence(utc(2026, 4, 4, 14, 29)) == 0);
    CHECK(lordHowe.occurrence(utc(2026, 4, 4, 15, 30)) == 0);
}

TEST_CASE("A local day starts at its first instant", "[reference]") {
    const auto chicago = support::zone("America/Chicago");
    CHECK(chicago->startOf(date(2026, 3, 8)) == utc(2026, 3, 8, 6));
    CHECK(chicago->startOf(date(2026, 3, 9)) == utc(2026, 3, 9, 5));  // 23 hours later
    CHECK(chicago->startOf(date(2026, 11, 1)) == utc(2026, 11, 1, 5));
    CHECK(chicago->startOf(date(2026, 11, 2)) == utc(2026, 11, 2, 6));  // 25 hours later

    // Cairo has no midnight on 24 April, and on 29 October goes back from midnight to 23:00, so
    // that the 30th begins an hour after it would have.
    CHECK(cairo.startOf(date(2026, 4, 24)) == utc(2026, 4, 23, 22));
    CHECK(cairo.startOf(date(2026, 10, 30)) == utc(2026, 10, 29, 22));
    CHECK(cairo.occurrence(utc(2026, 10, 29, 20)) == 1);
    CHECK(cairo.occurrence(utc(2026, 10, 29, 21)) == 2);
}

TEST_CASE("A day that a zone leaves out starts with the next", "[reference]") {
    const auto jump = utc(2011, 12, 30, 10);
    CHECK(apia.dayOf(jump - Duration{1}) == date(2011, 12, 29));
    CHECK(apia.dayOf(jump) == date(2011, 12, 31));
    CHECK(apia.startOf(date(2011, 12, 29)) == utc(2011, 12, 29, 10));
    CHECK(apia.startOf(date(2011, 12, 30)) == jump);
    CHECK(apia.startOf(date(2011, 12, 31)) == jump);
    CHECK(apia.startOf(date(2012, 1, 1)) == utc(2011, 12, 31, 10));
    CHECK(apia.instantsOf(date(2011, 12, 30), hours(12)).empty());
    CHECK(apia.instantsOf(date(2011, 12, 31), hours(0)) == std::vector{jump});
}

TEST_CASE("A day that comes again starts the first time", "[unit]") {
    // Back across midnight half an hour into the day.
    const Zone zone = zoneOf("Test/Back", utc(2026, 5, 1, 0, 30), hours(0), hours(-1));
    CHECK(zone.dayOf(utc(2026, 5, 1, 0, 29)) == date(2026, 5, 1));
    CHECK(zone.dayOf(utc(2026, 5, 1, 0, 30)) == date(2026, 4, 30));
    CHECK(zone.startOf(date(2026, 5, 1)) == utc(2026, 5, 1));
    CHECK(zone.instantsOf(date(2026, 5, 1), hours(0)) ==
          std::vector{utc(2026, 5, 1), utc(2026, 5, 1, 1)});
}

TEST_CASE("The first transition holds for all time before the second", "[unit]") {
    const auto chicago = support::zone("America/Chicago");
    CHECK(chicago->at(utc(1950, 7, 1)).abbreviation == "CST");
    CHECK(chicago->dayOf(utc(1950, 7, 1, 5)) == date(1950, 6, 30));
    CHECK(chicago->startOf(date(1950, 7, 1)) == utc(1950, 7, 1, 6));
    CHECK(chicago->at(utc(2026, 7, 1)).abbreviation == "CDT");
    CHECK(chicago->startOf(date(2090, 7, 1)) == utc(2090, 7, 1, 6));
    CHECK(chicago->name() == "America/Chicago");
}

TEST_CASE("Days begin at midnight or later and clock times lead back", "[exhaustive]") {
    for (const std::string name : {"America/Chicago", "Europe/Berlin", "UTC"}) {
        const auto zone = support::zone(name);
        for (auto at = utc(2026, 1, 1); at < utc(2027, 1, 1); at = at + hours(0.25)) {
            const Day day = zone->dayOf(at);
            const Duration clock = at + zone->at(at).offset -
                                   Instant{day.time_since_epoch().count() * 86'400'000LL};
            const auto instants = zone->instantsOf(day, clock);
            const auto found = std::find(instants.begin(), instants.end(), at);
            const bool leadsBack = found != instants.end();
            const auto nth = instants.size() == 2 ? found - instants.begin() + 1 : 0;
            const bool isWithin = zone->startOf(day) <= at &&
                                  at < zone->startOf(day + std::chrono::days{1}) &&
                                  zone->dayOf(zone->startOf(day) - Duration{1}) < day;
            if (!leadsBack || zone->occurrence(at) != nth || !isWithin) {
                FAIL(name << ' ' << at.ms);
            }
        }
    }
}

TEST_CASE("The same name gives the same zone, an unknown one none", "[unit]") {
    const auto zones = support::zones();
    CHECK(zones("Europe/Berlin") == zones("Europe/Berlin"));
    CHECK(zones("Europe/Atlantis") == nullptr);
}
