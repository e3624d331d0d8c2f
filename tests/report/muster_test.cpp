// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The muster as a page and as JSON.
#include "report/muster.h"

#include "report/small_log.h"
#include "words/approved.h"

#include <algorithm>

namespace {

const words::Words& english() {
    return *words::Words::builtIn();
}

struct Wanted {
    std::string group = "adult";
    std::size_t units = 1;
    std::size_t people = 1;
};

report::Muster musterOf(const sample::Scene& scene, const Wanted& wanted,
                        report::Provenance provenance = {}) {
    return report::makeMuster(scene.state, scene.lookup(),
                              {scene.asked, wanted.group, wanted.units, wanted.people},
                              std::move(provenance));
}

// Besides the usual ones: a soiled unit, one with a new oxygen sensor to wait for, one that is
// ready for children, and one as after a use.
sample::Story surge() {
    auto story = sample::smallLog();
    story.on("icu-1").unit("KB-0190").ready().tell("13 06:30", "soil", R"({"reason":"splash"})");
    story.unit("KB-0191").ready().fit("13 07:50", "oxygen_sensor", R"("serial":"O2-9")");
    story.unit("KB-0192").ready().tell("13 06:00", "group", R"({"group":"pediatric"})");
    story.check("13 06:30");
    story.unit("KB-0193").ready().tell("13 05:00", "use_start", R"({"location":"ICU 9"})");
    return story.tell("13 06:00", "use_end");
}

bool says(const std::string& text, const std::string& words) {
    return text.find(words) != std::string::npos;
}

std::size_t widest(const std::string& text) {
    std::size_t most = 0;
    for (std::size_t begin = 0; begin < text.size();) {
        const auto end = std::min(text.find('\n', begin), text.size());
        most = std::max(most, end - begin);
        begin = end + 1;
    }
    return most;
}

}  // namespace

TEST_CASE("a muster is told as approved", "[golden]") {
    const sample::Scene scene(surge(), "13 08:00");
    const auto muster = musterOf(scene, {"adult", 8, 2}, sample::provenance(scene));
    support::requireApproved("tests/report/approved/muster.txt", report::toText(muster, english()));
    support::requireApproved("tests/report/approved/muster.json",
                             logbook::json::pretty(report::toJson(muster)) + "\n");
}

TEST_CASE("what is wanted and ready already needs no list", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    const auto text = report::toText(musterOf(scene, {"adult", 1, 2}), english());
    CHECK(says(text, "1 unit for Adult: ready now by record. Nothing has to be done."));
    CHECK_FALSE(says(text, "PERSON"));
    CHECK_FALSE(says(text, "WHY NOT MORE"));
}

TEST_CASE("a unit in doubt is never counted", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    report::Provenance provenance;
    provenance.problems = {"Record icu-1/3 is not as it was written."};
    for (const auto& [serial, device] : scene.state.devices)
        provenance.devicesInDoubt.insert(serial);
    const auto muster = musterOf(scene, {"adult", 1, 2}, provenance);
    CHECK_FALSE(muster.answer.isEnough());
    const auto text = report::toText(muster, english());
    CHECK(says(text, "No unit can be made ready for Adult as things stand."));
    CHECK(says(text, "Not counted, since entries of this log are missing or changed: "));
    const auto json = logbook::json::canonical(report::toJson(muster));
    CHECK(says(json, R"("blockers":[],"device":"KB-0142","in_doubt":true)"));
}

TEST_CASE("a muster that is not proved says before when it is impossible", "[unit]") {
    const sample::Scene scene(surge(), "13 08:00");
    auto muster = musterOf(scene, {"adult", 4, 2});
    REQUIRE(muster.answer.units.size() == 4);
    muster.answer.units.back().readyAt = muster.answer.finish =
        scene.asked + logbook::Duration{3'600'000};
    muster.answer.finishOfOneMore = scene.asked + logbook::Duration{2'400'000};
    muster.answer.bound = scene.asked + logbook::Duration{1'800'000};
    muster.answer.exact = false;
    const auto text = report::toText(muster, english());
    CHECK(says(text, "proved that so many cannot be ready before 08:30."));
    CHECK(says(text, "With one more person: by 08:40, 20 min sooner."));
    muster.answer.finishOfOneMore = muster.answer.bound = muster.answer.finish;
    muster.answer.exact = true;
    const auto proved = report::toText(muster, english());
    CHECK_FALSE(says(proved, "proved"));
    CHECK(says(proved, "One more person would not make it sooner."));
}

TEST_CASE("a muster fits narrow terminals", "[unit]") {
    const sample::Scene scene(surge(), "13 08:00");
    const auto muster = musterOf(scene, {"adult", 8, 2}, sample::provenance(scene));
    for (const std::size_t width : {60U, 80U, 120U})
        CHECK(widest(report::toText(muster, english(), {width})) <= width + 4);
}

TEST_CASE("a muster promises nothing before it is so", "[unit]") {
    sample::Story story;
    story.ready().fit("10 13:05:22", "oxygen_sensor", R"("serial":"O2-9")");
    const sample::Scene scene(story, "10 13:10");
    auto muster = musterOf(scene, {"adult", 1, 1});
    const auto text = report::toText(muster, english(), {160});
    INFO(text);
    CHECK(says(text, "1 unit can be ready for Adult by 13:41, in 31 min, with 1 person."));
    CHECK(says(text, "not before 13:36"));
    CHECK(says(text, "PERSON 1, FREE FROM 13:41"));
    CHECK_FALSE(says(text, "13:35"));
    CHECK_FALSE(says(text, "proved"));
    muster.answer.exact = false;  // by seconds
    muster.answer.bound = muster.answer.finish - logbook::Duration{2'000};
    CHECK(says(report::toText(muster, english(), {160}), "cannot be ready before 13:40."));
}

TEST_CASE("serials and places of a muster cannot steer the terminal", "[unit]") {
    sample::Story story;
    story.ready().unit("KB-\u202e01").ready();
    story.tell("10 12:00", "soil", R"({"reason":"splash"})");
    story.unit("KB-\u202e02").ready();
    story.tell("11 09:00", "withdraw", R"({"hold":"repair","reason":"fan noise"})");
    story.unit("KB-\u202e03").ready();
    story.tell("11 09:00", "use_start", R"({"location":"ICU \u202e 3"})");
    story.unit("KB-0155").tell("11 09:30", "enrol",
                               R"({"model":"Larch 3","groups":["adult"],"features":[],)"
                               R"("commissioned":"2026-11-01"})");
    const sample::Scene scene(story, "13 08:00");
    const auto text = report::toText(musterOf(scene, {"adult", 9, 1}), english(), {160});
    INFO(text);
    CHECK_FALSE(says(text, "\u202e"));
    for (const char* number : {"01", "02", "03"})
        CHECK(says(text, std::string("KB-\\u{202E}") + number));
    CHECK(says(text, "place unknown"));
}
