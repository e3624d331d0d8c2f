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
    CHECK(adult.remedies[0].from == when("11:00"));
    CHECK(adult.remedies[0].attended == minutes(5));
    REQUIRE(adult.remedies[0].sessions.size() == 1);
    CHECK(adult.remedies[0].sessions[0].begin == when("10:55"));
    CHECK(adult.remedies[0].sessions[0].by == when("11:00"));
    CHECK(adult.heldFrom == when("10:30"));
    CHECK_FALSE(adult.shortFrom.has_value());
    CHECK(adult.lacking == 0);
    CHECK(adult.beyond.empty());
}

TEST_CASE("a group that is below par already is so from the start", "[unit]") {
    const auto found = ahead(threeUnits(), "09:30", 60);
    const auto& adult = found.groups.front();
    CHECK(adult.ready == 1);
    CHECK(adult.belowFrom == when("09:30"));
    REQUIRE(adult.remedies.size() == 1);
    CHECK(adult.remedies[0].device == "KB-2");
    CHECK_FALSE(adult.remedies[0].renewal);
    CHECK(adult.remedies[0].from == when("10:05"));
    CHECK(adult.remedies[0].sessions[0].begin == when("09:30"));
    CHECK(adult.heldFrom == when("10:05"));
}

TEST_CASE("a held unit is no remedy, and too few are told so", "[unit]") {
    auto log = threeUnits();
    log.on("KB-3").at("10:10").withdraw("repair");
    log.on("KB-2").at("10:10").withdraw("repair");
    const auto found = ahead(log, "10:30", 10);
    const auto& adult = found.groups.front();
    CHECK(adult.ready == 1);
    CHECK(adult.remedies.empty());
    CHECK_FALSE(adult.heldFrom.has_value());
    CHECK(adult.shortFrom == when("10:30"));
    CHECK(adult.lacking == 1);
}

TEST_CASE("nothing lapses and no group is short: an empty horizon", "[unit]") {
    const auto found = ahead(threeUnits(), "10:30", 10);
    CHECK(found.lapses.empty());
    CHECK_FALSE(found.groups.front().belowFrom.has_value());
    CHECK(found.groups.front().remedies.empty());
}

namespace {

// Two groups that each want a unit; their checks hold for so long.
LogBuilder twoGroups(const std::string& leak, const std::string& more = "") {
    LogBuilder log;
    log.adopt("format = 1\ntitle = \"Kestrel Bay\"\nedition = \"1\"\ntime_zone = \"UTC\"\n"
              "[groups.adult]\npar = 1\n[groups.neonatal]\npar = 1\n"
              "[checks.leak]\ntakes = \"PT5M\"\n" +
              leak + "\n" + more);
    return log;
}

std::string choice(const rules::GroupHorizon& group) {
    return joined(group.remedies, [](const rules::Remedy& each) { return each.device; });
}

}  // namespace

TEST_CASE("what lapses again within the horizon is renewed again", "[unit]") {
    auto log = twoGroups("valid_for = \"PT2H\"");
    log.on("KB-1").at("09:00").enrol({"adult"});
    log.on("KB-1").at("10:00").pass("leak");
    const auto adult = ahead(log, "10:30", 300).groups.front();
    REQUIRE(adult.remedies.size() == 1);
    REQUIRE(adult.remedies[0].sessions.size() == 2);
    CHECK(adult.remedies[0].sessions[0].by == when("12:00"));
    CHECK(adult.remedies[0].sessions[1].by == when("14:00"));
    CHECK(adult.remedies[0].attended == minutes(10));
}

TEST_CASE("what lapses one after the other is done at once where that is less", "[unit]") {
    auto log = twoGroups("valid_for = \"PT2H\"\nvoided_by = [ { event = \"fit circuit\" } ]",
                         "[positions.circuit]\nrequired = true\nchange_after = \"PT3H\"\n");
    log.on("KB-1").at("09:00").enrol({"adult"});
    log.on("KB-1").at("11:00").fit("circuit");
    log.on("KB-1").at("11:10").pass("leak");
    // The leak test lapses at 13:10; the circuit, to be changed by 14:00, would void it again.
    const auto adult = ahead(log, "11:20", 180).groups.front();
    REQUIRE(adult.remedies.size() == 1);
    REQUIRE(adult.remedies[0].sessions.size() == 1);
    CHECK(adult.remedies[0].sessions[0].by == when("13:10"));
    CHECK(adult.remedies[0].attended == minutes(6));
}

TEST_CASE("work begun too late for the lapse counts from when it is done", "[unit]") {
    auto log = twoGroups("valid_for = \"PT2H\"");
    log.on("KB-1").at("09:00").enrol({"adult"});
    log.on("KB-1").at("09:00").pass("leak");
    const auto adult = ahead(log, "10:58", 60).groups.front();
    REQUIRE(adult.remedies.size() == 1);
    CHECK(adult.remedies[0].from == when("11:03"));
    CHECK(adult.belowFrom == when("11:00"));
    CHECK(adult.heldFrom == when("11:03"));
}

TEST_CASE("a unit with no group selected serves one group only", "[unit]") {
    auto log = twoGroups("", "[checks.slow]\ntakes = \"PT30M\"\n"
                             "applies_when = { group = \"neonatal\" }\n");
    log.on("KB-1").at("09:00").enrol({"adult", "neonatal"});
    const auto alone = ahead(log, "10:00", 60);
    CHECK(choice(alone.groups[0]) == "KB-1");
    CHECK(choice(alone.groups[1]).empty());
    CHECK(alone.groups[1].lacking == 1);
    log.on("KB-2").at("09:00").enrol({"adult"});
    const auto both = ahead(log, "10:00", 60);
    CHECK(choice(both.groups[0]) == "KB-2");
    CHECK(choice(both.groups[1]) == "KB-1");
    CHECK(rules::toText(both.groups[1].remedies[0].sessions[0].tasks[0]) == "group neonatal");
}

TEST_CASE("a unit that is set up for one group is not taken for another", "[unit]") {
    auto log = twoGroups("");
    log.on("KB-1").at("09:00").enrol({"adult", "neonatal"});
    log.on("KB-1").at("09:01").group("neonatal");
    const auto found = ahead(log, "10:00", 60);
    CHECK(choice(found.groups[0]).empty());
    CHECK(choice(found.groups[1]) == "KB-1");
}

TEST_CASE("a unit that no work keeps ready to the end is told", "[unit]") {
    auto log = twoGroups("", "[services.maintenance]\nevery = \"P1M\"\n");
    log.on("KB-1").at("09:00").enrol({"adult"});
    log.on("KB-1").at("09:10").pass("leak");
    const auto found =
        rules::horizon(stateOf(log, asked("10:00")), when("10:00"), minutes(1440));
    CHECK(found.groups[0].remedies.empty());
    CHECK(found.groups[0].beyond == std::vector<std::string>{"KB-1"});
}

TEST_CASE("what lapses soon after is renewed along where that asks no more", "[unit]") {
    auto log = twoGroups("valid_for = \"PT2H\"",
                         "[checks.alarm]\ntakes = \"PT1M\"\nvalid_for = \"PT2H\"\n");
    log.on("KB-1").at("09:00").enrol({"adult"});
    log.on("KB-1").at("10:00").pass("leak");
    log.on("KB-1").at("10:20").pass("alarm");
    const auto adult = ahead(log, "10:30", 240).groups.front();
    REQUIRE(adult.remedies.size() == 1);
    CHECK(adult.remedies[0].sessions.size() == 2);
    CHECK(adult.remedies[0].attended == minutes(12));
}

TEST_CASE("what waits for the power is not done before, and counts from then", "[unit]") {
    auto log = twoGroups("valid_for = \"PT4H\"\n"
                         "not_before = [ { event = \"power_on\", wait = \"PT30M\" } ]");
    log.on("KB-1").at("05:00").enrol({"adult"});
    log.on("KB-1").at("05:01").power(true);
    log.on("KB-1").at("06:10").pass("leak");
    log.on("KB-1").at("09:40").power(false);
    log.on("KB-1").at("09:55").power(true);
    // The leak test lapses at 10:10 and is not to be begun before 10:25.
    const auto adult = ahead(log, "10:00", 120).groups.front();
    REQUIRE(adult.remedies.size() == 1);
    const auto& session = adult.remedies[0].sessions.at(0);
    CHECK(session.begin == when("10:25"));
    CHECK(session.by == when("10:30"));
    CHECK(session.tasks.at(0).notBefore == when("10:25"));
    CHECK(adult.remedies[0].from == when("10:30"));
    CHECK(adult.heldFrom == when("10:30"));
}

TEST_CASE("work whose wait is over in time is begun as late as it can be", "[unit]") {
    auto log = twoGroups("valid_for = \"PT4H\"\n"
                         "not_before = [ { event = \"power_on\", wait = \"PT30M\" } ]");
    log.on("KB-1").at("05:00").enrol({"adult"});
    log.on("KB-1").at("05:01").power(true);
    log.on("KB-1").at("06:40").pass("leak");
    log.on("KB-1").at("09:40").power(false);
    log.on("KB-1").at("09:55").power(true);
    const auto adult = ahead(log, "10:00", 120).groups.front();
    REQUIRE(adult.remedies.size() == 1);
    const auto& session = adult.remedies[0].sessions.at(0);
    CHECK(session.begin == when("10:35"));
    CHECK(session.by == when("10:40"));
    CHECK_FALSE(session.tasks.at(0).notBefore.has_value());
}
