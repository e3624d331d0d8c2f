// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The month's times: availability, time below par, turnarounds, to the millisecond.
#include "rules/month.h"

#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

const std::string lapsing =
    "format = 1\ntitle = \"Kestrel Bay\"\nedition = \"1\"\ntime_zone = \"UTC\"\n"
    "[groups.adult]\npar = 1\n[checks.leak]\ntakes = \"PT5M\"\nvalid_for = \"PT1H\"\n"
    "voided_by = [ { event = \"use_end\" } ]\n";

LogBuilder lapsingLog() {
    LogBuilder log;
    log.adopt(lapsing);  // at 08:00
    log.on(device).at("08:30").enrol({"adult"});
    return log;
}

rules::MonthAnswer march(const LogBuilder& log, std::string_view until) {
    const auto answer =
        rules::month(toLog(log), {std::chrono::year{2026} / 3, when(until), rules::unlimited});
    REQUIRE(answer);
    return *answer;
}

std::int64_t minutesIn(const rules::MonthAnswer& answer, rules::Verdict verdict) {
    REQUIRE(answer.devices.size() == 1);
    const auto time = answer.devices.front().times.at(static_cast<std::size_t>(verdict));
    REQUIRE(time.ms % 60'000 == 0);
    return time.ms / 60'000;
}

}  // namespace

TEST_CASE("time in each verdict adds up from enrolment to the end", "[unit]") {
    auto log = lapsingLog();
    log.on(device).at("09:00").pass("leak");
    log.on(device).at("09:20").useStart();
    log.on(device).at("09:50").useEnd();
    log.on(device).at("10:00").withdraw("repair");
    const auto answer = march(log, "11:00");
    CHECK(minutesIn(answer, rules::Verdict::NotReady) == 30 + 10);
    CHECK(minutesIn(answer, rules::Verdict::Ready) == 20);
    CHECK(minutesIn(answer, rules::Verdict::InUse) == 30);
    CHECK(minutesIn(answer, rules::Verdict::Withdrawn) == 60);
}

TEST_CASE("a readiness that runs out ends by itself", "[unit]") {
    auto log = lapsingLog();
    log.on(device).at("09:00").pass("leak");
    const auto answer = march(log, "11:00");
    CHECK(minutesIn(answer, rules::Verdict::Ready) == 60);
    CHECK(minutesIn(answer, rules::Verdict::NotReady) == 30 + 60);
    REQUIRE(answer.groups.size() == 1);
    CHECK(answer.groups.front().belowPar == minutes(60 + 60));
}

TEST_CASE("a retired unit has no time, and one retired from the start is left out", "[unit]") {
    auto log = lapsingLog();
    log.on(device).at("09:30").retire();
    CHECK(minutesIn(march(log, "12:00"), rules::Verdict::NotReady) == 60);
    auto gone = lapsingLog();
    gone.on(device).at("08:30").retire();
    CHECK(march(gone, "12:00").devices.empty());
}

TEST_CASE("time below par follows the par of the edition in force", "[unit]") {
    auto log = lapsingLog();
    std::string noPar = lapsing;
    noPar.replace(noPar.find("par = 1\n"), 8, "");
    noPar.replace(noPar.find("edition = \"1\""), 13, "edition = \"2\"");
    log.on("").at("10:00").write("adopt", {{"edition", "2"}, {"text", noPar}});
    const auto answer = march(log, "12:00");
    REQUIRE(answer.groups.size() == 1);
    CHECK(answer.groups.front().belowPar == minutes(120));
}

TEST_CASE("a turnaround ends when the unit is ready, or is cut off", "[unit]") {
    auto log = lapsingLog();
    log.on(device).at("09:00").pass("leak");
    log.on(device).at("09:10").useStart();
    log.on(device).at("09:30").useEnd();
    log.on(device).at("09:45").pass("leak");
    log.on(device).at("10:00").useStart();
    log.on(device).at("10:10").useEnd();
    log.on(device).at("10:20").withdraw("repair");
    log.on(device).at("10:40").release("repair");
    log.on(device).at("10:50").pass("leak");
    const auto answer = march(log, "11:00");
    REQUIRE(answer.turnarounds.size() == 2);
    CHECK(answer.turnarounds[0].from == when("09:30"));
    CHECK(answer.turnarounds[0].took == minutes(15));
    CHECK_FALSE(answer.turnarounds[0].censored);
    CHECK(answer.turnarounds[1].from == when("10:10"));
    CHECK(answer.turnarounds[1].took == minutes(10));
    CHECK(answer.turnarounds[1].censored);
}

TEST_CASE("a turnaround that goes on is cut off at the end of the period", "[unit]") {
    auto log = lapsingLog();
    log.on(device).at("09:10").useStart();
    log.on(device).at("09:30").useEnd();
    const auto answer = march(log, "10:00");
    REQUIRE(answer.turnarounds.size() == 1);
    CHECK(answer.turnarounds[0].took == minutes(30));
    CHECK(answer.turnarounds[0].censored);
}
