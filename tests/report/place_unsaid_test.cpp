// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Where a unit is, once a use began of which nobody said where: for the Bedside desk and when it is
// explained.
#include "report/place_unsaid.h"

#include "report/bedside.h"
#include "report/explain.h"
#include "report/small_log.h"

#include <catch2/catch.hpp>

namespace {

const words::Words& english() {
    return *words::Words::builtIn();
}

report::BedsideIdentity identityAt(const sample::Story& story, const std::string& time) {
    const sample::Scene scene(story, time);
    report::BedsideQuestion question{{"KB-0142", scene.asked, scene.group}};
    question.placeUnsaidSince =
        report::placeUnsaidSince(scene.log, {scene.asked, rules::unlimited}, "KB-0142");
    const auto made =
        report::makeBedside(scene.state, scene.lookup(), question, {}, english());
    REQUIRE(made);
    return made->identity;
}

}  // namespace

TEST_CASE("a use of which nobody said where leaves the place unknown", "[unit]") {
    sample::Story story;
    story.ready().tell("10 12:00", "use_start", R"({"emergency":true})");
    CHECK(identityAt(story, "10 11:59").location == "ICU");
    CHECK(identityAt(story, "10 11:59").place == "ICU");
    const std::string unsaid = "place not said since 12:00, last known: ICU";
    CHECK(identityAt(story, "10 13:00").place == unsaid);
    CHECK_FALSE(identityAt(story, "10 13:00").location);
    const sample::Scene scene(story, "10 13:00");
    const report::ExplainQuestion question{"KB-0142", scene.asked, {}};
    const auto explain =
        report::makeExplain(scene.state, scene.lookup(), question, {},
                            report::ofRecords(scene.log, question, rules::unlimited));
    REQUIRE(explain);
    CHECK(report::toText(*explain, english(), {140}).find(" | " + unsaid + " | ") !=
          std::string::npos);
    // For the same patient it is no start, and the end of the use tells no place either.
    story.tell("10 14:00", "use_start", R"({"same_patient":true})").tell("10 15:00", "use_end");
    CHECK(identityAt(story, "10 16:00").place == unsaid);
    story.tell("10 17:00", "sighted", R"({"location":"ICU store"})");
    CHECK(identityAt(story, "10 18:00").place == "ICU store");
    story.tell("10 19:00", "use_start", R"({"location":"ICU 4"})");
    CHECK(identityAt(story, "10 20:00").location == "ICU 4");
}
