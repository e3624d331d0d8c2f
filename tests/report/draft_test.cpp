// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a draft would change: its text and its JSON.
#include "report/draft.h"
#include "report/small_log.h"
#include "words/approved.h"

namespace {

const words::Words& english() {
    return *words::Words::builtIn();
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const auto place = text.find(from);
    REQUIRE(place != std::string::npos);
    return text.replace(place, from.size(), to);
}

// The sample rulebook with a shorter calibration, one check more and no par for newborns.
std::string stricter() {
    auto text = replaced(sample::rulebook, "edition = \"2026-1\"", "edition = \"2026-2\"");
    text = replaced(text, "valid_for = \"P1D\"", "valid_for = \"PT12H\"");
    text = replaced(text, "label = \"Neonatal\"\npar = 1", "label = \"Neonatal\"");
    return text + "[checks.handle]\nlabel = \"Handle check\"\ntakes = \"PT1M\"\n"
                  "voided_by = [ { event = \"use_end\" } ]\n";
}

report::Draft draftOf(const sample::Scene& scene, const std::string& text, int months = 3) {
    auto reading = rules::readRulebook(text, support::zones());
    REQUIRE(reading.rulebook);
    return report::makeDraft(scene.log, std::move(reading.rulebook),
                             {scene.asked, rules::unlimited, months}, sample::provenance(scene));
}

}  // namespace

TEST_CASE("what a draft would change, as text and as JSON, is the approved", "[golden]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    const auto draft = draftOf(scene, stricter());
    support::requireApproved("tests/report/approved/draft.txt",
                             report::toText(draft, english(), {80}));
    support::requireApproved("tests/report/approved/draft.json",
                             logbook::json::pretty(report::toJson(draft)) + "\n");
}

TEST_CASE("a draft that changes nothing says so", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    const auto text = report::toText(draftOf(scene, sample::rulebook, 1), english());
    CHECK(text.find("None: every unit would keep its verdict.") != std::string::npos);
    CHECK(text.find("New in the draft") == std::string::npos);
    CHECK(text.find("left out") == std::string::npos);
}

TEST_CASE("what a draft drops is told", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    auto draft = draftOf(scene, sample::rulebook, 1);
    CHECK(report::toText(draft, english()).find("NO LONGER NAMED") == std::string::npos);
    draft.answer.noMore = {{"neonatal"}, {"leak"}, {"hme"}, {"maintenance"}, {"KB-0150"}};
    const auto text = report::toText(draft, english(), {200});
    INFO(text);
    CHECK(text.find("NO LONGER NAMED BY THE DRAFT\n  Neonatal, ") != std::string::npos);
    CHECK(text.find("set up for a group that the draft does not name: KB-0150.") !=
          std::string::npos);
    const auto json = logbook::json::canonical(report::toJson(draft));
    CHECK(json.find(R"("named_no_more":{"checks":["leak"],"groups":["neonatal"],)"
                    R"("positions":["hme"],"services":["maintenance"],"units":["KB-0150"]})") !=
          std::string::npos);
}

TEST_CASE("what no longer blocks is told", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "14 08:00");
    const auto longer = replaced(sample::rulebook, "valid_for = \"P1D\"", "valid_for = \"P7D\"");
    const auto text = report::toText(draftOf(scene, longer, 1), english());
    INFO(text);
    CHECK(text.find("  KB-0142 (1):\n    not ready now, ready under the draft\n"
                    "      no longer: The last oxygen sensor calibration was") !=
          std::string::npos);
}
