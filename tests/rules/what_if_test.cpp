// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A draft edition held against the one in force, and how often checks are called for.
#include "rules/what_if.h"

#include "rules/check_calls.h"
#include "support/random_log.h"
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

const std::string leak =
    "[checks.leak]\ntakes = \"PT2M\"\nvoided_by = [{ event = \"use_end\" }]\n";

std::shared_ptr<const rules::Rulebook> draftOf(const std::string& text) {
    auto reading = rules::readRulebook(text, zones());
    REQUIRE(reading.rulebook);
    return std::move(reading.rulebook);
}

rules::WhatIf tried(const LogBuilder& log, const std::string& draft, std::string_view at,
                    int months = 1) {
    return rules::whatIf(toLog(log), draftOf(draft), {when(at), rules::unlimited, months});
}

std::vector<std::string> calls(const LogBuilder& log, std::string_view end) {
    std::vector<std::string> times;
    for (const Instant call : rules::checkCalls(toLog(log), when(end), rules::unlimited)) {
        times.push_back(logbook::toText(call).substr(5, 11));
    }
    return times;
}

using Times = std::vector<std::string>;

}  // namespace

TEST_CASE("a unit whose verdict a draft would change is named, with why", "[unit]") {
    auto log = logWith(book(leak));
    log.on("KB-2").at("08:02").enrol({"adult"});
    log.on(device).at("08:10").pass("leak");
    const auto battery = tried(log, book(leak + "[checks.battery]\ntakes = \"PT1M\"\n"), "09:00");
    CHECK(battery.anew.checks == std::vector<std::string>{"battery"});
    CHECK(battery.anew.positions.empty());
    REQUIRE(battery.flips.size() == 1);
    CHECK(battery.flips[0].device == device);
    CHECK(battery.flips[0].now == rules::Verdict::Ready);
    CHECK(battery.flips[0].then == rules::Verdict::NotReady);
    CHECK(battery.flips[0].blocksNow.empty());
    REQUIRE(battery.flips[0].blocksThen.size() == 1);
    CHECK(rules::toText(battery.flips[0].blocksThen[0]) == "due battery");
    const auto lax =
        tried(log, book("[checks.other]\ntakes = \"PT1M\"\nblocks = false\n"), "09:00");
    REQUIRE(lax.flips.size() == 1);
    CHECK(lax.flips[0].device == "KB-2");
    CHECK(lax.flips[0].then == rules::Verdict::Ready);
    REQUIRE(lax.flips[0].blocksNow.size() == 1);
    CHECK(rules::toText(lax.flips[0].blocksNow[0]) == "due leak");
    CHECK(tried(log, book(leak), "09:00").flips.empty());
}

TEST_CASE("months are replayed under each edition", "[unit]") {
    const std::string par = "par = 1\n";
    auto log = logWith(book(leak, {.ofAdults = par}));
    log.on(device).at("08:10").pass("leak");
    log.on(device).at("09:00").useStart();
    log.on(device).at("10:00").useEnd();
    log.on(device).at("10:30").pass("leak");
    log.on(device).at("04-02 09:00").useStart();
    log.on(device).at("04-02 10:00").useEnd();
    const std::string strict =
        "[checks.leak]\ntakes = \"PT2M\"\nvalid_for = \"P7D\"\n"
        "voided_by = [{ event = \"use_end\" }]\n";
    const auto found = tried(log, book(strict, {.ofAdults = par}), "04-02 12:00", 12);
    CHECK(found.monthsBefore == 10);
    REQUIRE(found.months.size() == 2);
    const auto& march = found.months[0];
    CHECK(march.month == std::chrono::year{2026} / std::chrono::March);
    CHECK(march.from == when("03-01 00:00"));
    CHECK(march.to == when("04-01 00:00"));
    CHECK(march.now.starts == march.then.starts);
    CHECK(march.now.checksCalled == 2);   // at enrolment, and by the end of the use
    CHECK(march.then.checksCalled == 3);  // it ran out as well
    const auto& april = found.months[1];
    CHECK(april.to == when("04-02 12:00"));
    CHECK(april.now.starts[0] == 1);
    CHECK(april.then.starts[0] == 0);
    CHECK(april.then.starts[4] == 1);
    REQUIRE(april.now.groups.size() == 1);
    CHECK(april.now.groups[0].belowPar == minutes(3 * 60));
    CHECK(april.then.groups[0].belowPar == minutes(36 * 60));
}

TEST_CASE("what a draft names no more is told, and whom it concerns", "[unit]") {
    const std::string more =
        "[checks.battery]\ntakes = \"PT1M\"\n[positions.circuit]\n"
        "[services.maintenance]\nevery = \"P1Y\"\n[groups.transport]\n";
    auto log = logWith(book(leak + more));
    for (const char* serial : {"KB-2", "KB-3"}) {
        log.on(serial).at("08:02").enrol({"adult", "transport"});
        log.on(serial).at("08:03").group("transport");
    }
    log.on("KB-3").at("08:04").retire();
    const auto found = tried(log, book(leak), "09:00");
    CHECK(found.noMore.groups == std::vector<std::string>{"transport"});
    CHECK(found.noMore.checks == std::vector<std::string>{"battery"});
    CHECK(found.noMore.positions == std::vector<std::string>{"circuit"});
    CHECK(found.noMore.services == std::vector<std::string>{"maintenance"});
    CHECK(found.noMore.units == std::vector<std::string>{"KB-2"});
    const auto none = tried(log, book(leak + more), "09:00").noMore;
    CHECK(none.groups.empty());
    CHECK(none.units.empty());
}

TEST_CASE("a draft for another time zone is held against the same month", "[unit]") {
    auto log = logWith(book(leak));
    log.on(device).at("08:10").pass("leak");
    log.on(device).at("04-01 01:00").useStart();  // still March in Chicago
    const auto draft = book(leak, {.zone = "America/Chicago"});
    const auto found = tried(log, draft, "04-02 12:00", 2);
    REQUIRE(found.months.size() == 2);
    CHECK(found.months[0].to == when("04-01 00:00"));
    CHECK(found.months[0].now.starts == found.months[0].then.starts);
    CHECK(found.months[0].now.checksCalled == found.months[0].then.checksCalled);
    CHECK(found.months[1].now.starts[0] == 1);
    CHECK(found.months[1].then.starts[0] == 1);
}

TEST_CASE("a month of a log that begins later is left out, the last one never", "[unit]") {
    auto log = logWith(book(leak));
    const auto found = tried(log, book(leak), "03-02 12:00", 3);
    CHECK(found.monthsBefore == 2);
    REQUIRE(found.months.size() == 1);
    CHECK(found.months[0].now.checksCalled == 1);
}

TEST_CASE("the same edition changes nothing", "[property]") {
    for (std::uint32_t seed = 20261128; seed < 20261148; ++seed) {
        CAPTURE(seed);
        RandomLog random(seed, {.editions = false});
        const auto log = toLog(random.log());
        const auto end = *log.endOfKnowledge(rules::unlimited);
        const auto edition = log.stateAt(end, rules::unlimited).rulebook;
        const auto found = rules::whatIf(log, edition, {end, rules::unlimited, 2});
        CHECK(found.flips.empty());
        for (const auto& month : found.months) {
            CHECK(month.now.starts == month.then.starts);
            CHECK(month.now.checksCalled == month.then.checksCalled);
            const auto real = rules::month(log, {month.month, end, rules::unlimited});
            REQUIRE(real);
            CHECK(real->starts == month.now.starts);
        }
    }
}

TEST_CASE("a check is called for when it is voided, fails, runs out or begins to apply", "[unit]") {
    auto log = logWith(bookOfLeak(
        "valid_for = \"P1D\"\nvoided_by = [{ event = \"soil\" }]\n"
        "applies_when = { \"group\" = \"adult\" }"));
    log.on(device).at("08:10").pass("leak");
    log.on(device).at("08:20").soil();
    log.on(device).at("08:21").soil();
    log.on(device).at("08:30").pass("leak");
    log.on(device).at("08:40").fail("leak");
    log.on(device).at("08:50").pass("leak");
    log.on(device).at("03-05 10:00").pass("leak");
    log.on(device).at("03-05 11:00").group("pediatric");
    log.on(device).at("03-05 11:30").soil();
    log.on(device).at("03-05 12:00").group("adult");
    CHECK(calls(log, "03-05 23:00") == Times{"03-02T08:01", "03-02T08:20", "03-02T08:40",
                                             "03-03T08:50", "03-05T12:00"});
    CHECK(calls(log, "03-03 08:50") == Times{"03-02T08:01", "03-02T08:20", "03-02T08:40"});
}

TEST_CASE("a check that ran out with nothing recorded since is called for", "[unit]") {
    auto log = logWith(bookOfLeak("valid_for = \"P1D\""));
    log.on(device).at("08:10").pass("leak");
    CHECK(calls(log, "03-09 00:00") == Times{"03-02T08:01", "03-03T08:10"});
    log.on(device).at("03-03 08:00").retire();
    CHECK(calls(log, "03-09 00:00") == Times{"03-02T08:01"});
}

TEST_CASE("what nobody ever did is called for once a use", "[unit]") {
    auto log = logWith(bookOfLeak("voided_by = [{ event = \"use_end\" }]"));
    for (const std::string hour : {"09", "11", "13"}) {
        log.on(device).at(hour + ":00").useStart();
        log.on(device).at(hour + ":30").useEnd();
    }
    CHECK(calls(log, "23:00") ==
          Times{"03-02T08:01", "03-02T09:30", "03-02T11:30", "03-02T13:30"});
    auto lasting = logWith(bookOfLeak("valid_for = \"P1D\""));
    lasting.on(device).at("09:00").useStart();
    lasting.on(device).at("10:00").useEnd();
    CHECK(calls(lasting, "03-04 00:00") == Times{"03-02T08:01", "03-03T09:00"});
}
