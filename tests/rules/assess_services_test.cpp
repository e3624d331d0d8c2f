// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Scheduled services: failed, outstanding, due and overdue, by local days.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

// The device was commissioned on that day.
LogBuilder commissioned(const std::string& day, const std::string& service,
                        const std::string& zone = "UTC") {
    LogBuilder log;
    log.adopt(book("[services.yearly]\n" + service, {"1", zone}));
    log.on(device).enrol({"adult"}, {}, {{"commissioned", day}});
    return log;
}

std::string at(const LogBuilder& log, Instant instant) {
    return findings(assessed(log, {instant}));
}

}  // namespace

TEST_CASE("due and overdue after their local days, counted from commissioning", "[unit]") {
    const auto log = commissioned("2026-01-15", "every = \"P3M\"\ngrace = \"P10D\"\n");
    CHECK(at(log, when("04-15 23:59:59.999")).empty());
    auto assessment = assessed(log, "04-16 00:00");
    CHECK(findings(assessment) == "service_due yearly");
    CHECK(verdict(assessment) == "ready");
    CHECK(finding(assessment, "service_due yearly").blocking() == rules::Blocks::No);
    CHECK_FALSE(finding(assessment, "service_due yearly").record);
    CHECK(text(finding(assessment, "service_due yearly").since) == "2026-04-16T00:00:00Z");
    CHECK(at(log, when("04-25 23:59:59.999")) == "service_due yearly");
    assessment = assessed(log, "04-26 00:00");
    CHECK(blocking(assessment) == "service_overdue yearly");
    CHECK(text(finding(assessment, "service_overdue yearly").since) == "2026-04-26T00:00:00Z");
    CHECK(assessed(log, "03-02 12:00").readyUntil == when("04-26 00:00"));
    CHECK(assessed(log, "04-20 12:00").readyUntil == when("04-26 00:00"));
}

TEST_CASE("without grace overdue comes at once", "[unit]") {
    const auto log = commissioned("2026-01-15", "every = \"P3M\"\n");
    CHECK(at(log, when("04-15 23:59:59.999")).empty());
    CHECK(at(log, when("04-16 00:00")) == "service_overdue yearly");
}

TEST_CASE("a pass moves the due date, whatever else was tried", "[unit]") {
    auto log = commissioned("2026-01-15", "every = \"P1M\"\ngrace = \"P10D\"\n");
    const auto passed = log.on(device).at("03-10 12:00").service("yearly");
    CHECK(at(log, when("04-10 23:59:59.999")).empty());
    auto assessment = assessed(log, "04-11 00:00");
    CHECK(findings(assessment) == "service_due yearly");
    CHECK(restsOn(finding(assessment, "service_due yearly")) == toText(passed));
    assessment = assessed(log, "04-21 00:00");
    CHECK(findings(assessment) == "service_overdue yearly");
    CHECK(restsOn(finding(assessment, "service_overdue yearly")) == toText(passed));
    log.on(device).at("04-12 12:00").service("yearly", "deferred");
    CHECK(at(log, when("04-12 13:00")) == "service_due yearly");
    log.on(device).at("04-13 12:00").service("yearly", "fail");
    CHECK(at(log, when("04-13 13:00")) == "service_due yearly, service_failed yearly");
    log.on(device).at("04-14 12:00").service("yearly");
    CHECK(at(log, when("05-14 23:59")).empty());
}

TEST_CASE("the day of the month is kept or clamped", "[unit]") {
    const std::string monthly = "every = \"P1M\"\n";
    const auto leapYear = commissioned("2028-01-31", monthly);
    CHECK(at(leapYear, when("2028-02-29T23:59:59.999Z")).empty());
    CHECK(at(leapYear, when("2028-03-01T00:00:00Z")) == "service_overdue yearly");
    const auto log = commissioned("2026-03-31", monthly);
    CHECK(at(log, when("04-30 23:59:59.999")).empty());
    CHECK(at(log, when("05-01 00:00")) == "service_overdue yearly");
}

TEST_CASE("days are those of the rulebook's zone, also where they have 23 or 25 hours", "[unit]") {
    struct Case {
        std::string commissioned, overdue;
    };
    // The day of the change to summer time, the one after it, and the day of the change back.
    const std::vector<Case> cases{{"2026-02-07", "2026-03-08T06:00:00Z"},
                                  {"2026-02-08", "2026-03-09T05:00:00Z"},
                                  {"2026-10-01", "2026-11-02T06:00:00Z"}};
    for (const auto& each : cases) {
        const auto log = commissioned(each.commissioned, "every = \"P1M\"\n", "America/Chicago");
        CAPTURE(each.overdue);
        CHECK(at(log, justBefore(when(each.overdue))).empty());
        CHECK(at(log, when(each.overdue)) == "service_overdue yearly");
    }
    // Passed at 23:30 local time on 9 March, which is 10 March in UTC.
    auto log = commissioned("2026-01-15", "every = \"P1M\"\n", "America/Chicago");
    log.on(device).at("03-10 04:30").service("yearly");
    CHECK(at(log, when("04-10 04:59:59.999")).empty());
    CHECK(at(log, when("04-10 05:00")) == "service_overdue yearly");
}

TEST_CASE("a due date before the enrolment is named all the same", "[unit]") {
    const auto log = commissioned("2020-01-15", "every = \"P12M\"\n");
    CHECK(text(finding(assessed(log), "service_overdue yearly").since) == "2021-01-16T00:00:00Z");
}

TEST_CASE("since is never before the record that it rests on", "[unit]") {
    auto log = commissioned("2026-01-15", "every = \"P0M\"\n");
    const auto passed = log.on(device).at("12:00").service("yearly");
    CHECK(at(log, when("23:59")).empty());
    const auto assessment = assessed(log, "03-03 00:00");
    CHECK(restsOn(finding(assessment, "service_overdue yearly")) == toText(passed));
    CHECK(text(finding(assessment, "service_overdue yearly").since) == "2026-03-03T00:00:00Z");
}

TEST_CASE("a service without an interval is never due", "[unit]") {
    CHECK(at(commissioned("2000-01-01", ""), when("12-31 00:00")).empty());
}

TEST_CASE("to be passed before first use", "[unit]") {
    auto log = commissioned("2026-01-15", "before_first_use = true\n");
    auto assessment = assessed(log, "12:00");
    CHECK(blocking(assessment) == "service_outstanding yearly");
    CHECK_FALSE(finding(assessment, "service_outstanding yearly").record);
    CHECK_FALSE(finding(assessment, "service_outstanding yearly").since);
    const auto failed = log.on(device).at("12:30").service("yearly", "fail");
    assessment = assessed(log);
    CHECK(blocking(assessment) == "service_failed yearly, service_outstanding yearly");
    CHECK(restsOn(finding(assessment, "service_failed yearly")) == toText(failed));
    CHECK(text(finding(assessment, "service_failed yearly").since) == "2026-03-02T12:30:00Z");
    log.on(device).service("yearly");
    CHECK(findings(assessed(log)).empty());
    log.on(device).service("yearly", "fail");
    CHECK(findings(assessed(log)) == "service_failed yearly");
    log.on(device).service("yearly", "in_use");
    CHECK(findings(assessed(log)) == "service_failed yearly");
}

TEST_CASE("called for by an event", "[unit]") {
    auto log = commissioned("2026-01-15", "due_after = [\"soil\"]\n");
    CHECK(findings(assessed(log)).empty());
    log.on(device).soil();
    const auto soiled = log.on(device).at("10:00").soil();
    auto assessment = assessed(log);
    CHECK(blocking(assessment) == "service_outstanding yearly");
    CHECK(restsOn(finding(assessment, "service_outstanding yearly")) == toText(soiled));
    CHECK(text(finding(assessment, "service_outstanding yearly").since) == "2026-03-02T10:00:00Z");
    log.on(device).service("yearly");
    CHECK(findings(assessed(log)).empty());
    log.on(device).soil();
    CHECK(findings(assessed(log)) == "service_outstanding yearly");
}

TEST_CASE("before first use and called for it rests on the event", "[unit]") {
    auto log = commissioned("2026-01-15", "before_first_use = true\ndue_after = [\"soil\"]\n");
    const auto soiled = log.on(device).soil();
    CHECK(restsOn(finding(assessed(log), "service_outstanding yearly")) == toText(soiled));
    log.on(device).service("yearly");
    CHECK(findings(assessed(log)).empty());
}

TEST_CASE("a service that does not apply is left out", "[unit]") {
    auto log = commissioned("2020-01-15",
                            "every = \"P1M\"\nbefore_first_use = true\n"
                            "applies_when = { \"feature.co2\" = true }\n");
    log.on(device).service("yearly", "fail");
    CHECK(findings(assessed(log)).empty());
    log.on(device).enrol({"adult"}, {"co2"}, {{"commissioned", "2020-01-15"}});
    CHECK(findings(assessed(log)) ==
          "service_failed yearly, service_outstanding yearly, service_overdue yearly");
}
