// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Checks as they stand: due, failed, out of date; when each may be done; until when all is ready.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

TEST_CASE("due rests on what voided it, or on nothing", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("voided_by = [{ event = \"soil\" }]"));
    auto assessment = assessed(log);
    CHECK(blocking(assessment) == "due leak");
    CHECK(restsOn(finding(assessment, "due leak")).empty());
    CHECK_FALSE(finding(assessment, "due leak").since);
    CHECK(finding(assessment, "due leak").reason.empty());
    const auto first = log.on(device).at("09:00").soil();
    CHECK(restsOn(finding(assessed(log), "due leak")) == toText(first));
    log.on(device).pass("leak");
    CHECK(findings(assessed(log)).empty());
    const auto second = log.on(device).at("10:00").soil();
    assessment = assessed(log);
    CHECK(restsOn(finding(assessment, "due leak")) == toText(second));
    CHECK(text(finding(assessment, "due leak").since) == "2026-03-02T10:00:00Z");
    const auto third = log.on(device).at("11:00").soil();
    CHECK(restsOn(finding(assessed(log), "due leak")) == toText(third));
}

TEST_CASE("out of date from the instant that its validity ends", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("valid_for = \"P1D\"\nvoided_by = [{ event = \"soil\" }]"));
    log.on(device).at("08:30").pass("leak");
    const auto passed = log.on(device).at("09:00").pass("leak");
    CHECK(status(assessed(log, "03-03 08:59:59.999")) == "current");
    const auto assessment = assessed(log, "03-03 09:00");
    CHECK(status(assessment) == "lapsed");
    CHECK(blocking(assessment) == "lapsed leak");
    CHECK(restsOn(finding(assessment, "lapsed leak")) == toText(passed));
    CHECK(text(finding(assessment, "lapsed leak").since) == "2026-03-03T09:00:00Z");
    CHECK(assessed(log, "12:00").readyUntil == when("03-03 09:00"));
    log.on(device).at("03-03 10:00").soil();
    CHECK(status(assessed(log)) == "due");  // that comes before out of date
}

TEST_CASE("a failure is never out of date", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("valid_for = \"PT1H\""));
    log.on(device).at("09:00").fail("leak");
    CHECK(findings(assessed(log, "12:00")) == "failed leak");
}

TEST_CASE("what blocks, and what a failure blocks", "[unit]") {
    struct Case {
        std::string rule;
        rules::Blocks whenDue, whenFailed;
    };
    using rules::Blocks;
    const std::vector<Case> cases{
        {"", Blocks::Yes, Blocks::Yes},
        {"blocks = false", Blocks::No, Blocks::Yes},
        {"blocks = \"start\"", Blocks::Start, Blocks::Yes},
        {"blocks = false\nfail_blocks = false", Blocks::No, Blocks::No},
        {"blocks = \"start\"\nfail_blocks = false", Blocks::Start, Blocks::Start},
        {"fail_blocks = false", Blocks::Yes, Blocks::Yes},
    };
    for (const auto& each : cases) {
        CAPTURE(each.rule);
        LogBuilder log = logWith(bookOfLeak(each.rule + "\nvalid_for = \"PT1H\""));
        CHECK(finding(assessed(log), "due leak").blocking() == each.whenDue);
        log.on(device).at("09:00").pass("leak");
        CHECK(finding(assessed(log, "10:00"), "lapsed leak").blocking() == each.whenDue);
        log.on(device).fail("leak");
        CHECK(finding(assessed(log), "failed leak").blocking() == each.whenFailed);
    }
}

TEST_CASE("a check that does not apply is exempt, whatever came before", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("applies_when = { \"feature.co2\" = true }"), {"co2"});
    log.on(device).fail("leak");
    CHECK(status(assessed(log)) == "failed");
    log.on(device).enrol({"adult"});
    CHECK(status(assessed(log)) == "exempt");
    CHECK(findings(assessed(log)).empty());
}

TEST_CASE("the discounted attempt is shown if it came after what the finding rests on", "[unit]") {
    LogBuilder log =
        logWith(bookOfLeak("voided_by = [{ event = \"soil\" }]\nvalid_for = \"PT1H\""));
    log.on(device).at("08:30").check("leak", "incomplete");
    CHECK(reasons(finding(assessed(log), "due leak")) == "incomplete");
    log.on(device).at("09:00").pass("leak");
    CHECK_FALSE(finding(assessed(log, "10:00"), "lapsed leak").discounted);
    log.on(device).at("09:30").check("leak", "incomplete");
    CHECK(reasons(finding(assessed(log, "10:00"), "lapsed leak")) == "incomplete");
    log.on(device).at("09:40").soil();
    CHECK_FALSE(finding(assessed(log, "10:00"), "due leak").discounted);
}

TEST_CASE("not before", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(
        "not_before = [{ event = \"fit cell\", wait = \"PT30M\" }, "
        "{ event = \"power_on\", wait = \"PT10M\" }]",
        "[positions.cell]\n"));
    const auto notBefore = [&log](std::string_view at) {
        return text(finding(assessed(log, at), "due leak").notBefore);
    };
    log.on(device).at("09:00").fit("cell");
    CHECK(notBefore("09:01") == "2026-03-02T09:30:00Z");
    CHECK(notBefore("09:29:59.999") == "2026-03-02T09:30:00Z");
    CHECK(notBefore("09:30").empty());
    log.on(device).at("09:25").power(true);
    CHECK(notBefore("09:26") == "2026-03-02T09:35:00Z");
    log.on(device).at("09:27").power(false);
    CHECK(notBefore("09:28") == "2026-03-02T09:30:00Z");
    log.on(device).at("09:28").remove("cell");
    CHECK(notBefore("09:28").empty());
}

TEST_CASE("a failed or outdated check has its wait too", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(
        "valid_for = \"PT1H\"\nnot_before = [{ event = \"fit cell\", wait = \"PT30M\" }]",
        "[positions.cell]\n"));
    log.on(device).at("09:00").pass("leak");
    log.on(device).at("09:50").fit("cell");
    CHECK(text(finding(assessed(log, "10:00"), "lapsed leak").notBefore) == "2026-03-02T10:20:00Z");
    log.on(device).at("10:01").fail("leak");
    CHECK(text(finding(assessed(log, "10:02"), "failed leak").notBefore) == "2026-03-02T10:20:00Z");
}

TEST_CASE("ready until the first of all that time alone brings", "[unit]") {
    LogBuilder log = logWith(book(R"(
[positions.circuit]
change_after = "P3D"
[checks.leak]
takes = "PT1M"
valid_for = "P2D"
[checks.note]
takes = "PT1M"
blocks = false
valid_for = "PT1H"
[checks.zero]
takes = "PT1M"
[services.yearly]
every = "P2M"
)"));
    log.on(device).at("09:00").fit("circuit", {{"expires", "2026-03-10"}});
    log.on(device).at("10:00").pass("leak");
    log.on(device).at("10:00").pass("note");
    log.on(device).at("10:00").pass("zero");
    const auto until = [&log](std::string_view at) { return text(assessed(log, at).readyUntil); };
    CHECK(until("10:30") == "2026-03-04T10:00:00Z");
    log.on(device).at("03-03 10:00").pass("leak");
    CHECK(until("03-03 10:30") == "2026-03-05T09:00:00Z");
    log.on(device).at("03-05 08:00").fit("circuit", {{"expires", "2026-03-06"}});
    log.on(device).at("03-05 08:00").pass("leak");
    CHECK(until("03-05 08:30") == "2026-03-07T00:00:00Z");
    log.on(device).at("03-06 08:00").fit("circuit");
    log.on(device).at("03-08 09:00").fit("circuit");
    log.on(device).at("03-09 09:00").pass("leak");
    CHECK(until("03-09 09:30") == "2026-03-11T09:00:00Z");
}

TEST_CASE("ready for ever if nothing runs out", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(""));
    log.on(device).pass("leak");
    CHECK_FALSE(assessed(log).readyUntil);
}

TEST_CASE("what the edition does not name ends no readiness", "[unit]") {
    LogBuilder log = logWith(book("[positions.circuit]\nchange_after = \"P1D\"\n"));
    log.on(device).fit("circuit", {{"expires", "2026-03-10"}});
    log.adopt(book("", {"2"}));
    CHECK_FALSE(assessed(log, "12:00").readyUntil);
}

TEST_CASE("the group asked for has its own readiness", "[unit]") {
    LogBuilder log = logWith(book("[positions.circuit]\nmatch_group = true\n"));
    log.on(device).fit("circuit", {{"groups", list({"adult"})}, {"expires", "2026-03-10"}});
    CHECK(assessed(log, Asked{.at = when("12:00"), .group = "adult"}).readyUntil ==
          when("03-11 00:00"));
}
