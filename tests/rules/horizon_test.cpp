// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking ahead: which units lapse, which groups fall below par, and what prevents it.
#include "rules/horizon.h"

#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

// A leak test that is good for two hours; two ready units for adults are wanted.
const std::string twoWanted =
    "format = 1\ntitle = \"Kestrel Bay\"\nedition = \"1\"\ntime_zone = \"UTC\"\n"
    "[groups.adult]\npar = 2\n[checks.leak]\ntakes = \"PT5M\"\nvalid_for = \"PT2H\"\n"
    "[checks.long]\ntakes = \"PT30M\"\n";

LogBuilder threeUnits() {
    LogBuilder log;
    log.adopt(twoWanted);
    for (const char* serial : {"KB-1", "KB-2", "KB-3"}) log.on(serial).at("08:01").enrol({"adult"});
    log.on("KB-1").at("09:00").pass("leak");
    log.on("KB-1").at("09:00").pass("long");
    log.on("KB-2").at("10:00").pass("leak");
    log.on("KB-2").at("10:00").pass("long");
    return log;
}

rules::Horizon ahead(const LogBuilder& log, std::string_view at, std::int64_t minuteCount) {
    return rules::horizon(stateOf(log, asked(at)), when(at), minutes(minuteCount));
}

}  // namespace

TEST_CASE("units lapse in order, each with what will block", "[unit]") {
    const auto found = ahead(threeUnits(), "10:30", 120);
    REQUIRE(found.lapses.size() == 2);
    CHECK(found.lapses[0].device == "KB-1");
    CHECK(found.lapses[0].at == when("11:00"));
    REQUIRE(found.lapses[0].findings.size() == 1);
    CHECK(rules::toText(found.lapses[0].findings[0]) == "lapsed leak");
    CHECK(found.lapses[1].device == "KB-2");
    CHECK(found.lapses[1].at == when("12:00"));
}

TEST_CASE("what lapses at the end of the horizon is in it, later is not", "[unit]") {
    CHECK(ahead(threeUnits(), "10:30", 30).lapses.size() == 1);
    CHECK(ahead(threeUnits(), "10:30", 29).lapses.empty());
}

TEST_CASE("a group falls below par at the first lapse too many", "[unit]") {
    const auto found = ahead(threeUnits(), "10:30", 60);
    REQUIRE(found.groups.size() == 1);
    const auto& adult = found.groups.front();
    CHECK(adult.ready == 2);
    CHECK(adult.least == 1);
    CHECK(adult.belowFrom == when("11:00"));
    REQUIRE(adult.remedies.size() == 1);
    // Renewing one leak test is less work than both checks on the third unit.
    CHECK(adult.remedies[0].device == "KB-1");
    CHECK(adult.remedies[0].renewal);
    CHECK(adult.remedies[0].by == when("11:00"));
    CHECK(adult.remedies[0].attended == minutes(5));
    CHECK(adult.enough);
}

TEST_CASE("a group that is below par already is so from the start", "[unit]") {
    const auto found = ahead(threeUnits(), "09:30", 10);
    const auto& adult = found.groups.front();
    CHECK(adult.ready == 1);
    CHECK(adult.belowFrom == when("09:30"));
    REQUIRE(adult.remedies.size() == 1);
    CHECK(adult.remedies[0].device == "KB-2");
    CHECK_FALSE(adult.remedies[0].renewal);
    CHECK(adult.remedies[0].by == when("10:05"));
}

TEST_CASE("a held unit is no remedy, and too few are told so", "[unit]") {
    auto log = threeUnits();
    log.on("KB-3").at("10:10").withdraw("repair");
    log.on("KB-2").at("10:10").withdraw("repair");
    const auto found = ahead(log, "10:30", 10);
    const auto& adult = found.groups.front();
    CHECK(adult.ready == 1);
    CHECK(adult.remedies.empty());
    CHECK_FALSE(adult.enough);
}

TEST_CASE("nothing lapses and no group is short: an empty horizon", "[unit]") {
    const auto found = ahead(threeUnits(), "10:30", 10);
    CHECK(found.lapses.empty());
    CHECK_FALSE(found.groups.front().belowFrom.has_value());
    CHECK(found.groups.front().remedies.empty());
}
