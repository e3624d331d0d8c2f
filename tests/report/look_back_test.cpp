// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking back at one unit: what could be known then beside what is known now.
#include "report/look_back.h"
#include "report/small_log.h"
#include "words/approved.h"

namespace {

const words::Words& english() {
    return *words::Words::builtIn();
}

report::LookingBack backAt(const sample::Scene& scene, const std::string& knownAt) {
    auto back = report::makeLookingBack(
        scene.log, {"KB-0142", scene.asked, sample::local(knownAt), scene.group}, {});
    REQUIRE(back);
    return *back;
}

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

// Ready at 02:14 by what was known; soiled at 01:30, which was entered at 02:54; its leak test was
// struck through in the morning.
sample::Story night() {
    sample::Story story;
    story.ready();
    story.enteredAt("11 02:54").tell("11 01:30", "soil", R"({"reason":"isolation room"})");
    story.as("rt2").tell("11 07:00", "note", R"({"text":"moved to the store"})");
    story.as("lead").tell("11 08:00", "strike",
                          R"({"target":"icu-1/14","reason":"done on another unit"})");
    return story;
}

}  // namespace

TEST_CASE("a night is reconstructed as approved", "[golden]") {
    const sample::Scene scene(night(), "11 02:14");
    const auto back = backAt(scene, "11 02:14");
    support::requireApproved("tests/report/approved/look_back.txt",
                             report::toText(back, english()));
    support::requireApproved("tests/report/approved/look_back.json",
                             logbook::json::pretty(report::toJson(back)) + "\n");
}

TEST_CASE("where nothing came in since, both are said to be the same", "[unit]") {
    sample::Story story;
    story.ready().tell("11 07:00", "note", R"({"text":"seen"})");
    const sample::Scene scene(story, "11 02:14");
    const auto back = backAt(scene, "11 02:14");
    CHECK(back.isSame());
    CHECK(back.since.empty());
    const auto text = report::toText(back, english());
    CHECK(says(text, "Verdict by both: ready for Adult."));
    CHECK(says(text, "Nothing that bears on this unit at that time."));
    CHECK(says(text, "This is the past, not how the unit stands now."));
    CHECK_FALSE(says(text, "From all entries "));
}

TEST_CASE("what was entered since is marked where a finding rests on it", "[unit]") {
    const sample::Scene scene(night(), "11 02:14");
    const auto back = backAt(scene, "11 02:14");
    CHECK_FALSE(back.isSame());
    REQUIRE(back.since.size() == 2);
    CHECK(back.since[0].strike.has_value());
    CHECK_FALSE(back.since[0].enteredSince);
    CHECK(back.since[1].enteredSince);
    const auto text = report::toText(back, english(), {200});
    CHECK(says(text, "Soiled: isolation room, by J. Linden, 01:30; entered 02:54, 1 h 24 min "
                     "later"));
    CHECK(says(text, "struck through since by M. Alder, 08:00, because \"done on another unit\""));
    CHECK(says(text, "Verdict"));
    CHECK(says(text, "not ready for Adult"));
}

TEST_CASE("a unit enrolled later could not be known", "[unit]") {
    sample::Story story;
    story.ready().unit("KB-0150").enteredAt("11 06:00").tell(
        "11 01:00", "enrol",
        R"({"model":"Rowan 2","groups":["adult"],"features":[],"commissioned":"2026-11-01"})");
    const sample::Scene scene(story, "11 02:14");
    const auto back = report::makeLookingBack(
        scene.log, {"KB-0150", scene.asked, scene.asked, std::nullopt}, {});
    REQUIRE(back);
    CHECK_FALSE(back->known.has_value());
    CHECK(says(report::toText(*back, english()), "could not be known that this unit was enrolled"));
    CHECK_FALSE(report::makeLookingBack(
        scene.log, {"KB-0999", scene.asked, scene.asked, std::nullopt}, {}));
}

TEST_CASE("an entry made at once is not said to be late", "[unit]") {
    const sample::Scene scene(night(), "11 09:00");
    const auto back = backAt(scene, "11 02:00");
    CHECK(back.since.size() == 3);
    const auto text = report::toText(back, english(), {200});
    CHECK(says(text, "Note: moved to the store; entered 07:00"));
    CHECK_FALSE(says(text, "0 min later"));
    CHECK_FALSE(says(text, "Policy edition  "));
}

TEST_CASE("a finding that rests on another entry by now is not the same", "[unit]") {
    sample::Story story;
    story.ready().fit("10 13:00", "circuit", R"("lot":"4472")");
    story.enteredAt("11 03:00").fit("10 13:30", "circuit", R"("lot":"4480")");
    const sample::Scene scene(story, "11 02:14");
    const auto back = backAt(scene, "11 02:14");
    REQUIRE(back.known);
    REQUIRE(back.actual);
    CHECK(back.known->row().assessment.verdict == back.actual->row().assessment.verdict);
    CHECK_FALSE(back.isSame());
    const auto text = report::toText(back, english(), {200});
    CHECK(says(text, "at 13:00"));
    CHECK(says(text, "at 13:30"));
}

TEST_CASE("looking back tells who confirmed an entry since, but not as known then", "[unit]") {
    sample::Story story;
    story.ready().with(R"("confirmed":false)").tell("10 12:00", "fault",
                                                    R"({"code":"fan_noise","blocking":true})");
    story.tell("11 07:00", "review",
               R"({"target":"icu-1/19","disposition":"confirmed","text":""})");
    const sample::Scene scene(story, "11 02:14");
    const auto text = report::toText(backAt(scene, "11 02:14"), english(), {140});
    INFO(text);
    // The list of entries is by all that is known.
    CHECK(says(text, "confirmed by J. Linden, 11 Nov 07:00"));
    const auto back = backAt(scene, "11 02:14");
    const logbook::RecordName fault{"icu-1", 19};
    CHECK_FALSE(back.known->context(english()).confirmation(fault));
    CHECK(back.actual->context(english()).confirmation(fault));
}
