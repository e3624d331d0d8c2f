// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which passes are certain when the clocks of stations differ.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

const std::string rulebook = book(
    "[checks.leak]\ntakes = \"PT2M\"\nvoided_by = [{ event = \"soil\" }]\n",
    {"1", "UTC", "clock_tolerance = \"PT10M\"\n"});

LogBuilder start() {
    LogBuilder log = logWith(rulebook);
    log.on(device).at("08:30").pass("leak");
    return log;
}

// "current", or "due" with its reason.
std::string standing(const LogBuilder& log) {
    const auto assessment = assessed(log);
    const auto found = status(assessment);
    if (found != "due") return found;
    return found + " " + finding(assessment, "due leak").reason;
}

}  // namespace

TEST_CASE("a pass soon after another station's voiding is not certain", "[unit]") {
    LogBuilder log = start();
    const auto soiled = log.on(device).station("icu-2").at("10:00").soil();
    SECTION("within the tolerance") {
        log.on(device).at("10:09:59.999").pass("leak");
        CHECK(standing(log) == "due order_uncertain");
        CHECK(restsOn(finding(assessed(log), "due leak")) == toText(soiled));
        CHECK(text(finding(assessed(log), "due leak").since) == "2026-03-02T10:00:00Z");
    }
    SECTION("at the same instant") {
        log.on(device).station("icu-3").at("10:00").pass("leak");
        CHECK(standing(log) == "due order_uncertain");
    }
    SECTION("at the tolerance") {
        log.on(device).at("10:10").pass("leak");
        CHECK(standing(log) == "current");
    }
    SECTION("by the same station") {
        log.on(device).station("icu-2").at("10:00").pass("leak");
        CHECK(standing(log) == "current");
    }
    SECTION("no pass at all") { CHECK(standing(log) == "due "); }
}

TEST_CASE("likewise after another station's failure", "[unit]") {
    LogBuilder log = start();
    log.on(device).station("icu-2").at("09:50").soil();
    const auto failed = log.on(device).station("icu-2").at("10:00").fail("leak");
    CHECK(standing(log) == "failed");
    log.on(device).at("10:05").pass("leak");
    CHECK(standing(log) == "due order_uncertain");
    CHECK(restsOn(finding(assessed(log), "due leak")) == toText(failed));
    log.on(device).at("10:06").station("icu-2").pass("leak");
    CHECK(standing(log) == "current");
}

TEST_CASE("the finding rests on the later of voiding and failure", "[unit]") {
    LogBuilder log = start();
    log.on(device).station("icu-2").at("10:00").fail("leak");
    const auto soiled = log.on(device).station("icu-2").at("10:01").soil();
    log.on(device).at("10:02").pass("leak");
    CHECK(standing(log) == "due order_uncertain");
    CHECK(restsOn(finding(assessed(log), "due leak")) == toText(soiled));
}

TEST_CASE("without a voiding it rests on the failure, and once voided on that alone", "[unit]") {
    LogBuilder log = start();
    const auto failed = log.on(device).station("icu-2").at("10:00").fail("leak");
    log.on(device).at("10:02").pass("leak");
    CHECK(restsOn(finding(assessed(log), "due leak")) == toText(failed));
    const auto soiled = log.on(device).at("10:03").soil();
    CHECK(standing(log) == "due ");
    CHECK(restsOn(finding(assessed(log), "due leak")) == toText(soiled));
}

TEST_CASE("one certain pass is enough, before or after uncertain ones", "[unit]") {
    LogBuilder log = start();
    log.on(device).station("icu-2").at("10:00").soil();
    SECTION("before") {
        log.on(device).station("icu-2").at("10:01").pass("leak");
        log.on(device).at("10:02").pass("leak");
    }
    SECTION("after") {
        log.on(device).at("10:02").pass("leak");
        log.on(device).at("10:11").pass("leak");
    }
    CHECK(standing(log) == "current");
}

TEST_CASE("a certain pass before the last failure or voiding is none", "[unit]") {
    LogBuilder log = start();
    SECTION("failure") { log.on(device).station("icu-2").at("10:00").fail("leak"); }
    SECTION("voiding") { log.on(device).station("icu-2").at("10:00").soil(); }
    log.on(device).at("10:01").pass("leak");
    CHECK(standing(log) == "due order_uncertain");
}

TEST_CASE("every record of another station counts, not only the last voiding", "[unit]") {
    LogBuilder log = start();
    log.on(device).station("icu-2").at("10:00").soil();
    log.on(device).at("10:03").soil();
    log.on(device).at("10:05").pass("leak");
    CHECK(standing(log) == "due order_uncertain");
    log.on(device).at("10:05").station("icu-3").pass("leak");
    CHECK(standing(log) == "due order_uncertain");
    log.on(device).at("10:11").pass("leak");
    CHECK(standing(log) == "current");
}

TEST_CASE("only what voids or fails the check makes a pass uncertain", "[unit]") {
    LogBuilder log = start();
    log.on(device).at("10:00").soil();
    log.on(device).station("icu-2").at("10:01").check("leak", "incomplete");
    log.on(device).station("icu-2").at("10:01").move("Store");
    log.on(device).station("icu-2").at("10:01").pass("leak");
    log.on(device).at("10:20").soil();
    log.on(device).station("icu-2").at("10:21").note();
    log.on(device).at("10:22").pass("leak");
    CHECK(standing(log) == "current");
}

TEST_CASE("the tolerance is that of the edition in force at the pass", "[unit]") {
    LogBuilder log = start();
    log.on(device).station("icu-2").at("10:00").soil();
    log.department().at("10:01").adopt(
        book("[checks.leak]\ntakes = \"PT2M\"\nvoided_by = [{ event = \"soil\" }]\n",
             {"2", "UTC", "clock_tolerance = \"PT0S\"\n"}));
    log.on(device).at("10:02").pass("leak");
    CHECK(standing(log) == "current");
}

TEST_CASE("an uncertain check is not current for those that come after it", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("voided_by = [{ event = \"soil\" }]",
                                        "[checks.alarms]\ntakes = \"PT1M\"\nafter = [\"leak\"]\n"));
    log.on(device).station("icu-2").at("10:00").soil();
    log.on(device).at("10:04:59").pass("leak");  // the tolerance is 5 minutes by default
    log.on(device).at("10:06").pass("alarms");
    CHECK(reasons(finding(assessed(log), "due alarms")) == "order leak");
    log.on(device).at("10:07").pass("leak");
    log.on(device).at("10:08").pass("alarms");
    CHECK(status(assessed(log), "alarms") == "current");
}
