// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The month's period, its anomalies, and the interval of its compliance.
#include "rules/month.h"
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

using std::chrono::year;
using std::chrono::year_month;

rules::MonthAnswer monthOf(const LogBuilder& log, const rules::MonthQuestion& question) {
    auto answer = rules::month(toLog(log), question);
    if (!answer) throw std::invalid_argument("no edition");
    return std::move(*answer);
}

constexpr year_month march{year{2026}, std::chrono::March};

std::string anomaliesOf(const LogBuilder& log, const rules::MonthQuestion& question = {march, {}}) {
    const auto all = toLog(log);
    return joined(monthOf(log, question).anomalies, [&all](const rules::MonthAnomaly& each) {
        return toText(all.records()[each.record].name) + " " + std::string(name(each.code));
    });
}

}  // namespace

TEST_CASE("the month begins and ends with its local days, summer time or not", "[reference]") {
    struct Case {
        std::string zone;
        unsigned month;
        std::string from, to;
    };
    // Offsets by the tz database, release 2025b, files northamerica and europe.
    const std::vector<Case> cases{
        {"UTC", 3, "2026-03-01T00:00:00Z", "2026-04-01T00:00:00Z"},
        {"UTC", 12, "2026-12-01T00:00:00Z", "2027-01-01T00:00:00Z"},
        {"America/Chicago", 3, "2026-03-01T06:00:00Z", "2026-04-01T05:00:00Z"},
        {"America/Chicago", 11, "2026-11-01T05:00:00Z", "2026-12-01T06:00:00Z"},
        {"Europe/Berlin", 3, "2026-02-28T23:00:00Z", "2026-03-31T22:00:00Z"},
        {"Europe/Berlin", 10, "2026-09-30T22:00:00Z", "2026-10-31T23:00:00Z"},
    };
    for (const auto& each : cases) {
        CAPTURE(each.zone, each.month);
        LogBuilder log;
        log.department().at("2026-01-10T00:00:00Z").adopt(book("", {"1", each.zone}));
        const year_month asked{year{2026}, std::chrono::month{each.month}};
        const auto answer = monthOf(log, {asked, when("2028-01-01T00:00:00Z")});
        CHECK(logbook::toText(answer.from) == each.from);
        CHECK(logbook::toText(answer.to) == each.to);
        CHECK(answer.month == asked);
    }
}

TEST_CASE("the period ends at the instant asked, never before it begins", "[unit]") {
    LogBuilder log = logWith(book(""));
    CHECK(monthOf(log, {march, when("03-10 12:00")}).to == when("03-10 12:00"));
    CHECK(monthOf(log, {march, when("02-10 12:00")}).to == when("03-01 00:00"));
    log.on(device).at("09:00").entered("03-05 10:00").note();
    CHECK(monthOf(log, {march, {}}).to == when("03-05 10:00:00.001"));
    CHECK(monthOf(log, {march, {}, when("03-04 00:00")}).to == when("03-02 08:01:00.001"));
    CHECK(monthOf(log, {year_month{year{2026}, std::chrono::May}, {}}).to == when("05-01 00:00"));
}

TEST_CASE("the zone is that of the last edition known", "[unit]") {
    LogBuilder log = logWith(book(""));
    log.department().at("03-20 00:00").adopt(book("", {"2", "America/Chicago"}));
    CHECK(monthOf(log, {march, when("03-10 00:00")}).from == when("03-01 06:00"));
    CHECK(monthOf(log, {march, when("03-10 00:00"), when("03-19 00:00")}).from ==
          when("03-01 00:00"));
    LogBuilder refused = logWith(book("[authority]\nadopt = [\"manager\"]\n"));
    refused.adopt(book("", {"2", "America/Chicago"}));
    CHECK(monthOf(refused, {march, {}}).from == when("03-01 00:00"));
    LogBuilder allowed;
    allowed.adopt(book("[authority]\nadopt = [\"manager\"]\n"));
    allowed.department().person("Robin", {"manager"});
    allowed.adopt(book("", {"2", "America/Chicago"}));
    CHECK(monthOf(allowed, {march, {}}).from == when("03-01 06:00"));
}

TEST_CASE("without an edition known there is no month", "[unit]") {
    LogBuilder log;
    log.on(device).at("07:00").enrol({"adult"});
    auto none = rules::month(toLog(log), {march, {}});
    REQUIRE_FALSE(none);
    CHECK(none.error().code == rules::LogFault::Code::NoEdition);
    log.department().at("08:00").adopt(book(""));
    CHECK(rules::month(toLog(log), {march, {}}));
    CHECK_FALSE(rules::month(toLog(log), {march, {}, when("07:30")}));
}

TEST_CASE("starts are counted from the first instant to before the last", "[unit]") {
    LogBuilder log;
    log.department().at("02-01 00:00").adopt(book(""));
    log.on(device).enrol({"adult"});
    log.on(device).at("02-28 23:59:59.999").useStart();
    log.on(device).at("03-01 00:00").useStart();
    log.on(device).at("03-31 23:59:59.999").useStart();
    log.on(device).at("04-01 00:00").useStart();
    CHECK(monthOf(log, {march, {}}).allStarts() == 2);
    CHECK(anomaliesOf(log) == "icu-1/4 use_end_missing, icu-1/5 use_end_missing");
    CHECK(monthOf(log, {march, when("03-31 23:59:59.999")}).allStarts() == 1);
    const auto end = monthOf(log, {march, {}}).end;
    CHECK(deviceOf(end).use->start.at == when("03-31 23:59:59.999"));
}

TEST_CASE("anomalies in record order, one record's by name", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("waivable = false", R"(
[positions.circuit]
required = true
[authority]
notice = ["biomed"]
strike = ["lead"]
)"));
    log.on("KB-2").at("09:00").useEnd();                                   // icu-1/3
    log.on(device).at("09:01").pass("zero");
    log.on(device).at("09:02").waive("due", "leak", "10:00");
    log.department().at("09:03").notice("n1");
    log.on(device).at("09:04").useStart();                                 // icu-1/7
    log.on(device).at("09:05").usePause();
    log.on(device).at("09:06").useResume();
    log.on("KB-2").at("09:07").entered("09:30").enrol({"adult"});          // icu-1/10
    log.on(device).at("09:08").fit("circuit", {{"serial", "C1"}});
    log.on("KB-2").at("09:09").entered("09:31").fit("circuit", {{"serial", "C1"}});
    log.on(device).at("09:10").by("Kim").strike({"icu-1", 7});             // icu-1/13
    log.on(device).at("09:11").useStart();
    log.on(device).station("icu-2").at("09:20").fit("hme");
    log.on(device).station("icu-2").at("09:19").useStart();
    CHECK(anomaliesOf(log) ==
          "icu-1/3 unenrolled, icu-1/4 unknown_key, icu-1/5 waiver_refused, icu-1/6 unauthorised, "
          "icu-1/9 resumed_unready, icu-1/11 clock_back, icu-1/12 part_moved, "
          "icu-1/13 clock_back, icu-1/13 unauthorised, icu-1/14 use_end_missing, "
          "icu-2/2 clock_back, icu-2/2 use_end_missing, icu-2/1 unknown_key");
}

TEST_CASE("a struck record gives no anomaly, but its clock still counts", "[unit]") {
    LogBuilder log = logWith(book(""));
    log.on("KB-2").at("10:00").useEnd();
    log.on(device).at("09:00").note();
    CHECK(anomaliesOf(log) == "icu-1/4 clock_back, icu-1/3 unenrolled");
    log.on(device).station("icu-2").strike({"icu-1", 3});
    CHECK(anomaliesOf(log) == "icu-1/4 clock_back");
    log.on(device).station("icu-2").strike({"icu-1", 4});
    CHECK(anomaliesOf(log).empty());
}

TEST_CASE("anomalies of the period alone", "[unit]") {
    LogBuilder log;
    log.department().at("02-01 00:00").adopt(book(""));
    log.on(device).at("02-28 23:59:59.999").useEnd();
    log.on(device).at("03-01 00:00").useEnd();
    log.on(device).at("03-31 23:59:59.999").useEnd();
    log.on(device).at("04-01 00:00").useEnd();
    CHECK(anomaliesOf(log) == "icu-1/3 unenrolled, icu-1/4 unenrolled");
}

TEST_CASE("the words of a month", "[unit]") {
    using rules::StartClass;
    CHECK(name(StartClass::Compliant) == "compliant");
    CHECK(name(StartClass::CompliantLate) == "compliant_late");
    CHECK(name(StartClass::CompliantWaived) == "compliant_waived");
    CHECK(name(StartClass::Emergency) == "emergency");
    CHECK(name(StartClass::Noncompliant) == "noncompliant");
}

TEST_CASE("Wilson's interval gives the figures that were published", "[reference]") {
    struct Case {
        int successes, trials;
        double low, high, within;
    };
    const std::vector<Case> cases{
        // R. G. Newcombe, Stat Med 1998;17:857-872, table I, method 3, printed to four decimals.
        {81, 263, 0.2553, 0.3662, 0.00005},
        {15, 148, 0.0624, 0.1605, 0.00005},
        {0, 20, 0, 0.1611, 0.00005},
        {1, 29, 0.0061, 0.1718, 0.00005},
        // Computed with R 4.2.2, prop.test(correct = FALSE), to six decimals.
        {81, 263, 0.255289, 0.366210, 0.0000005},
        {15, 148, 0.062386, 0.160487, 0.0000005},
        {0, 20, 0, 0.161125, 0.0000005},
        {1, 29, 0.006113, 0.171755, 0.0000005},
        {0, 10, 0, 0.277533, 0.0000005},
        {10, 10, 0.722467, 1, 0.0000005},
        {29, 30, 0.833296, 0.994091, 0.0000005},
        {30, 30, 0.886487, 1, 0.0000005},
        {95, 100, 0.888250, 0.978456, 0.0000005},
        {490, 500, 0.963580, 0.989101, 0.0000005},
        // As a report prints it, to a tenth of a per cent; computed from the formula.
        {57, 60, 0.863, 0.983, 0.0005},
        {30, 30, 0.886, 1, 0.0005},
    };
    for (const auto& each : cases) {
        CAPTURE(each.successes, each.trials);
        const auto interval = rules::wilson95(each.successes, each.trials);
        CHECK(interval.low == Approx(each.low).margin(each.within + 1e-9).epsilon(0));
        CHECK(interval.high == Approx(each.high).margin(each.within + 1e-9).epsilon(0));
    }
}

TEST_CASE("Wilson's interval lies within 0 and 1 and holds the share", "[property]") {
    for (int trials = 1; trials <= 60; ++trials) {
        for (int successes = 0; successes <= trials; ++successes) {
            const auto interval = rules::wilson95(successes, trials);
            const double share = static_cast<double>(successes) / trials;
            REQUIRE(interval.low >= 0);
            REQUIRE(interval.low <= share + 1e-12);
            REQUIRE(interval.high >= share - 1e-12);
            REQUIRE(interval.high <= 1);
            const auto mirrored = rules::wilson95(trials - successes, trials);
            REQUIRE(mirrored.low == Approx(1 - interval.high).margin(1e-12));
        }
    }
}
