// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The entries on one unit: a check that did not count says so, and why; what an entry states.
#include "report/history.h"

#include "small_log.h"

#include <catch2/catch.hpp>

namespace {

using sample::Story;

report::History historyOf(const sample::Scene& scene) {
    return report::makeHistory(scene.context(), scene.log,
                               {"KB-0142", scene.asked, rules::unlimited});
}

const report::HistoryLine& lineAt(const report::History& history, const std::string& clock,
                                  const std::string& says) {
    for (const auto& line : history.lines)
        if (line.clock == clock && line.says.find(says) != std::string::npos) return line;
    FAIL("no line " << clock << " " << says);
    return history.lines.front();
}

std::string detail(const report::HistoryLine& line, const std::string& label) {
    for (const auto& [name, text] : line.details)
        if (name == label) return text;
    return "";
}

}  // namespace

TEST_CASE("a check that did not count says so and why, also where a later one did", "[unit]") {
    Story story;
    story.ready();
    const std::string stated = R"(,"conditions":["mains_power"])", second = R"("witness":"rt2")";
    story.with(second).pass("11 09:00", "alarm_test", "");
    story.pass("11 09:30", "alarm_test", stated);
    story.with(second).pass("11 10:00", "alarm_test", stated);
    const sample::Scene scene(story, "12 08:00");
    const auto history = historyOf(scene);
    const auto& early = lineAt(history, "09:00", "Alarm test");
    CHECK(early.uncounted == "does not count: \"mains power\" was not confirmed");
    CHECK(detail(early, "Does not count") == "\"mains power\" was not confirmed");
    CHECK(lineAt(history, "09:30", "Alarm test").uncounted ==
          "does not count: no second person on the list verified it");
    const auto& counted = lineAt(history, "10:00", "Alarm test");
    CHECK(counted.uncounted.empty());
    CHECK(detail(counted, "Does not count").empty());
    CHECK(detail(counted, "Outcome") == "passed");
}

TEST_CASE("who put their name to it later stands with the entry", "[unit]") {
    Story story;
    story.ready();
    story.with(R"("confirmed":false)").tell("11 09:00", "soil", R"({"reason":"splash"})");
    const auto target = toText(story.records().back().name);
    const auto before = historyOf(sample::Scene(story, "12 08:00"));
    const auto& waiting = lineAt(before, "09:00", "Soiled");
    CHECK(waiting.says == "Soiled: splash (nobody signed in for it)");
    CHECK(detail(waiting, "Signed") == "Nobody signed in for it");
    story.tell("11 10:30", "review",
               R"({"target":")" + target + R"(","disposition":"confirmed","text":""})");
    const auto after = historyOf(sample::Scene(story, "12 08:00"));
    const auto& confirmed = lineAt(after, "09:00", "Soiled");
    CHECK(confirmed.says == "Soiled: splash (confirmed by J. Linden, 11 Nov 10:30)");
    CHECK(detail(confirmed, "Signed") == "Confirmed by J. Linden, 11 Nov 10:30");
    // What could be known before it.
    const sample::Scene scene(story, "12 08:00");
    const auto then = report::makeHistory(
        scene.context(), scene.log, {"KB-0142", sample::local("11 10:00"), rules::unlimited});
    CHECK(lineAt(then, "09:00", "Soiled").says == waiting.says);
}

TEST_CASE("what is struck through or moved is told by what it was", "[unit]") {
    Story story;
    story.ready();
    story.pass("11 09:00", "leak", R"(,"measures":{"leak":{"value":80,"unit":"mL/min"}})");
    const auto target = toText(story.records().back().name);
    story.tell("11 09:10", "strike",
               R"({"target":")" + target + R"(","reason":"wrong unit"})");
    CHECK(lineAt(historyOf(sample::Scene(story, "12 08:00")), "09:10", "Entry").says ==
          "Entry " + target + " (Leak test: passed; leak 80 mL/min, 11 Nov 09:00) struck through: "
                              "wrong unit");
    story.unit("KB-0150").tell("10 07:00", "enrol",
                               R"({"model":"Rowan 2","groups":["adult"],"features":[],)"
                               R"("commissioned":"2026-06-01"})");
    story.unit("KB-0142").tell("11 10:00", "soil", R"({"reason":"splash"})");
    const auto moved = toText(story.records().back().name);
    story.unit("KB-0150").with(R"("moved_from":")" + moved + "\"").tell(
        "11 10:00", "soil", R"({"reason":"splash"})");
    const sample::Scene scene(story, "12 08:00");
    const auto history = report::makeHistory(
        scene.context("KB-0150"), scene.log, {"KB-0150", scene.asked, rules::unlimited});
    CHECK(lineAt(history, "10:00", "Soiled").says ==
          "Soiled: splash (moved from " + moved + " on unit KB-0142)");
}

TEST_CASE("power, a waiver and a session are told in words", "[unit]") {
    Story story;
    story.ready();
    for (const auto* text : {"Hose", "Wheels"})
        story.with(R"("batch":"icu-1 session 7")")
            .tell("11 09:00", "note", std::string(R"({"text":")") + text + "\"}");
    story.tell("11 09:30", "power", R"({"on":false})");
    story.as("lead").tell("11 10:00", "waive",
                          R"({"finding":"change_due","subject":"circuit",)"
                          R"("until":"2026-11-12T18:00:00Z","reason":"none at hand"})");
    const sample::Scene scene(story, "12 08:00");
    const auto history = historyOf(scene);
    CHECK(detail(lineAt(history, "09:00", "Hose"), "Session") == "one of 2 entries");
    CHECK(detail(lineAt(history, "09:30", ""), "Power") == "off");
    CHECK(detail(lineAt(history, "09:30", ""), "Session").empty());
    CHECK(detail(lineAt(history, "10:00", ""), "What is permitted") ==
          "Breathing circuit to be changed");
    for (const auto& line : history.lines)
        for (const auto& [label, text] : line.details)
            CHECK(text.find("session 7") == std::string::npos);
}
