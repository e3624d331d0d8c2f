// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One unit: its text, its JSON, and that both lead to the records.
#include "report/explain.h"
#include "report/small_log.h"
#include "words/approved.h"

namespace {

const words::Words& english() {
    return *words::Words::builtIn();
}

report::Explain explainOf(const sample::Scene& scene, const std::string& device,
                          report::Provenance provenance = {}) {
    const report::ExplainQuestion question{device, scene.asked, scene.group};
    auto records = report::ofRecords(scene.log, question, provenance.knownAt);
    records.recent = report::recentRecords(scene.log, question, rules::unlimited, 5);
    auto explain = report::makeExplain(scene.state, scene.lookup(), question,
                                       std::move(provenance), std::move(records));
    REQUIRE(explain);
    return *explain;
}

}  // namespace

TEST_CASE("a unit that is not ready is explained as approved", "[golden]") {
    sample::Story story;
    story.ready().fit("10 12:00", "oxygen_sensor", R"("serial":"O2-9")");
    story.fit("10 12:01", "expiratory_filter", R"("lot":"F-7","expires":"2026-10-31")");
    story.tell("10 12:05", "check", R"({"check":"oxygen_cal","outcome":"pass"})");
    story.tell("10 12:06", "fault", R"({"code":"worn_wheel"})");
    story.fit("10 12:07", "circuit", R"("lot":"4472")");
    story.as("lead").tell("10 12:08", "waive",
                          R"({"finding":"due","subject":"leak",)"
                          R"("until":"2026-11-12T06:00:00Z","reason":"surge plan"})");
    const sample::Scene scene(story, "10 12:10");
    const auto explain = explainOf(scene, "KB-0142", sample::provenance(scene));
    support::requireApproved("tests/report/approved/explain.txt",
                             report::toText(explain, english()));
    support::requireApproved("tests/report/approved/explain.json",
                             logbook::json::pretty(report::toJson(explain)) + "\n");
}

TEST_CASE("a unit that is ready says until when, and that nothing stands against it", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    const auto text = report::toText(explainOf(scene, "KB-0142"), english());
    CHECK(text.find("Verdict: ready for Adult") != std::string::npos);
    CHECK(text.find("Ready until 14 Nov 05:30, if nothing further is recorded.") !=
          std::string::npos);
    CHECK(text.find("Nothing stands against this unit.") != std::string::npos);
    CHECK(text.find("times reprocessed: 1") != std::string::npos);
    CHECK(text.find("turned \\u{202E} round") != std::string::npos);
    CHECK(text.find("\xE2\x80\xAE") == std::string::npos);
}

TEST_CASE("a unit in doubt is explained as not known", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    report::Provenance provenance;
    provenance.devicesInDoubt = {"KB-0142"};
    provenance.problems = {"Record icu-1/3 is not as it was written."};
    const auto text = report::toText(explainOf(scene, "KB-0142", provenance), english());
    CHECK(text.find("Verdict: not known for Adult") != std::string::npos);
    CHECK(text.find("Nothing stands against this unit.") == std::string::npos);
    CHECK(text.find("Entries of this log are missing or changed") != std::string::npos);
    CHECK(text.find("Ready until") == std::string::npos);
    // Where nothing is wrong with the entries it is the clock.
    provenance.problems.clear();
    CHECK(report::toText(explainOf(scene, "KB-0142", provenance), english())
              .find("This unit has entries with a later time") != std::string::npos);
}

TEST_CASE("a retired unit shows its last entries and no checks", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    const auto text = report::toText(explainOf(scene, "KB-0170"), english());
    CHECK(text.find("Verdict: retired") != std::string::npos);
    CHECK(text.find("CHECKS") == std::string::npos);
    CHECK(text.find("Unit retired") != std::string::npos);
}

TEST_CASE("only a unit that was enrolled by then can be explained", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "10 06:00");
    CHECK_FALSE(
        report::makeExplain(scene.state, scene.lookup(), {"KB-0142", scene.asked, {}}, {}, {}));
}

TEST_CASE("recent entries are those known, latest first, struck ones marked", "[unit]") {
    sample::Story story;
    story.ready().tell("10 12:00", "note", R"({"text":"one"})");
    story.tell("10 12:10", "strike", R"({"target":"icu-1/19","reason":"wrong unit"})");
    story.enteredAt("10 13:00").tell("10 12:20", "note", R"({"text":"late"})");
    const sample::Scene scene(story, "10 14:00");
    const report::ExplainQuestion question{"KB-0142", scene.asked, {}};
    const auto all = report::recentRecords(scene.log, question, rules::unlimited, 3);
    REQUIRE(all.size() == 3);
    CHECK(logbook::toText(all[0].record.name) == "icu-1/21");
    CHECK(logbook::toText(all[1].record.name) == "icu-1/20");
    CHECK(logbook::toText(all[2].record.name) == "icu-1/19");
    CHECK_FALSE(all[1].struck);
    CHECK(all[2].struck);
    const auto explain = explainOf(scene, "KB-0142");
    CHECK(report::toText(explain, english()).find("Note: one (struck through)") !=
          std::string::npos);
    const auto json = logbook::json::canonical(report::toJson(explain));
    CHECK(json.find(R"("record":"icu-1/19","struck":true})") != std::string::npos);
    CHECK(json.find(R"("record":"icu-1/20"})") != std::string::npos);
    const auto then = report::recentRecords(scene.log, question, sample::local("10 12:05"), 1);
    REQUIRE(then.size() == 1);
    CHECK(logbook::toText(then[0].record.name) == "icu-1/19");
    CHECK_FALSE(then[0].struck);
}

TEST_CASE("under a hold with a sheet it comes first, and nothing else is advised", "[unit]") {
    sample::Story story;
    story.ready().tell("10 12:00", "use_start").tell("10 13:30", "use_end");
    story.tell("10 13:40", "withdraw", R"({"hold":"repair","reason":"fan noise"})");
    story.tell("10 13:40", "withdraw", R"({"hold":"incident","reason":"see report"})");
    const sample::Scene scene(story, "10 14:00");
    const auto text = report::toText(explainOf(scene, "KB-0142"), english(), {200});
    const auto hold = text.find("ON HOLD since 13:40");
    const auto leave = text.find("Leave it all as it is while the unit is on hold.");
    const auto repair = text.find("Out of service since 13:40: repair");
    const auto circuit = text.find("The breathing circuit from the last patient is still fitted.");
    CHECK(hold < leave);
    CHECK(leave < repair);
    CHECK(leave < circuit);
    CHECK(circuit != std::string::npos);
    CHECK(text.find("Discard it and fit a new one.") == std::string::npos);
    CHECK(text.find("Leave it", leave + 10) == std::string::npos);
}

TEST_CASE("an entry that was confirmed since is told as confirmed, and by whom", "[unit]") {
    sample::Story story;
    story.ready().with(R"("confirmed":false)").tell("10 12:00", "fault",
                                                    R"({"code":"fan_noise","blocking":true})");
    story.tell("10 15:00", "review",
               R"({"target":"icu-1/19","disposition":"confirmed","text":""})");
    const auto textOf = [&](const std::string& knownAt) {
        const sample::Scene scene(story, "10 16:00");
        report::Provenance provenance;
        if (!knownAt.empty()) provenance.knownAt = sample::local(knownAt);
        return report::toText(explainOf(scene, "KB-0142", provenance), english(), {140});
    };
    const std::string confirmed = "confirmed by J. Linden, 10 Nov 15:00";
    const auto now = textOf("");
    INFO(now);
    // What the finding rests on, the standing fault, and the list of entries.
    const auto first = now.find(confirmed);
    REQUIRE(first != std::string::npos);
    CHECK(now.find(confirmed, first + 1) != std::string::npos);
    CHECK(now.find("nobody signed in for it") == std::string::npos);
    const auto then = textOf("10 14:00");
    CHECK(then.find("nobody signed in for it") != std::string::npos);
    CHECK(then.find(confirmed) == std::string::npos);
    const sample::Scene scene(story, "10 16:00");
    const auto json = logbook::json::canonical(report::toJson(explainOf(scene, "KB-0142")));
    CHECK(json.find(R"("confirmed_by":{"by":"rt1","entered":"2026-11-10T21:00:00Z",)"
                    R"("record":"icu-1/20"})") != std::string::npos);
}

TEST_CASE("an entry that whoever it stands under denies is not told as theirs", "[unit]") {
    sample::Story story;
    story.ready().with(R"("confirmed":false)").tell("10 12:00", "fault",
                                                    R"({"code":"fan_noise","blocking":true})");
    const auto target = toText(story.records().back().name);
    const auto text = [&] {
        const sample::Scene scene(story, "10 16:00");
        return report::toText(explainOf(scene, "KB-0142"), english(), {140});
    };
    CHECK(text().find("not by J. Linden") == std::string::npos);
    story.tell("10 15:00", "review",
               R"({"target":")" + target + R"(","disposition":"not_mine","text":""})");
    CHECK(text().find("not by J. Linden, as they say") != std::string::npos);
    CHECK(text().find("Entry " + target + " (Fault: Fan noise") != std::string::npos);
    // Confirmed after all, it is theirs.
    story.tell("10 15:10", "review",
               R"({"target":")" + target + R"(","disposition":"confirmed","text":""})");
    CHECK(text().find("not by J. Linden") == std::string::npos);
}
