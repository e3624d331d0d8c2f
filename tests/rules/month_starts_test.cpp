// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The month's starts of use: how each is classed, by what was recorded, known and waived.
#include "rules/month.h"
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

constexpr std::chrono::year_month march{std::chrono::year{2026}, std::chrono::March};

rules::MonthAnswer monthOf(const LogBuilder& log, rules::MonthQuestion question = {march, {}}) {
    auto answer = rules::month(toLog(log), question);
    if (!answer) throw std::invalid_argument("no edition");
    return std::move(*answer);
}

// Of the start written last: its class, flags and findings, "compliant" if it is no exception.
std::string lastStart(const LogBuilder& log, rules::MonthQuestion question = {march, {}}) {
    const auto answer = monthOf(log, question);
    const auto all = toLog(log);
    std::size_t last = 0;
    for (std::size_t index = 0; index < all.records().size(); ++index) {
        if (all.records()[index].kind() == logbook::Kind::UseStart) last = index;
    }
    for (const auto& each : answer.exceptions) {
        if (each.record != last) continue;
        const std::string found =
            joined(each.findings, [](const auto& finding) { return toText(finding); });
        return std::string(name(each.startClass)) + (each.usedOnHold ? " (on hold)" : "") +
               (each.unenrolled ? " (unenrolled)" : "") + (each.late ? " (entered late)" : "") +
               (found.empty() ? "" : ": " + found);
    }
    return "compliant";
}

const std::string waivable = "waivable = true\nvoided_by = [{ event = \"use_end\" }]";

}  // namespace

TEST_CASE("a start on a ready device is compliant", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(waivable));
    log.on(device).at("09:00").pass("leak");
    log.on(device).at("10:00").useStart();
    CHECK(lastStart(log) == "compliant");
    const auto answer = monthOf(log);
    CHECK(answer.starts == std::array{1, 0, 0, 0, 0});
    CHECK(answer.allStarts() == 1);
    CHECK(answer.compliantStarts() == 1);
    CHECK(answer.exceptions.empty());
}

TEST_CASE("one on a device that is not ready is noncompliant or an emergency", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(waivable));
    log.on(device).at("10:00").useStart();
    CHECK(lastStart(log) == "noncompliant: due leak");
    log.on(device).at("11:00").useEnd();
    log.on(device).at("12:00").useStart({{"emergency", true}});
    CHECK(lastStart(log) == "emergency: due leak");
    log.on(device).at("13:00").useEnd();
    log.on(device).at("13:10").pass("leak");
    log.on(device).at("14:00").useStart({{"emergency", true}});
    CHECK(lastStart(log) == "compliant");
    const auto answer = monthOf(log);
    CHECK(answer.starts == std::array{1, 0, 0, 1, 1});
    CHECK(answer.allStarts() == 3);
    CHECK(answer.compliantStarts() == 1);
    CHECK(answer.exceptions.size() == 2);
}

TEST_CASE("it is judged on the records before it", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(waivable));
    log.on(device).at("10:00").useStart();
    log.on(device).at("10:00").pass("leak");
    CHECK(lastStart(log) == "noncompliant: due leak");
    log.on(device).station("icu-0").at("10:00").pass("leak");  // before it in the order
    CHECK(lastStart(log) == "compliant");
}

TEST_CASE("an end that it implies comes first", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(waivable, "[positions.circuit]\nreuse = \"single_use\"\n"));
    log.on(device).fit("circuit");
    log.on(device).at("09:00").pass("leak");
    log.on(device).at("10:00").useStart();
    CHECK(lastStart(log) == "compliant");
    log.on(device).at("12:00").useStart();
    CHECK(lastStart(log) == "noncompliant: due leak, spent circuit");
    CHECK(monthOf(log).allStarts() == 2);
}

TEST_CASE("the same patient while in use is no start", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(waivable));
    log.on(device).at("09:00").pass("leak");
    log.on(device).at("10:00").useStart({{"same_patient", true}});
    log.on(device).at("11:00").useStart({{"same_patient", true}});
    log.on(device).at("11:10").usePause();
    log.on(device).at("12:00").useStart({{"same_patient", true}});
    CHECK(monthOf(log).starts == std::array{1, 0, 0, 0, 0});
    log.on(device).at("12:30").useEnd();
    log.on(device).at("13:00").useStart({{"same_patient", true}});
    CHECK(monthOf(log).starts == std::array{1, 0, 0, 0, 1});
}

TEST_CASE("its own group counts, or else the selected one", "[unit]") {
    LogBuilder log;
    log.adopt(book(""));
    log.on(device).enrol({"adult", "pediatric"});
    log.on(device).at("10:00").useStart({{"group", "adult"}});
    CHECK(lastStart(log) == "noncompliant: group_differs adult");
    log.on(device).at("11:00").useEnd();
    log.on(device).at("12:00").useStart();
    CHECK(lastStart(log) == "noncompliant: group_unset");
    log.on(device).at("13:00").useEnd();
    log.on(device).at("13:10").group("adult");
    log.on(device).at("14:00").useStart();
    CHECK(lastStart(log) == "compliant");
    log.on(device).at("15:00").useEnd();
    log.on(device).at("16:00").useStart({{"group", "adult"}});
    CHECK(lastStart(log) == "compliant");
}

TEST_CASE("checks that only a start needs block it", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("blocks = \"start\"", "[checks.note]\ntakes = \"PT1M\"\n"
                                                             "blocks = false\n"));
    log.on(device).at("10:00").useStart();
    CHECK(lastStart(log) == "noncompliant: due leak");
}

TEST_CASE("what was recorded too late", "[unit]") {
    const std::string head = "late_entry_after = \"PT1H\"\n";
    LogBuilder log;
    log.adopt(book("[checks.leak]\ntakes = \"PT2M\"\n", {"1", "UTC", head}));
    log.on(device).enrol({"adult"});
    SECTION("just in time") {
        log.on(device).at("09:00").entered("11:00").pass("leak");
        log.on(device).at("10:00").useStart();
        CHECK(lastStart(log) == "compliant");
    }
    SECTION("a moment later") {
        log.on(device).at("09:00").entered("11:00:00.001").pass("leak");
        log.on(device).at("10:00").useStart();
        CHECK(lastStart(log) == "compliant_late: due leak");
        const auto answer = monthOf(log);
        CHECK(answer.starts == std::array{0, 1, 0, 0, 0});
        CHECK(answer.compliantStarts() == 1);
    }
    SECTION("the start itself, just in time") {
        log.on(device).at("09:00").pass("leak");
        log.on(device).at("10:00").entered("11:00").useStart();
        CHECK(lastStart(log) == "compliant");
    }
    SECTION("the start itself, a moment later") {
        log.on(device).at("09:00").pass("leak");
        log.on(device).at("10:00").entered("11:00:00.001").useStart();
        CHECK(lastStart(log) == "compliant_late (entered late)");
    }
    SECTION("a fault struck late: it blocked by what was known") {
        log.on(device).at("09:00").pass("leak");
        const auto fault = log.on(device).at("09:10").fault("fan");
        log.on(device).at("10:00").useStart();
        log.on(device).at("11:00").strike(fault);
        CHECK(lastStart(log) == "compliant");
        LogBuilder later = logWith(bookOfLeak(""));
        later.on(device).at("09:00").pass("leak");
        const auto noise = later.on(device).at("09:10").fault("fan");
        later.on(device).at("10:00").useStart();
        later.on(device).at("12:00:00.001").strike(noise);  // two hours by default
        CHECK(lastStart(later) == "compliant_late: fault fan");
    }
    SECTION("what is bad news when it comes late makes it not ready") {
        log.on(device).at("09:00").pass("leak");
        log.on(device).at("09:10").entered("20:00").fault("fan");
        log.on(device).at("10:00").useStart();
        CHECK(lastStart(log) == "noncompliant (on hold): fault fan");
        CHECK(lastStart(log, {march, {}, when("19:00")}) == "compliant");
    }
    SECTION("an earlier knowledge asked for is the limit") {
        log.on(device).at("09:00").entered("10:30").pass("leak");
        log.on(device).at("10:00").useStart();
        CHECK(lastStart(log, {march, when("12:00"), when("10:29")}) == "noncompliant: due leak");
        CHECK(lastStart(log, {march, when("12:00"), when("10:30")}) == "compliant");
    }
    SECTION("what came late is late also at the very instant that it was known") {
        log.on(device).at("09:00").entered("13:00").pass("leak");
        log.on(device).at("10:00").useStart();
        CHECK(lastStart(log, {march, when("12:00"), when("13:00")}) == "compliant_late: due leak");
    }
    SECTION("and a strike likewise") {
        log.on(device).at("09:00").pass("leak");
        const auto fault = log.on(device).at("09:10").fault("fan");
        log.on(device).at("10:00").useStart();
        log.on(device).at("13:00").strike(fault);
        CHECK(lastStart(log, {march, when("12:00"), when("13:00")}) == "compliant_late: fault fan");
    }
}

TEST_CASE("enrolled late", "[unit]") {
    LogBuilder log;
    log.adopt(book(""));
    log.on(device).at("09:00").entered("18:00").enrol({"adult"});
    log.on(device).at("10:00").useStart();
    CHECK(lastStart(log) == "compliant_late (unenrolled)");
}

TEST_CASE("the very first record may be what came late", "[unit]") {
    LogBuilder log;
    log.on(device).at("07:00").entered("18:00").enrol({"adult"});
    log.adopt(book(""));
    log.on(device).at("10:00").useStart();
    CHECK(lastStart(log) == "compliant_late (unenrolled)");
}

TEST_CASE("on a device that is not enrolled or retired", "[unit]") {
    LogBuilder log;
    log.adopt(book(""));
    log.on(device).at("09:00").useStart();
    CHECK(lastStart(log) == "noncompliant (unenrolled)");
    log.on(device).at("10:00").enrol({"adult"});
    log.on(device).at("11:00").withdraw("repair");
    log.on(device).at("12:00").retire();
    log.on(device).at("13:00").useStart({{"emergency", true}, {"same_patient", true}});
    CHECK(lastStart(log) == "emergency (unenrolled)");
    CHECK(monthOf(log).starts == std::array{0, 0, 0, 1, 1});
}

TEST_CASE("what rests on a waiver", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(waivable));
    log.on(device).at("09:00").waive("due", "leak", "20:00");
    log.on(device).at("10:00").useStart();
    CHECK(lastStart(log) == "compliant_waived: due leak");
    CHECK(monthOf(log).starts == std::array{0, 0, 1, 0, 0});
    CHECK(monthOf(log).compliantStarts() == 1);
    SECTION("a late entry weighs more") {
        log.on(device).at("10:10").useEnd();
        log.on(device).at("10:20").waive("due", "leak", "20:00");
        log.on(device).at("11:00").entered("18:00").useStart();
        CHECK(lastStart(log) == "compliant_late (entered late)");
    }
    SECTION("a waiver that has ended is none") {
        log.on(device).at("10:10").useEnd();
        log.on(device).at("10:20").waive("due", "leak", "12:00");
        log.on(device).at("12:00").useStart();
        CHECK(lastStart(log) == "noncompliant: due leak");
    }
}

TEST_CASE("used on hold", "[unit]") {
    LogBuilder log = logWith(book("[faults.noise]\nblocking = false\n"));
    SECTION("a hold") {
        log.on(device).withdraw("repair");
        log.on(device).useStart({{"emergency", true}});
        CHECK(lastStart(log) == "emergency (on hold): withdrawn repair");
    }
    SECTION("a fault that blocks") {
        log.on(device).fault("fan");
        log.on(device).useStart();
        CHECK(lastStart(log) == "noncompliant (on hold): fault fan");
    }
    SECTION("a notice to stop use") {
        log.department().notice("n1");
        log.on(device).useStart();
        CHECK(lastStart(log) == "noncompliant (on hold): notice n1");
    }
    SECTION("not a fault that does not block, nor a notice to inspect") {
        log.on(device).fault("noise");
        log.department().notice("n1", {}, "inspect");
        log.on(device).group("pediatric");
        log.on(device).useStart();
        CHECK(lastStart(log) == "noncompliant: group_unsupported pediatric");
    }
}

TEST_CASE("before the first edition the first judges", "[unit]") {
    LogBuilder log;
    log.on(device).at("07:00").enrol({"adult"});
    log.on(device).at("07:30").useStart();
    log.department().at("12:00").adopt(bookOfLeak(""));
    CHECK(lastStart(log) == "noncompliant: due leak");
    log.on(device).at("07:10").entered("08:00").pass("leak");
    CHECK(lastStart(log) == "compliant");
}

TEST_CASE("a struck start is none", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(""));
    const auto start = log.on(device).at("09:00").useStart();
    log.on(device).at("12:00").strike(start);
    CHECK(monthOf(log).allStarts() == 0);
    CHECK(monthOf(log, {march, when("20:00"), when("11:00")}).allStarts() == 1);
}

TEST_CASE("a start is judged again by earlier knowledge anywhere in a long log", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(""));
    log.on(device).at("08:30").entered("03-05 00:00").pass("leak");
    for (int index = 0; index < 1100; ++index) log.on(device).at("08:40").note();
    log.on(device).at("09:00").useStart();
    CHECK(lastStart(log) == "compliant_late: due leak");
    LogBuilder inTime = logWith(bookOfLeak(""));
    for (int index = 0; index < 1100; ++index) inTime.on(device).at("08:30").note();
    inTime.on(device).at("08:35").pass("leak");
    inTime.on(device).at("08:40").entered("03-05 00:00").note();
    inTime.on(device).at("09:00").useStart();
    CHECK(lastStart(inTime) == "compliant");
}
