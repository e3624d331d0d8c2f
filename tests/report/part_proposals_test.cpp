// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is proposed of a part: from the last one of its model, never what is true of one part only.
#include "report/part_proposals.h"

#include "report/part_kinds.h"
#include "report/pause_parts.h"
#include "report/small_log.h"

#include <catch2/catch.hpp>

namespace {

using Texts = std::vector<std::string>;

std::vector<report::PartProposal> forModel(const sample::Scene& scene, const std::string& model) {
    return report::proposalsForModel(scene.context(), scene.log, rules::unlimited, model);
}

sample::Story& fitElsewhere(sample::Story& story, const std::string& at, const std::string& part) {
    story.on("icu-2").unit("KB-0200");
    story.fit(at, "flow_sensor", part);
    return story.on("icu-1").unit("KB-0142");
}

sample::Story twoUnits() {
    sample::Story story;
    story.ready();
    story.on("icu-2").unit("KB-0200").tell(
        "10 07:30", "enrol",
        R"({"model":"Larch 3","groups":["neonatal"],"features":[],)"
        R"("commissioned":"2026-06-01"})");
    return story.on("icu-1").unit("KB-0142");
}

}  // namespace

TEST_CASE("a model is proposed as it was fitted last, without what is of one part", "[unit]") {
    auto story = twoUnits();
    fitElsewhere(story, "10 09:00",
                 R"("serial":"N-1","lot":"L-1","model":"Sorrel FS2","expires":"2027-01-31",)"
                 R"("groups":["neonatal"],"reuse":"single_patient","udi":"(01)1(21)N-1",)"
                 R"("made":"2026-01-01")");
    const auto proposals = forModel({story, "10 12:00"}, "Sorrel FS2");
    REQUIRE(proposals.size() == 1);
    const auto& proposal = proposals[0];
    CHECK(proposal.position == "flow_sensor");
    CHECK(proposal.label == "Flow sensor");
    CHECK(proposal.texts ==
          std::map<std::string, std::string, std::less<>>{{"model", "Sorrel FS2"},
                                                          {"reuse", "single_patient"}});
    CHECK(proposal.groups == Texts{"neonatal"});
    CHECK(proposal.summary == "Sorrel FS2, for Neonatal");
    CHECK(proposal.source == "as last fitted at 09:00 in unit KB-0200");
    CHECK(proposal.otherGroups ==
          "Another group than before: the flow sensor before was for Adult and Pediatric, this one "
          "is for Neonatal.");
}

TEST_CASE("an attribute that two lots of a model have alike is of the model", "[unit]") {
    auto story = twoUnits();
    fitElsewhere(story, "10 09:00", R"("lot":"L-1","model":"FS2","colour":"blue","made":"Jan")");
    fitElsewhere(story, "10 10:00", R"("lot":"L-2","model":"FS2","colour":"blue","made":"Feb")");
    const auto proposals = forModel({story, "10 12:00"}, "FS2");
    REQUIRE(proposals.size() == 1);
    CHECK(proposals[0].texts.contains("colour"));
    CHECK_FALSE(proposals[0].texts.contains("made"));
    // Two of one lot are no evidence.
    fitElsewhere(story, "10 11:00", R"("lot":"L-3","model":"FS3","colour":"red")");
    fitElsewhere(story, "10 11:10", R"("lot":"L-3","model":"FS3","colour":"red")");
    CHECK_FALSE(forModel({story, "10 12:00"}, "FS3").at(0).texts.contains("colour"));
}

TEST_CASE("the latest fit counts, and only what was known by then", "[unit]") {
    auto story = twoUnits();
    fitElsewhere(story, "10 09:00", R"("model":"FS2","groups":["adult","pediatric"])");
    fitElsewhere(story, "10 11:00", R"("model":"FS2","groups":["neonatal"])");
    CHECK(forModel({story, "10 12:00"}, "FS2").at(0).groups == Texts{"neonatal"});
    const auto earlier = forModel({story, "10 10:00"}, "FS2").at(0);
    CHECK(earlier.groups == Texts{"adult", "pediatric"});
    CHECK(earlier.otherGroups.empty());
    CHECK(forModel({story, "10 12:00"}, "unheard of").empty());
    const sample::Scene scene(story, "10 12:00");
    const auto asKnown = report::proposalsForModel(scene.context(), scene.log,
                                                   sample::local("10 10:00"), "FS2");
    CHECK(asKnown.at(0).groups == Texts{"adult", "pediatric"});
}

TEST_CASE("a struck fit proposes nothing", "[unit]") {
    auto story = twoUnits();
    fitElsewhere(story, "10 09:00", R"("model":"FS2")");
    story.as("lead").on("icu-2").unit("KB-0200").tell(
        "10 10:00", "strike", R"({"target":"icu-2/2","reason":"wrong unit"})");
    CHECK(forModel({story, "10 12:00"}, "FS2").empty());
}

TEST_CASE("a known serial is that very part, and may stand elsewhere", "[unit]") {
    auto story = twoUnits();
    fitElsewhere(story, "10 09:00",
                 R"("serial":"N-1","model":"FS2","lot":"L-1","expires":"2027-01-31",)"
                 R"("groups":["neonatal"])");
    const sample::Scene scene(story, "10 12:00");
    const auto found = report::proposalsForSerial(scene.context(), "N-1");
    REQUIRE(found.size() == 1);
    CHECK(found[0].texts.at("serial") == "N-1");
    CHECK(found[0].texts.at("lot") == "L-1");
    CHECK(found[0].texts.at("expires") == "2027-01-31");
    CHECK(found[0].standsElsewhere ==
          "By the log this part stands in unit KB-0200. Fitted here, it is taken out there.");
    CHECK(report::proposalsForSerial(scene.context(), "FS-1").at(0).standsElsewhere.empty());
    CHECK(report::proposalsForSerial(scene.context(), "N-2").empty());
}

TEST_CASE("a part taken out unused may go back whole, a used one may not", "[unit]") {
    sample::Story story;
    story.ready().fit("10 09:00", "hme", R"("lot":"H-1")");
    story.tell("10 09:10", "remove", R"({"position":"hme"})");
    const auto takenOut = [](const sample::Scene& scene) {
        return report::takenOutUnused(scene.log, scene.state, {scene.asked, rules::unlimited},
                                      "KB-0142");
    };
    const auto taken = takenOut({story, "10 10:00"});
    REQUIRE(taken.size() == 1);
    CHECK(taken.at("hme").attributes.text("lot") == "H-1");
    CHECK(taken.at("hme").fitted == sample::local("10 09:00"));

    story.tell("10 11:00", "use_start");
    CHECK(takenOut({story, "10 11:10"}).empty());
    story.tell("10 12:00", "use_end");
    CHECK(takenOut({story, "10 12:10"}).empty());

    sample::Story used;
    used.ready().tell("10 09:00", "use_start").tell("10 10:00", "use_end");
    used.tell("10 10:10", "remove", R"({"position":"circuit"})");
    CHECK(takenOut({used, "10 10:20"}).empty());

    // In a pause it goes back to the same patient; what came out before it does not.
    sample::Story paused;
    paused.ready().fit("10 08:30", "hme", R"("lot":"H-1")").tell("10 09:00", "use_start");
    paused.tell("10 09:10", "remove", R"({"position":"humidifier"})");
    paused.tell("10 09:20", "use_pause", R"({"reason":"circuit"})");
    paused.tell("10 09:21", "remove", R"({"position":"hme"})");
    const auto inPause = [](const sample::Scene& scene) {
        return report::takenOutInPause(scene.log, scene.state, {scene.asked, rules::unlimited},
                                       "KB-0142");
    };
    const auto goesBack = inPause({paused, "10 09:25"});
    REQUIRE(goesBack.size() == 1);
    CHECK(goesBack.at("hme").attributes.text("lot") == "H-1");
    CHECK(takenOut({paused, "10 09:25"}).empty());
    paused.tell("10 09:30", "use_resume");
    CHECK(inPause({paused, "10 09:35"}).empty());
}

TEST_CASE("the same groups in another order are the same groups", "[unit]") {
    sample::Story story;
    story.ready();
    const sample::Scene scene(story, "10 12:00");
    const auto said = [&](const Texts& groups) {
        return report::otherGroupsSentence(scene.context(), "flow_sensor", groups);
    };
    CHECK(said({"pediatric", "adult"}).empty());
    CHECK_FALSE(said({"adult"}).empty());
    CHECK(report::otherGroupsSentence(scene.context(), "flow_sensor", std::nullopt).empty());
    CHECK(report::otherGroupsSentence(scene.context(), "circuit", Texts{"adult"}).empty());
}
