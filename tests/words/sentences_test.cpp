// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a person is told of each situation: the approved transcript, and what must hold of every
// sentence in it.
#include "words/approved.h"
#include "words/finding_words.h"
#include "words/lifters.h"
#include "words/record_words.h"
#include "words/situations.h"

#include <set>

namespace {

std::string deviceOf(const sample::Scene& scene) {
    return scene.state.devices.begin()->first;
}

std::string transcript() {
    std::string text =
        "What the sample department is told, situation by situation. The numbers are those of the\n"
        "model sentences; those about plans, stations and forms are listed at the end.\n";
    for (const auto& situation : sample::situations()) {
        const auto scene = sample::sceneOf(situation);
        const auto context = scene.context(deviceOf(scene));
        text += "\n== " + situation.title + "\n";
        for (const auto& finding : scene.assess(deviceOf(scene)).findings) {
            const auto said = words::sentence(context, finding);
            text += "[" + words::brief(context, finding) + "]\n  " + said.says + "\n  " +
                    said.action + "\n";
        }
    }
    text +=
        "\n== To be told elsewhere\n"
        "5 the way to ready with minutes, 16 ready by record, 19 in use elsewhere,\n"
        "20 late entry, 21 after an emergency, 23 passed at the third attempt.\n"
        "18 stands on the board.\n";
    return text;
}

}  // namespace

TEST_CASE("the sentences of every situation are the approved ones", "[golden]") {
    support::requireApproved("tests/words/approved/sentences.txt", transcript());
}

TEST_CASE("the situations bring about every finding", "[unit]") {
    std::set<std::string> codes;
    for (const auto& situation : sample::situations()) {
        const auto scene = sample::sceneOf(situation);
        for (const auto& finding : scene.assess(deviceOf(scene)).findings)
            codes.insert(std::string(rules::name(finding.code)));
    }
    for (int code = 0; code <= static_cast<int>(rules::FindingCode::WornOut); ++code) {
        const std::string word(rules::name(static_cast<rules::FindingCode>(code)));
        INFO(word);
        CHECK(codes.contains(word));
    }
}

TEST_CASE("every sentence is a finding, then an action, without keys or gaps", "[unit]") {
    for (const auto& situation : sample::situations()) {
        const auto scene = sample::sceneOf(situation);
        const auto context = scene.context(deviceOf(scene));
        for (const auto& finding : scene.assess(deviceOf(scene)).findings) {
            for (const auto& said :
                 {words::sentence(context, finding), words::groundSentence(context, finding)}) {
                INFO(situation.title << ": " << said.text());
                CHECK_FALSE(said.says.empty());
                CHECK_FALSE(said.action.empty());
                CHECK(said.says.back() == '.');
                CHECK(said.action.back() == '.');
                CHECK(said.text().find_first_of("_{}") == std::string::npos);
                CHECK(said.text().size() <= 220);
                CHECK_FALSE((said.says[0] >= 'a' && said.says[0] <= 'z'));
                CHECK_FALSE((said.action[0] >= 'a' && said.action[0] <= 'z'));
            }
            const auto brief = words::brief(context, finding);
            INFO(brief);
            CHECK_FALSE(brief.empty());
            CHECK(brief.find_first_of("_{}") == std::string::npos);
        }
    }
}

TEST_CASE("a finding can be told from the records alone", "[unit]") {
    for (const auto& situation : sample::situations()) {
        const auto scene = sample::sceneOf(situation);
        auto context = scene.context(deviceOf(scene));
        context.device = nullptr;
        const auto findings = scene.assess(deviceOf(scene)).findings;
        for (const auto& finding : findings)
            CHECK_FALSE(words::sentence(context, finding).says.empty());
        context.lookup = {};
        for (const auto& finding : findings)
            CHECK_FALSE(words::sentence(context, finding).says.empty());
    }
}

TEST_CASE("every reason for which an attempt does not count has its own sentence", "[unit]") {
    const auto scene = sample::sceneOf(sample::situations().front());
    const auto context = scene.context();
    std::set<std::string> says;
    const std::vector<std::string> reasons{"incomplete",           "too_early",
                                           "power_unknown",        "condition mains_power",
                                           "measure leak",         "measure_missing leak",
                                           "mismatch flow_sensor", "in_line hme",
                                           "order leak",           "in_use",
                                           "unverified",           "made_up_later"};
    const auto last = scene.state.device("KB-0142")->last;
    for (const auto& reason : reasons) {
        const rules::Discounted discounted{*last, {reason}};
        const auto said = words::discountedSentence(context, "leak", discounted);
        INFO(reason << ": " << said.text());
        CHECK(says.insert(said.says).second);
        CHECK_FALSE(said.action.empty());
        CHECK(said.text().find('_') == std::string::npos);
    }
    const rules::Discounted many{*last, {"in_line hme", "in_use", "unverified"}};
    const auto said = words::discountedSentence(context, "leak", many);
    CHECK(said.says ==
          "The 12:10 leak test does not count: the HME was still in line, the unit was "
          "on a patient and no second person on the list verified it.");
    CHECK(said.action == "Put all of this right and repeat the leak test.");
}

TEST_CASE("the advice on a position comes after what to do about the finding", "[unit]") {
    auto scene = sample::sceneOf(sample::situations()[9 - 1]);
    const auto findings = scene.assess().findings;
    const auto expired = std::find_if(findings.begin(), findings.end(), [](const auto& finding) {
        return finding.code == rules::FindingCode::Expired;
    });
    REQUIRE(expired != findings.end());
    auto rulebook = *scene.state.rulebook;
    for (auto& position : rulebook.positions)
        if (position.key == "expiratory_filter")
            position.advice = {{"", "Ask the store."}, {"es", "Otra."}};
    scene.state.rulebook = std::make_shared<const rules::Rulebook>(rulebook);
    const auto said = words::sentence(scene.context(), *expired);
    CHECK(said.says == "The expiratory filter expired on 31 Oct.");
    CHECK(said.action == "Fit one that is in date. Ask the store.");
}

TEST_CASE("a waiting time that is over is not waited for", "[unit]") {
    sample::Story story;
    story.ready().fit("10 12:00", "oxygen_sensor", R"("serial":"O2-9")");
    story.tell("10 12:05", "check", R"({"check":"oxygen_cal","outcome":"pass"})");
    const auto actionAt = [&story](const std::string& asked) {
        const sample::Scene scene(story, asked);
        for (const auto& finding : scene.assess().findings)
            if (finding.discounted) return words::sentence(scene.context(), finding).action;
        return std::string();
    };
    CHECK(actionAt("10 12:10") == "Oxygen sensor calibration at 12:30 or later, 20 min to wait.");
    CHECK(actionAt("10 12:40") ==
          "That time is over now: repeat the oxygen sensor calibration.");
}

TEST_CASE("under a hold with a sheet nothing else is advised", "[unit]") {
    sample::Story story;
    story.ready().tell("10 12:00", "use_start").tell("10 13:30", "use_end");
    const auto actionsOf = [](const sample::Scene& scene) {
        std::set<std::string> actions;
        for (const auto& finding : scene.assess().findings)
            if (finding.code != rules::FindingCode::Withdrawn)
                actions.insert(words::sentence(scene.context(), finding).action);
        return actions;
    };
    CHECK(actionsOf(sample::Scene(story, "10 14:00")).size() > 3);
    story.tell("10 13:40", "withdraw", R"({"hold":"incident","reason":"see report"})");
    CHECK(actionsOf(sample::Scene(story, "10 14:00")) ==
          std::set<std::string>{"Leave it as it is while the unit is on hold."});
}

TEST_CASE("who can lift something is told by role and name", "[unit]") {
    const auto scene = sample::sceneOf(sample::situations().front());
    const auto context = scene.context();
    CHECK(words::lifters(context, "withdrawn incident") ==
          "This can be lifted by: Risk manager (M. Alder).");
    CHECK(words::lifters(context, "service_overdue maintenance") ==
          "This can be lifted by: Biomedical engineer (M. Alder). It can be permitted for a time "
          "by: Biomedical engineer (M. Alder) or Risk manager (M. Alder).");
    CHECK(words::lifters(context, "conflict twins") == "Anyone at the unit can put this right.");
    CHECK(words::lifters(context, "in_use").empty());
    CHECK(words::lifters(context, "due leak").empty());
    auto state = scene.state;
    state.persons.clear();
    const words::Context alone{context.words, state, context.device, context.asked, {}, {}};
    CHECK(words::lifters(alone, "fault fan_noise") ==
          "This can be lifted by: Biomedical engineer (no one on the list now).");
}
