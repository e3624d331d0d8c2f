// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Faults, holds, waivers, notices done and services: what stands, and what it takes to end it.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

TEST_CASE("a fault stands until it is cleared", "[unit]") {
    LogBuilder log = logWith(book(""));
    log.on(device).clear("fan");
    CHECK(did(log) == " /  / without effect");
    log.on(device).fault("fan");
    CHECK(did(log) == "KB-1 fault fan /  / effective");
    CHECK(findings(assessed(log)) == "fault fan");
    log.on(device).clear("screen");
    CHECK(did(log) == " /  / without effect");
    log.on(device).clear("fan");
    CHECK(did(log) == "KB-1 clear fan /  / effective");
    CHECK(findings(assessed(log)).empty());
    log.on(device).clear("fan");
    CHECK(did(log) == " /  / without effect");
}

TEST_CASE("a later fault of the same code replaces the earlier", "[unit]") {
    LogBuilder log = logWith(book(""));
    log.on(device).fault("fan", true);
    const auto later = log.on(device).fault("fan", false);
    CHECK(did(log) == "KB-1 fault fan /  / effective");
    CHECK(restsOn(finding(assessed(log), "fault fan")) == toText(later));
    CHECK(blocking(assessed(log)).empty());
    log.on(device).clear("fan");
    CHECK(findings(assessed(log)).empty());
}

TEST_CASE("a hold stands until it is released", "[unit]") {
    LogBuilder log = logWith(book(""));
    log.on(device).release("repair");
    CHECK(did(log) == " /  / without effect");
    log.on(device).withdraw("repair");
    CHECK(did(log) == " /  / effective");  // to withdraw is no event
    log.on(device).withdraw("incident");
    CHECK(findings(assessed(log)) == "withdrawn incident, withdrawn repair");
    CHECK(verdict(assessed(log)) == "withdrawn");
    log.on(device).release("repair");
    CHECK(did(log) == "KB-1 release repair /  / effective");
    CHECK(findings(assessed(log)) == "withdrawn incident");
    const auto later = log.on(device).withdraw("incident");
    CHECK(restsOn(finding(assessed(log), "withdrawn incident")) == toText(later));
    CHECK(deviceOf(stateOf(log)).holds.at("incident").reason == "smoke");
    log.on(device).release("incident");
    CHECK(verdict(assessed(log)) == "ready");
}

TEST_CASE("which waivers have effect", "[unit]") {
    LogBuilder log = logWith(book(R"(
[positions.circuit]
[checks.leak]
takes = "PT2M"
waivable = true
[checks.zero]
takes = "PT2M"
[services.yearly]
every = "P12M"
)",
                                  {"1", "UTC", "max_waiver = \"P1D\"\n"}));
    const auto waived = [&log](const std::string& finding, const std::string& subject,
                               std::string_view until = "03-02 20:00") {
        log.on(device).at("12:00").waive(finding, subject, until);
        return did(log);
    };
    const std::string taken = " /  / effective";
    const std::string refused = " / waiver_refused / without effect";
    const std::string unknown = " / unknown_key / without effect";
    CHECK(waived("due", "leak") == taken);
    CHECK(waived("lapsed", "leak") == taken);
    CHECK(waived("change_due", "circuit") == taken);
    CHECK(waived("service_overdue", "yearly") == taken);
    CHECK(waived("due", "zero") == refused);
    CHECK(waived("lapsed", "zero") == refused);
    for (const std::string finding : {"failed", "fault", "withdrawn", "expired", "service_due"}) {
        CHECK(waived(finding, "leak") == refused);
    }
    CHECK(waived("failed", "nothing") == refused);
    CHECK(waived("due", "circuit") == unknown);
    CHECK(waived("lapsed", "yearly") == unknown);
    CHECK(waived("change_due", "leak") == unknown);
    CHECK(waived("service_overdue", "leak") == unknown);
    CHECK(waived("due", "leak", "03-03 12:00") == taken);  // no longer than max_waiver
    CHECK(waived("due", "leak", "03-03 12:00:00.001") == refused);
    CHECK(waived("due", "circuit", "03-09 12:00") == unknown);
    CHECK(waived("due", "leak", "11:00") == taken);  // over before it began, but nothing forbids it
}

TEST_CASE("a later waiver replaces the earlier", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("waivable = true"));
    log.on(device).at("12:00").waive("due", "leak", "18:00");
    log.on(device).at("12:10").waive("due", "leak", "14:00");
    CHECK(text(finding(assessed(log, "13:00"), "due leak").waivedUntil) ==
          "2026-03-02T14:00:00Z");
    CHECK_FALSE(finding(assessed(log, "14:00"), "due leak").waivedUntil);
    CHECK(deviceOf(stateOf(log)).waivers.at({"due", "leak"}).reason == "surge");
}

TEST_CASE("services", "[unit]") {
    LogBuilder log = logWith(book("[services.yearly]\nevery = \"P12M\"\n"));
    const auto serviceAfter = [&log] { return deviceOf(stateOf(log)).services.at("yearly"); };
    SECTION("a pass") {
        const auto passed = log.on(device).service("yearly");
        CHECK(did(log) == "KB-1 service yearly /  / effective");
        CHECK(serviceAfter().lastPass->name == passed);
        CHECK_FALSE(serviceAfter().lastFailed);
        const auto failed = log.on(device).service("yearly", "fail");
        CHECK(did(log) == "KB-1 service yearly /  / effective");
        CHECK(serviceAfter().lastPass->name == passed);
        CHECK(serviceAfter().lastResult->name == failed);
        CHECK(serviceAfter().lastFailed);
        log.on(device).service("yearly");
        CHECK_FALSE(serviceAfter().lastFailed);
    }
    SECTION("an attempt that came to nothing is neither") {
        log.on(device).service("yearly", "fail");
        for (const std::string outcome : {"in_use", "not_located", "deferred"}) {
            log.on(device).service("yearly", outcome);
            CHECK(did(log) == " /  / effective");
            CHECK(serviceAfter().lastFailed);
            CHECK_FALSE(serviceAfter().lastPass);
        }
    }
    SECTION("one that the edition does not name") {
        log.on(device).service("monthly");
        CHECK(did(log) == " / unknown_key / without effect");
        log.on(device).service("monthly", "deferred");
        CHECK(did(log) == " / unknown_key / without effect");
        CHECK_FALSE(deviceOf(stateOf(log)).services.contains("monthly"));
    }
}

TEST_CASE("a check that the edition does not name", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(""));
    log.on(device).pass("zero");
    CHECK(did(log) == " / unknown_key / without effect");
    log.on(device).fail("zero");
    CHECK(did(log) == " / unknown_key / without effect");
    CHECK(deviceOf(stateOf(log)).checks.empty());
}

TEST_CASE("a check that does not apply is ignored, whatever its outcome", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("applies_when = { \"feature.co2\" = true }"));
    log.on(device).fail("leak");
    CHECK(did(log) == " /  / without effect");
    CHECK(findings(assessed(log)).empty());
    CHECK(status(assessed(log)) == "exempt");
    log.on(device).enrol({"adult"}, {"co2"});
    CHECK(status(assessed(log)) == "due");
}
