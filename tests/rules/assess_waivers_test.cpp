// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Waivers: what each covers, for how long, and what ends it.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

const std::string waivable =
    "waivable = true\nvalid_for = \"PT1H\"\nvoided_by = [{ event = \"soil\" }]";

std::string waivedUntil(const LogBuilder& log, std::string_view at, std::string_view found) {
    return text(finding(assessed(log, at), found).waivedUntil);
}

}  // namespace

TEST_CASE("a waived finding does not block until the waiver ends", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(waivable));
    log.on(device).at("09:00").waive("due", "leak", "12:00");
    CHECK(verdict(assessed(log, "08:59:59.999")) == "not_ready");
    auto assessment = assessed(log, "09:00");
    CHECK(verdict(assessment) == "ready");
    CHECK(findings(assessment) == "due leak");
    CHECK(finding(assessment, "due leak").blocking() == rules::Blocks::No);
    CHECK(finding(assessment, "due leak").blocks == rules::Blocks::Yes);
    CHECK(waivedUntil(log, "09:00", "due leak") == "2026-03-02T12:00:00Z");
    CHECK(assessment.readyUntil == when("12:00"));
    CHECK(status(assessment) == "due");
    CHECK(verdict(assessed(log, "11:59:59.999")) == "ready");
    CHECK(verdict(assessed(log, "12:00")) == "not_ready");
    CHECK(waivedUntil(log, "12:00", "due leak").empty());
}

TEST_CASE("an answer without waivers", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(waivable));
    log.on(device).at("09:00").waive("due", "leak", "12:00");
    const auto assessment = assessed(log, Asked{.at = when("10:00"), .ignoreWaivers = true});
    CHECK(verdict(assessment) == "not_ready");
    CHECK_FALSE(finding(assessment, "due leak").waivedUntil);
    log.on(device).at("10:10").pass("leak");
    const auto ready = assessed(log, Asked{.at = when("10:20"), .ignoreWaivers = true});
    CHECK(ready.readyUntil == when("11:10"));
    log.on(device).at("10:30").waive("lapsed", "leak", "13:00");
    CHECK(assessed(log, "10:40").readyUntil == when("13:00"));
    CHECK(assessed(log, Asked{.at = when("10:40"), .ignoreWaivers = true}).readyUntil ==
          when("11:10"));
}

TEST_CASE("each finding needs its own waiver", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(waivable));
    log.on(device).at("09:00").pass("leak");
    log.on(device).at("09:10").waive("due", "leak", "12:00");
    CHECK(waivedUntil(log, "10:00", "lapsed leak").empty());
    log.on(device).at("10:10").waive("lapsed", "leak", "12:00");
    CHECK(waivedUntil(log, "10:10", "lapsed leak") == "2026-03-02T12:00:00Z");
    log.on(device).at("10:20").fail("leak");
    CHECK(waivedUntil(log, "10:20", "failed leak").empty());
    CHECK(verdict(assessed(log, "10:20")) == "not_ready");
}

TEST_CASE("and its own subject", "[unit]") {
    LogBuilder log = logWith(
        bookOfLeak(waivable, "[checks.zero]\ntakes = \"PT1M\"\nwaivable = true\n"));
    log.on(device).at("09:00").waive("due", "zero", "12:00");
    CHECK(blocking(assessed(log, "10:00")) == "due leak");
    CHECK(findings(assessed(log, "10:00")) == "due leak, due zero");
}

TEST_CASE("it covers what was known to its writer, not what came after", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(waivable));
    log.on(device).at("09:00").soil();
    SECTION("the record was before") {
        log.on(device).at("09:00").waive("due", "leak", "12:00");
        CHECK_FALSE(waivedUntil(log, "10:00", "due leak").empty());
    }
    SECTION("another came after") {
        log.on(device).at("09:00").waive("due", "leak", "12:00");
        log.on(device).at("09:00").soil();
        CHECK(waivedUntil(log, "10:00", "due leak").empty());
    }
    SECTION("it was before, but entered after") {
        log.on(device).at("09:30").waive("due", "leak", "12:00");
        log.on(device).at("09:10").entered("09:30:00.001").soil();
        CHECK(waivedUntil(log, "10:00", "due leak").empty());
        CHECK(waivedUntil(log, "09:30", "due leak").empty());
        const auto earlier = assessed(log, Asked{.at = when("10:00"), .knownAt = when("09:30")});
        CHECK(finding(earlier, "due leak").waivedUntil);
    }
    SECTION("it was before and entered at the same instant") {
        log.on(device).at("09:10").entered("09:30").soil();
        log.on(device).at("09:30").waive("due", "leak", "12:00");
        CHECK_FALSE(waivedUntil(log, "10:00", "due leak").empty());
    }
}

TEST_CASE("a part's change and a service's date may always be waived", "[unit]") {
    LogBuilder log = logWith(book(
        "[positions.circuit]\nchange_after = \"PT1H\"\n[services.yearly]\nevery = \"P1M\"\n"));
    log.on(device).at("09:00").fit("circuit");
    log.on(device).at("09:30").waive("change_due", "circuit", "12:00");
    log.on(device).at("09:30").waive("service_overdue", "yearly", "03-10 00:00");
    auto assessment = assessed(log, "10:00");
    CHECK(findings(assessment) == "change_due circuit, service_overdue yearly");
    CHECK(verdict(assessment) == "ready");
    CHECK(assessment.readyUntil == when("12:00"));
    log.on(device).at("10:10").fit("circuit");
    CHECK(waivedUntil(log, "11:20", "change_due circuit").empty());
    CHECK_FALSE(waivedUntil(log, "11:20", "service_overdue yearly").empty());
}

TEST_CASE("the edition in force must let the finding be waived", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(waivable));
    log.on(device).at("09:00").waive("due", "leak", "12:00");
    log.department().at("10:00").adopt(book("[checks.leak]\ntakes = \"PT1M\"\n", {"2"}));
    CHECK_FALSE(waivedUntil(log, "09:30", "due leak").empty());
    CHECK(waivedUntil(log, "10:30", "due leak").empty());
}

TEST_CASE("a finding that does not block is waived too", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("waivable = true\nblocks = false"));
    log.on(device).at("09:00").waive("due", "leak", "12:00");
    CHECK_FALSE(waivedUntil(log, "10:00", "due leak").empty());
}

TEST_CASE("a start that needs the check may rest on a waiver", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("waivable = true\nblocks = \"start\""));
    CHECK(rules::blocked(assessed(log, "08:30"), true));
    log.on(device).at("09:00").waive("due", "leak", "12:00");
    CHECK_FALSE(rules::blocked(assessed(log, "10:00"), true));
    CHECK(rules::blocked(assessed(log, "12:00"), true));
}

TEST_CASE("a waiver that was struck is none", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(waivable));
    const auto waiver = log.on(device).at("09:00").waive("due", "leak", "12:00");
    log.on(device).at("11:00").strike(waiver);
    CHECK(verdict(assessed(log, "10:00")) == "not_ready");
    CHECK(verdict(assessed(log, Asked{.at = when("10:00"), .knownAt = when("10:30")})) == "ready");
}

TEST_CASE("an uncertain pass after a failure is not covered by an older waiver", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(waivable));
    log.on(device).at("08:30").soil();
    log.on(device).at("09:00").waive("due", "leak", "12:00");
    log.on(device).station("icu-2").at("09:10").fail("leak");
    log.on(device).at("09:11").pass("leak");
    const auto assessment = assessed(log, "09:20");
    CHECK(finding(assessment, "due leak").reason == "order_uncertain");
    CHECK_FALSE(finding(assessment, "due leak").waivedUntil);
}
