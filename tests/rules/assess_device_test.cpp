// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The verdict, and the findings on the device itself: holds, faults, its group, when last seen.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

const std::string blocks = "[checks.leak]\ntakes = \"PT2M\"\n";

}  // namespace

TEST_CASE("verdicts, the first that holds", "[unit]") {
    LogBuilder log = logWith(book(blocks));
    CHECK(verdict(assessed(log)) == "not_ready");
    log.on(device).pass("leak");
    CHECK(verdict(assessed(log)) == "ready");
    log.on(device).useStart();
    CHECK(verdict(assessed(log)) == "in_use");
    log.on(device).usePause();
    CHECK(verdict(assessed(log)) == "in_use");
    log.on(device).withdraw("repair");
    CHECK(verdict(assessed(log)) == "withdrawn");
    CHECK(assessed(log).inUse);
    CHECK(assessed(log).paused);
    log.on(device).useEnd();
    CHECK(verdict(assessed(log)) == "withdrawn");
    log.on(device).retire();
    CHECK(verdict(assessed(log)) == "retired");
}

TEST_CASE("findings are listed under every verdict but retired", "[unit]") {
    LogBuilder log = logWith(book(blocks));
    log.on(device).useStart();
    CHECK(findings(assessed(log)) == "due leak");
    log.on(device).withdraw("repair");
    CHECK(findings(assessed(log)) == "due leak, withdrawn repair");
    CHECK(status(assessed(log)) == "due");
}

TEST_CASE("ready until is given for ready alone, and only if it was wanted", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("valid_for = \"P1D\""));
    CHECK_FALSE(assessed(log, "09:00").readyUntil);
    log.on(device).at("10:00").pass("leak");
    CHECK(text(assessed(log, "11:00").readyUntil) == "2026-03-03T10:00:00Z");
    const auto later = stateOf(log, asked("11:00"));
    const rules::Question plain{when("11:00"), std::nullopt, false, false};
    CHECK_FALSE(rules::assess(later, deviceOf(later), plain).readyUntil);
    log.on(device).at("11:30").useStart();
    CHECK_FALSE(assessed(log, "12:00").readyUntil);
}

TEST_CASE("a check for a start of use alone does not count for the verdict", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("blocks = \"start\"\nfail_blocks = false"));
    auto assessment = assessed(log);
    CHECK(findings(assessment) == "due leak");
    CHECK(finding(assessment, "due leak").blocking() == rules::Blocks::Start);
    CHECK(verdict(assessment) == "ready");
    CHECK_FALSE(rules::blocked(assessment, false));
    CHECK(rules::blocked(assessment, true));
    log.on(device).fail("leak");
    assessment = assessed(log);
    CHECK(finding(assessment, "failed leak").blocking() == rules::Blocks::Start);
    log.on(device).pass("leak");
    CHECK_FALSE(rules::blocked(assessed(log), true));
}

TEST_CASE("what blocks, blocks at a start too", "[unit]") {
    const auto assessment = assessed(logWith(book(blocks)));
    CHECK(rules::blocked(assessment, false));
    CHECK(rules::blocked(assessment, true));
    const auto advisory = assessed(logWith(bookOfLeak("blocks = false")));
    CHECK_FALSE(rules::blocked(advisory, false));
    CHECK_FALSE(rules::blocked(advisory, true));
}

TEST_CASE("a hold", "[unit]") {
    LogBuilder log = logWith(book(""));
    const auto hold = log.on(device).at("09:00").withdraw("repair");
    const auto assessment = assessed(log);
    const auto& found = finding(assessment, "withdrawn repair");
    CHECK(found.blocking() == rules::Blocks::Yes);
    CHECK(restsOn(found) == toText(hold));
    CHECK(text(found.since) == "2026-03-02T09:00:00Z");
    CHECK(assessed(log, "09:00").verdict == rules::Verdict::Withdrawn);
    CHECK(assessed(log, "08:59:59.999").verdict == rules::Verdict::Ready);
}

TEST_CASE("whether a fault blocks", "[unit]") {
    const std::string faults =
        "[faults.noise]\nblocking = false\n[faults.screen]\nblocking = true\n[faults.worn]\n";
    const auto blocksAfter = [&faults](const std::string& code, std::optional<bool> said) {
        LogBuilder log = logWith(book(faults));
        const auto fault =
            said ? log.on(device).fault(code, *said) : log.on(device).fault(code);
        const auto assessment = assessed(log);
        const auto& found = finding(assessment, "fault " + code);
        CHECK(restsOn(found) == toText(fault));
        CHECK((verdict(assessment) == "not_ready") == (found.blocking() == rules::Blocks::Yes));
        return found.blocking() == rules::Blocks::Yes;
    };
    // As the rulebook says, for the codes it names.
    CHECK_FALSE(blocksAfter("noise", std::nullopt));
    CHECK_FALSE(blocksAfter("noise", true));
    CHECK(blocksAfter("screen", std::nullopt));
    CHECK(blocksAfter("screen", false));
    CHECK(blocksAfter("worn", std::nullopt));
    CHECK(blocksAfter("worn", false));
    // Else as recorded, else it does.
    CHECK(blocksAfter("other", std::nullopt));
    CHECK(blocksAfter("other", true));
    CHECK_FALSE(blocksAfter("other", false));
}

TEST_CASE("the group asked for", "[unit]") {
    LogBuilder log;
    log.adopt(book(""));
    log.on(device).enrol({"adult", "pediatric"});
    const auto found = [&log](const std::optional<std::string>& group) {
        const auto assessment = assessed(log, Asked{.group = group});
        CHECK(blocking(assessment) == findings(assessment));
        CHECK(assessment.group.has_value() == (group || deviceOf(stateOf(log)).group()));
        for (const auto& each : assessment.findings) {
            CHECK_FALSE(each.record);
            CHECK_FALSE(each.since);
        }
        return findings(assessment);
    };
    CHECK(found(std::nullopt) == "group_unset");
    CHECK(found("adult") == "group_differs adult");
    CHECK(found("neonatal") == "group_differs neonatal, group_unsupported neonatal");
    log.on(device).group("adult");
    CHECK(found(std::nullopt).empty());
    CHECK(found("adult").empty());
    CHECK(found("pediatric") == "group_differs pediatric");
    CHECK(assessed(log, Asked{.group = "pediatric"}).group == "pediatric");
    log.on(device).group("neonatal");
    CHECK(found(std::nullopt) == "group_unsupported neonatal");
    CHECK(found("neonatal") == "group_unsupported neonatal");
}

TEST_CASE("a condition on the group looks at the selected one", "[unit]") {
    LogBuilder log;
    log.adopt(bookOfLeak("applies_when = { group = \"pediatric\" }"));
    log.on(device).enrol({"adult", "pediatric"});
    log.on(device).group("adult");
    CHECK(findings(assessed(log, Asked{.group = "pediatric"})) == "group_differs pediatric");
    log.on(device).group("pediatric");
    CHECK(findings(assessed(log, Asked{.group = "adult"})) == "due leak, group_differs adult");
}

TEST_CASE("not seen for long", "[unit]") {
    LogBuilder log = logWith(book("", {"1", "UTC", "confirm_every = \"P14D\"\n"}));
    const auto last = log.on(device).at("03-05 10:00").note();
    CHECK(findings(assessed(log, "03-19 09:59:59.999")).empty());
    const auto assessment = assessed(log, "03-19 10:00");
    CHECK(findings(assessment) == "unseen");
    CHECK(verdict(assessment) == "ready");
    CHECK_FALSE(assessed(log, "03-10 00:00").readyUntil);
    const auto& found = finding(assessment, "unseen");
    CHECK(found.blocking() == rules::Blocks::No);
    CHECK(found.subject.empty());
    CHECK(restsOn(found) == toText(last));
    CHECK(text(found.since) == "2026-03-19T10:00:00Z");
}

TEST_CASE("seen means any record on it, of whatever kind and effect", "[unit]") {
    LogBuilder log = logWith(book("[authority]\nclear = [\"biomed\"]\n",
                                  {"1", "UTC", "confirm_every = \"P14D\"\n"}));
    log.on(device).at("03-05 10:00").clear("fan");
    CHECK(did(log) == " / unauthorised / without effect");
    CHECK(findings(assessed(log, "03-18 12:00")).empty());
    CHECK(findings(assessed(logWith(book("")), "12-01 12:00")).empty());  // if it is wanted at all
}

TEST_CASE("findings are sorted by their words, then by subject", "[unit]") {
    LogBuilder log = logWith(book(
        "[checks.b]\ntakes = \"PT1M\"\n[checks.a]\ntakes = \"PT1M\"\n[positions.circuit]\n"
        "required = true\n"));
    log.on(device).withdraw("repair");
    log.on(device).fault("fan");
    CHECK(findings(assessed(log)) == "due a, due b, fault fan, missing circuit, withdrawn repair");
}

TEST_CASE("the words of answers", "[unit]") {
    using rules::FindingCode;
    for (int code = 0; code <= static_cast<int>(FindingCode::WornOut); ++code) {
        const auto finding = static_cast<FindingCode>(code);
        CHECK(rules::findingCodeOf(name(finding)) == finding);
    }
    CHECK_FALSE(rules::findingCodeOf("ready"));
    CHECK(name(FindingCode::ServiceOverdue) == "service_overdue");
    CHECK(name(FindingCode::ChangeDue) == "change_due");
    CHECK(name(FindingCode::WornOut) == "worn_out");
    CHECK(name(FindingCode::GroupUnset) == "group_unset");
}
