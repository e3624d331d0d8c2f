// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The muster of units: which take part, who does what, what the others lack.
#include "rules/muster.h"

#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

const std::string circuitAndLeak = book(
    "[positions.circuit]\nrequired = true\ntakes = \"PT2M\"\n"
    "[checks.leak]\ntakes = \"PT3M\"\nvoided_by = [{ event = \"fit circuit\" }]\n"
    "[holds.repair]\nlabel = \"Repair\"\n");

// Units that lack a circuit and a leak test.
LogBuilder fleet(int count, const std::string& rulebook = circuitAndLeak) {
    LogBuilder log;
    log.adopt(rulebook);
    for (int number = 1; number <= count; ++number) {
        log.on("KB-" + std::to_string(number)).at("08:01").enrol({"adult", "pediatric"});
        log.on("KB-" + std::to_string(number)).at("08:02").group("adult");
    }
    return log;
}

rules::Muster mustered(const LogBuilder& log, std::size_t units, std::size_t people,
                       const std::string& group = "adult") {
    return rules::muster(stateOf(log, asked("10:00")), {when("10:00"), group, units, people, {}});
}

// "KB-1 300, KB-2 600".
std::string ready(const rules::Muster& muster) {
    return joined(muster.units, [&](const rules::MusterUnit& unit) {
        return unit.device + " " + std::to_string((unit.readyAt - muster.question.at).ms / 1000);
    });
}

// "1 fit circuit 0-120, 1 check leak 120-300".
std::string steps(const rules::Muster& muster, const rules::MusterUnit& unit) {
    return joined(unit.steps, [&](const rules::MusterStep& step) {
        const auto seconds = [&](Instant at) {
            return std::to_string((at - muster.question.at).ms / 1000);
        };
        return std::to_string(step.person) + " " + toText(step.task) + " " +
               seconds(step.task.start) + "-" + seconds(step.task.finish);
    });
}

std::string rest(const rules::Muster& muster) {
    return joined(muster.rest, [](const rules::MusterRest& each) {
        std::string text = each.device;
        for (const auto& blocker : each.blockers) text += ": " + blocker;
        return text;
    });
}

std::int64_t secondsTo(const rules::Muster& muster, Instant at) {
    return (at - muster.question.at).ms / 1000;
}

}  // namespace

TEST_CASE("units are made ready one after another by one person", "[unit]") {
    const auto muster = mustered(fleet(3), 2, 1);
    CHECK(ready(muster) == "KB-1 300, KB-2 600");
    CHECK(steps(muster, muster.units[0]) == "1 fit circuit 0-120, 1 check leak 120-300");
    CHECK(steps(muster, muster.units[1]) == "1 fit circuit 300-420, 1 check leak 420-600");
    CHECK(muster.isEnough());
    CHECK(muster.exact);
    CHECK(secondsTo(muster, muster.finish) == 600);
    CHECK(muster.bound == muster.finish);
    CHECK(secondsTo(muster, muster.finishOfOneMore) == 300);
    CHECK(muster.rest.empty());
}

TEST_CASE("one more person may gain nothing", "[unit]") {
    const auto muster = mustered(fleet(2), 2, 2);
    CHECK(ready(muster) == "KB-1 300, KB-2 300");
    CHECK(muster.finishOfOneMore == muster.finish);
}

TEST_CASE("units that are ready count without work", "[unit]") {
    auto log = fleet(3);
    log.on("KB-2").at("09:00").fit("circuit");
    log.on("KB-2").at("09:10").pass("leak");
    const auto one = mustered(log, 1, 1);
    CHECK(ready(one) == "KB-2 0");
    CHECK(one.units[0].steps.empty());
    CHECK(one.finish == when("10:00"));
    CHECK(one.exact);
    CHECK(ready(mustered(log, 2, 1)) == "KB-2 0, KB-1 300");
}

TEST_CASE("what stands in the way of the others is told if they are too few", "[unit]") {
    auto log = fleet(5);
    log.on("KB-2").at("09:00").withdraw("repair");
    log.on("KB-3").at("09:00").useStart();
    log.on("KB-4").at("09:00").retire();
    const auto muster = mustered(log, 4, 2);
    CHECK_FALSE(muster.isEnough());
    CHECK(ready(muster) == "KB-1 300, KB-5 300");
    CHECK(rest(muster) == "KB-2: withdrawn repair, KB-3: in_use");
    CHECK(mustered(log, 2, 2).rest.empty());
}

TEST_CASE("nothing can be made ready", "[unit]") {
    auto log = fleet(1);
    log.on("KB-1").at("09:00").withdraw("repair");
    const auto muster = mustered(log, 3, 2);
    CHECK(muster.units.empty());
    CHECK(muster.finish == when("10:00"));
    CHECK(rest(muster) == "KB-1: withdrawn repair");
}

TEST_CASE("a unit left out is never counted", "[unit]") {
    const auto state = stateOf(fleet(2), asked("10:00"));
    const auto muster = rules::muster(state, {when("10:00"), "adult", 2, 1, {"KB-1"}});
    CHECK(ready(muster) == "KB-2 300");
    CHECK(rest(muster) == "KB-1");
}

TEST_CASE("for another group it is selected first, and what is lost is told", "[unit]") {
    auto log = fleet(1);
    log.on("KB-1").at("09:00").fit("circuit");
    log.on("KB-1").at("09:10").pass("leak");
    const auto muster = mustered(log, 1, 1, "pediatric");
    CHECK(steps(muster, muster.units[0]) == "1 group pediatric 0-0");
    CHECK(muster.units[0].readyFor == "adult");
    CHECK_FALSE(mustered(log, 1, 1).units[0].readyFor);
}

TEST_CASE("the unit with the least to do is taken, and others while one waits", "[unit]") {
    const std::string rulebook = book(
        "[positions.cell]\nrequired = true\n"
        "[checks.cal]\ntakes = \"PT5M\"\nattended = \"PT1M\"\nvoided_by = [{ event = \"fit cell\" "
        "}]\n"
        "not_before = [{ event = \"fit cell\", wait = \"PT20M\" }]\n"
        "[checks.leak]\ntakes = \"PT3M\"\nvoided_by = [{ event = \"soil\" }]\n");
    auto log = fleet(3, rulebook);
    for (const char* serial : {"KB-2", "KB-3"}) {
        log.on(serial).at("08:10").fit("cell");
        log.on(serial).at("09:00").pass("cal");
    }
    const auto muster = mustered(log, 3, 1);
    CHECK(ready(muster) == "KB-2 240, KB-3 420, KB-1 1560");
    const auto& last = muster.units.back();
    CHECK(steps(muster, last) == "1 fit cell 0-60, 1 check leak 420-600, 1 check cal 1260-1560");
    CHECK(last.steps.back().task.notBefore == when("10:21"));
    CHECK(muster.exact);
}

TEST_CASE("what runs out before all are ready is told", "[unit]") {
    const std::string rulebook = book(
        "[checks.leak]\ntakes = \"PT40M\"\n[checks.alarm]\ntakes = \"PT1M\"\n"
        "valid_for = \"PT1H\"\n");
    auto log = fleet(2, rulebook);
    log.on("KB-1").at("09:20").pass("leak");
    log.on("KB-1").at("09:25").pass("alarm");
    const auto muster = mustered(log, 2, 1);
    CHECK(ready(muster) == "KB-1 0, KB-2 2460");
    CHECK(muster.units[0].runsOut == std::vector<std::string>{"lapsed alarm"});
    CHECK(muster.units[1].runsOut.empty());
}

TEST_CASE("units that are ready and stay so longest are taken first", "[unit]") {
    const std::string rulebook =
        book("[checks.leak]\ntakes = \"PT3M\"\nvalid_for = \"PT4H\"\n");
    auto log = fleet(4, rulebook);
    log.on("KB-1").at("09:00").pass("leak");
    log.on("KB-2").at("08:30").pass("leak");
    log.on("KB-3").at("09:30").pass("leak");
    log.on("KB-4").at("09:30").pass("leak");
    CHECK(ready(mustered(log, 1, 1)) == "KB-3 0");
    CHECK(ready(mustered(log, 3, 1)) == "KB-3 0, KB-4 0, KB-1 0");
}

TEST_CASE("a unit that stays ready for good is taken before one that lapses", "[unit]") {
    const std::string rulebook = book(
        "[positions.circuit]\nrequired = true\n"
        "[checks.leak]\ntakes = \"PT3M\"\n");
    auto log = fleet(2, rulebook);
    for (const char* serial : {"KB-1", "KB-2"}) log.on(serial).at("09:00").pass("leak");
    log.on("KB-1").at("08:30").fit("circuit", {{"expires", "2026-03-05"}});
    log.on("KB-2").at("08:30").fit("circuit");
    CHECK(ready(mustered(log, 1, 1)) == "KB-2 0");
}

TEST_CASE("a large fleet of units that are much alike is proved", "[unit]") {
    auto log = fleet(60);
    for (int number = 1; number <= 60; number += 3) {
        log.on("KB-" + std::to_string(number)).at("09:00").fit("circuit");
    }
    const auto state = stateOf(log, asked("10:00"));
    const auto muster = rules::muster(state, {when("10:00"), "adult", 12, 4, {}});
    CHECK(muster.units.size() == 12);
    CHECK(secondsTo(muster, muster.finish) == 540);  // three each, a leak test of three minutes
    CHECK(muster.exact);
}
