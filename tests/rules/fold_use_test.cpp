// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A use: its start, pauses and end, and what each leaves without effect.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

const std::string simple = book("[positions.circuit]\n");

std::optional<rules::Use> useAfter(const LogBuilder& log) { return deviceOf(stateOf(log)).use; }

}  // namespace

TEST_CASE("a use begins and ends", "[unit]") {
    LogBuilder log = logWith(simple);
    log.on(device).at("09:00").useStart({{"location", "Room 4"}});
    CHECK(did(log) == "KB-1 use_start /  / effective");
    CHECK(lastEffect(log).countedStart);
    CHECK(useAfter(log)->start.at == when("09:00"));
    CHECK_FALSE(useAfter(log)->paused);
    CHECK(deviceOf(stateOf(log)).location == "Room 4");
    auto assessment = assessed(log);
    CHECK(verdict(assessment) == "in_use");
    CHECK(assessment.inUse);
    CHECK_FALSE(assessment.paused);
    log.on(device).useEnd();
    CHECK(did(log) == "KB-1 use_end /  / effective");
    CHECK(lastEffect(log).endedUse);
    CHECK_FALSE(lastEffect(log).countedStart);
    assessment = assessed(log);
    CHECK(verdict(assessment) == "ready");
    CHECK_FALSE(assessment.inUse);
}

TEST_CASE("a use ends only if there is one", "[unit]") {
    LogBuilder log = logWith(simple);
    log.on(device).useEnd();
    CHECK(did(log) == " /  / without effect");
    CHECK_FALSE(lastEffect(log).endedUse);
}

TEST_CASE("a start without a place leaves the place as it was", "[unit]") {
    LogBuilder log = logWith(simple);
    log.on(device).move("Store");
    log.on(device).useStart();
    CHECK(deviceOf(stateOf(log)).location == "Store");
}

TEST_CASE("pausing and resuming", "[unit]") {
    LogBuilder log = logWith(simple);
    log.on(device).usePause();
    CHECK(did(log) == " /  / without effect");
    log.on(device).useResume();
    CHECK(did(log) == " /  / without effect");
    log.on(device).at("09:00").useStart();
    log.on(device).useResume();
    CHECK(did(log) == " /  / without effect");
    log.on(device).usePause();
    CHECK(did(log) == "KB-1 use_pause /  / effective");
    auto assessment = assessed(log);
    CHECK(verdict(assessment) == "in_use");
    CHECK(assessment.paused);
    log.on(device).usePause();
    CHECK(did(log) == " /  / without effect");
    log.on(device).useResume();
    CHECK(did(log) == "KB-1 use_resume /  / effective");
    CHECK_FALSE(useAfter(log)->paused);
    CHECK(useAfter(log)->start.at == when("09:00"));
    log.on(device).usePause();
    log.on(device).useEnd();
    CHECK(did(log) == "KB-1 use_end /  / effective");
}

TEST_CASE("a start while in use", "[unit]") {
    LogBuilder log = logWith(simple);
    log.on(device).at("09:00").useStart();
    SECTION("implies the end of the use before it") {
        log.on(device).at("10:00").useStart();
        CHECK(did(log) == "KB-1 use_end, KB-1 use_start / use_end_missing / effective");
        CHECK(lastEffect(log).countedStart);
        CHECK_FALSE(lastEffect(log).endedUse);
        CHECK(useAfter(log)->start.at == when("10:00"));
    }
    SECTION("paused, likewise, and the new use is not paused") {
        log.on(device).usePause();
        log.on(device).at("10:00").useStart();
        CHECK(did(log) == "KB-1 use_end, KB-1 use_start / use_end_missing / effective");
        CHECK_FALSE(useAfter(log)->paused);
    }
    SECTION("for the same patient has no effect") {
        log.on(device).at("10:00").useStart(
            {{"same_patient", true}, {"location", "Room 9"}, {"precautions", true}});
        CHECK(did(log) == " /  / without effect");
        CHECK_FALSE(lastEffect(log).countedStart);
        CHECK(useAfter(log)->start.at == when("09:00"));
        CHECK_FALSE(deviceOf(stateOf(log)).precautions);
        CHECK(deviceOf(stateOf(log)).location.empty());
    }
}

TEST_CASE("the same patient starts a use if there is none", "[unit]") {
    LogBuilder log = logWith(simple);
    log.on(device).useStart({{"same_patient", true}});
    CHECK(did(log) == "KB-1 use_start /  / effective");
    CHECK(lastEffect(log).countedStart);
}

TEST_CASE("a start selects no group", "[unit]") {
    LogBuilder log;
    log.adopt(simple);
    log.on(device).enrol({"adult", "pediatric"});
    log.on(device).useStart({{"group", "adult"}});
    CHECK(did(log) == "KB-1 use_start /  / effective");
    CHECK_FALSE(deviceOf(stateOf(log)).group());
}

TEST_CASE("precautions are those of the last use", "[unit]") {
    LogBuilder log = logWith(simple);
    CHECK_FALSE(deviceOf(stateOf(log)).precautions);
    log.on(device).useStart({{"precautions", true}});
    log.on(device).useEnd();
    CHECK(deviceOf(stateOf(log)).precautions);
    log.on(device).useStart({{"precautions", false}});
    CHECK_FALSE(deviceOf(stateOf(log)).precautions);
    log.on(device).useStart({{"precautions", true}});
    log.on(device).useStart();
    CHECK_FALSE(deviceOf(stateOf(log)).precautions);
}

TEST_CASE("an implied end is that of the use before, with its precautions", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(
        R"(voided_by = [{ event = "use_end", when = { "last_use.precautions" = true } }])"));
    log.on(device).useStart({{"precautions", true}});
    log.on(device).usePause();
    log.on(device).pass("leak");
    log.on(device).useStart({{"precautions", false}});
    CHECK(status(assessed(log)) == "due");
}

TEST_CASE("a use makes the fitted parts used, from its first instant", "[unit]") {
    LogBuilder log = logWith(book("[positions.circuit]\n[positions.cell]\n"));
    log.on(device).fit("circuit", {{"serial", "C1"}});
    log.on(device).fit("cell");
    const auto lifeOf = [&log](const std::string& position) {
        const auto state = stateOf(log);
        return state.life(deviceOf(state).fitted.at(position), position);
    };
    CHECK_FALSE(lifeOf("circuit").used);
    log.on(device).at("09:00").useStart();
    for (const std::string position : {"circuit", "cell"}) {
        CHECK(lifeOf(position).used);
        CHECK(text(lifeOf(position).firstUse) == "2026-03-02T09:00:00Z");
    }
    log.on(device).at("09:10").usePause();
    log.on(device).at("09:20").fit("cell");
    CHECK_FALSE(lifeOf("cell").used);
    log.on(device).at("09:30").useResume();
    CHECK(text(lifeOf("cell").firstUse) == "2026-03-02T09:30:00Z");
    CHECK(text(lifeOf("circuit").firstUse) == "2026-03-02T09:00:00Z");
    log.on(device).at("09:40").fit("cell");
    CHECK(text(lifeOf("cell").firstUse) == "2026-03-02T09:40:00Z");
    log.on(device).at("09:50").useEnd();
    log.on(device).at("10:00").fit("cell");
    CHECK_FALSE(lifeOf("cell").used);
    CHECK_FALSE(lifeOf("cell").firstUse);
}

TEST_CASE("resuming while something could have been done first", "[unit]") {
    LogBuilder log = logWith(book(R"(
[positions.circuit]
required = true
[positions.sensor]
match_group = true
[choices.moisture]
positions = ["hme", "humidifier"]
[positions.hme]
[positions.humidifier]
[checks.leak]
takes = "PT2M"
blocks = false
voided_by = [{ event = "fit circuit" }]
[checks.battery]
takes = "PT1M"
during_use = true
[checks.zero]
takes = "PT1M"
applies_when = { "feature.co2" = true }
[checks.old]
takes = "PT1M"
valid_for = "PT1H"
)"));
    const auto resumed = [&log] {
        log.on(device).useResume();
        return anomalies(lastEffect(log));
    };
    log.on(device).fit("circuit");
    log.on(device).pass("leak");
    log.on(device).at("08:10").pass("old");
    log.on(device).at("09:30").useStart();
    log.on(device).usePause();
    SECTION("a check for use, an exempt one, one out of date, a choice: none of these") {
        CHECK(findings(assessed(log)) == "due battery, lapsed old, missing moisture");
        CHECK(resumed().empty());
    }
    SECTION("an advisory check that is due") {
        log.on(device).fit("circuit");
        CHECK(resumed() == "resumed_unready");
        CHECK(did(log) == "KB-1 use_resume / resumed_unready / effective");
        CHECK_FALSE(useAfter(log)->paused);
    }
    SECTION("a check that failed") {
        log.on(device).fail("leak");
        CHECK(resumed() == "resumed_unready");
    }
    SECTION("a failure of a check for use") {
        log.on(device).fail("battery");
        CHECK(resumed().empty());
    }
    SECTION("a part missing") {
        log.on(device).remove("circuit");
        CHECK(resumed() == "resumed_unready");
    }
    SECTION("a part for another group") {
        log.on(device).fit("sensor", {{"groups", list({"pediatric"})}});
        CHECK(resumed() == "resumed_unready");
    }
    SECTION("it is the state before that counts, and only where there is an effect") {
        log.on(device).useResume();
        log.on(device).remove("circuit");
        CHECK(resumed().empty());
    }
}
