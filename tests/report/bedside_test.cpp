// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One unit for the Bedside desk: who it is, the rows in their order, and what each asks for.
#include "report/bedside.h"

#include "report/gravity.h"
#include "report/told_bedside.h"

#include <catch2/catch.hpp>

using namespace sample;
using report::RowPart;

namespace {

// The circuit was changed, and a new oxygen sensor went in.
sample::Story changed() {
    sample::Story story;
    story.ready().fit("10 13:05", "oxygen_sensor", R"("serial":"O2-9")");
    return story.fit("10 13:06", "circuit", R"("lot":"4472")");
}

}  // namespace

TEST_CASE("the bar tells the unit, its place, its group and its verdict", "[unit]") {
    sample::Story story;
    story.ready();
    const auto identity = bedsideOf(sample::Scene(story, "10 12:00")).identity;
    CHECK(identity.device == "KB-0142");
    CHECK(identity.serial == "KB-0142");
    CHECK(identity.asset == "A-0142");
    CHECK(identity.label == "ICU-07");
    CHECK(identity.model == "Larch 3");
    CHECK(identity.place == "ICU");
    CHECK(identity.location == "ICU");
    CHECK(identity.groupText == "Adult");
    CHECK(identity.groupAskedText.empty());
    CHECK(identity.verdict == rules::Verdict::Ready);
    CHECK(identity.verdictWord == "ready");
    CHECK(identity.verdictText == "ready for Adult");
    CHECK(identity.readyUntil == sample::local("11 08:00"));
    CHECK(identity.readyUntilText == "Ready until 11 Nov 08:00, if nothing further is recorded.");
    CHECK(identity.isOn);
    CHECK_FALSE(identity.inUse);
    CHECK(identity.sheets.empty());
}

TEST_CASE("the way to ready is rows with clock time and minutes to go", "[unit]") {
    const auto bedside = bedsideOf(sample::Scene(changed(), "10 13:10"));
    CHECK(keysOf(bedside, RowPart::Done) ==
          Keys{"done alarm_test", "done battery", "done bedside"});
    CHECK(keysOf(bedside, RowPart::Step) == Keys{"check leak", "check oxygen_cal"});
    const auto& calibration = rowOf(bedside, "check oxygen_cal");
    CHECK(calibration.startText == "13:35, in 25 min");
    CHECK(calibration.start == sample::local("10 13:35"));
    CHECK(calibration.notBefore == sample::local("10 13:35"));
    CHECK(calibration.status == rules::CheckStatus::Due);
    REQUIRE(bedside.next);
    CHECK(bedside.rows[*bedside.next].key == "check leak");
    CHECK(bedside.rows[*bedside.next].startText == "now");
    CHECK(bedside.headline == "Ready at 13:40, in 30 min.");
}

TEST_CASE("what is done stays with who did it and when", "[unit]") {
    sample::Story story;
    story.ready().with(R"("done_by":"rt2")").pass(
        "10 12:20", "battery", R"(,"measures":{"charge":{"value":95,"unit":"%"}})");
    const auto bedside = bedsideOf(sample::Scene(story, "10 13:00"));
    CHECK(keysOf(bedside, RowPart::Done).back() == "done battery");
    const auto& row = rowOf(bedside, "done battery");
    CHECK(row.who == "S. Hazel");
    CHECK(row.whenDone == "12:20");
    CHECK(row.doneAt == sample::local("10 12:20"));
    REQUIRE(row.record);
    CHECK(row.record->station == "icu-1");
    CHECK(row.statusWord == "current");
    CHECK(std::holds_alternative<std::monostate>(row.act));
    CHECK(rowOf(bedside, "done leak").who == "J. Linden");
    CHECK_FALSE(bedside.next);
    CHECK(bedside.headline == "Ready. No step is open.");
}

TEST_CASE("a done check that a step repeats is a step, not done", "[unit]") {
    sample::Story story;
    story.ready().tell("10 12:00", "withdraw", R"({"hold":"repair","reason":"fan"})");
    story.tell("10 12:05", "remove", R"({"position":"circuit"})");
    story.as("lead").tell("10 12:10", "release", R"({"hold":"repair"})");
    story.pass("10 12:20", "leak", R"(,"measures":{"leak":{"value":80,"unit":"mL/min"}})");
    const auto bedside = bedsideOf(sample::Scene(story, "10 13:00"));
    const auto& row = rowOf(bedside, "check leak");
    CHECK(row.part == RowPart::Step);
    CHECK(row.status == rules::CheckStatus::Current);
    CHECK(row.why == "It is current now, but a step before it makes it due again.");
    for (const auto& key : keysOf(bedside, RowPart::Done)) CHECK(key != "done leak");
}

TEST_CASE("what does not count says why, and what to do", "[unit]") {
    sample::Story story;
    story.ready().tell("10 12:10", "remove", R"({"position":"humidifier"})");
    story.fit("10 12:11", "hme", R"("lot":"H-9","model":"Moss","expires":"2027-01-31")");
    story.fit("10 12:12", "circuit", "");
    story.pass("10 12:25", "leak", R"(,"measures":{"leak":{"value":80,"unit":"mL/min"}})");
    const auto bedside = bedsideOf(sample::Scene(story, "10 13:00"));
    CHECK(keysOf(bedside, RowPart::Step) == Keys{"remove hme", "check leak", "fit hme"});
    const auto& row = rowOf(bedside, "check leak");
    CHECK(row.doesNotCount);
    CHECK(row.why ==
          "The 12:25 leak test does not count: the HME was still in line. Take it out, repeat the "
          "leak test, then put it back.");
    CHECK_FALSE(rowOf(bedside, "remove hme").doesNotCount);
    const auto* fit = std::get_if<report::FitToLog>(&rowOf(bedside, "fit hme").act);
    REQUIRE(fit);
    REQUIRE(fit->putBack);
    CHECK(fit->putBack->texts.at("lot") == "H-9");
    CHECK(fit->putBack->texts.at("expires") == "2027-01-31");
    CHECK_FALSE(fit->proposed.texts.contains("lot"));
    CHECK_FALSE(fit->proposed.texts.contains("expires"));
    CHECK(fit->proposed.texts.at("model") == "Moss");
}

TEST_CASE("a group asked for is selected first, and limits are for it", "[unit]") {
    sample::Story story;
    story.ready();
    sample::Scene scene(story, "10 12:30");
    scene.group = "neonatal";
    const auto bedside = bedsideOf(scene);
    CHECK(bedside.identity.groupText == "Adult");
    CHECK(bedside.identity.groupAskedText == "Neonatal");
    CHECK(bedside.rows.at(*bedside.next).key == "group neonatal");
    const auto* group = std::get_if<report::GroupToLog>(&bedside.rows.at(*bedside.next).act);
    REQUIRE(group);
    CHECK(group->label == "Neonatal");
    const auto* fit = std::get_if<report::FitToLog>(&rowOf(bedside, "fit flow_sensor").act);
    REQUIRE(fit);
    CHECK(fit->occupied);
    CHECK(fit->proposed.groups == Keys{"neonatal"});
    CHECK(fit->proposed.otherGroups ==
          "Another group than before: the flow sensor before was for Adult and Pediatric, this one "
          "is for Neonatal.");
    CHECK_FALSE(fit->proposed.texts.contains("serial"));
    const auto bare = sample::Scene(story, "10 12:30");
    const auto check = report::checkToLog(bare.context(), *bare.state.rulebook->check("leak"),
                                          std::string("neonatal"));
    CHECK(check.groupFirst);
    CHECK(check.measures.at(0).max == 50);
    CHECK(check.measures.at(0).limits == "at most 50 mL/min for Neonatal");
}

TEST_CASE("a unit that is off is switched on first, and warmth is what a person says", "[unit]") {
    sample::Story story;
    story.ready().tell("10 12:00", "power", R"({"on":false})");
    story.fit("10 12:10", "oxygen_sensor", R"("serial":"O2-9")");
    const auto bedside = bedsideOf(sample::Scene(story, "10 12:50"));
    CHECK_FALSE(bedside.identity.isOn);
    const auto& first = bedside.rows.at(*bedside.next);
    CHECK(first.key == "power on");
    CHECK(std::holds_alternative<report::PowerToLog>(first.act));
    const auto* check = std::get_if<report::CheckToLog>(&rowOf(bedside, "check oxygen_cal").act);
    REQUIRE(check);
    REQUIRE(check->conditions.size() == 1);
    CHECK(check->conditions[0].key == "warmed_up");
    CHECK(check->asserts == "Passed, warmed up");
}

TEST_CASE("without a way to ready it is told who can lift what stands in it", "[unit]") {
    sample::Story story;
    story.ready().tell("10 12:01", "withdraw", R"({"hold":"repair","reason":"fan noise"})");
    story.fit("10 12:10", "circuit", R"("lot":"4472")");
    const auto bedside = bedsideOf(sample::Scene(story, "10 13:00"));
    CHECK(bedside.headline == "There is no way to ready until this is lifted.");
    CHECK_FALSE(bedside.readyAt);
    CHECK(keysOf(bedside, RowPart::Blocker) == Keys{"withdrawn repair"});
    const auto& row = rowOf(bedside, "withdrawn repair");
    CHECK(row.title == "Repair");
    CHECK(row.lifters == "This can be lifted by: Biomedical engineer (M. Alder).");
    // What can be done all the same can be logged.
    CHECK(std::holds_alternative<report::CheckToLog>(rowOf(bedside, "due leak").act));
    CHECK(bedside.identity.sheets.empty());
}

TEST_CASE("a hold with a sheet shows it, and offers nothing that touches the unit", "[unit]") {
    sample::Story story;
    story.ready().fit("10 12:00", "circuit", R"("lot":"4472")");
    story.tell("10 12:01", "withdraw", R"({"hold":"incident","reason":"see report"})");
    const auto bedside = bedsideOf(sample::Scene(story, "10 13:00"));
    REQUIRE(bedside.identity.sheets.size() == 1);
    const auto& sheet = bedside.identity.sheets[0];
    CHECK(sheet.label == "Held after an incident");
    CHECK(sheet.since == "10 Nov 12:01");  // a sheet hangs on the unit for days
    CHECK(sheet.by == "J. Linden");
    CHECK(sheet.lines == Keys{"Do not clean, reset, switch off or take parts.",
                              "Call Risk Management."});
    CHECK(sheet.lifters == "This can be lifted by: Risk manager (M. Alder).");
    for (const auto& row : bedside.rows) {
        INFO(row.key);
        CHECK(std::holds_alternative<std::monostate>(row.act));
    }
    using logbook::Kind;
    for (const auto kind : {Kind::Fit, Kind::Remove, Kind::Reprocess, Kind::Check, Kind::Power,
                            Kind::Software, Kind::UseStart})
        CHECK(report::disturbsEvidence(kind));
    for (const auto kind : {Kind::Note, Kind::Sighted, Kind::UseEnd, Kind::Release})
        CHECK_FALSE(report::disturbsEvidence(kind));
    CHECK(report::isAskedForHold("use_start", {{"reason", "CT"}}));
    CHECK(report::isAskedForHold("use_start", {{"emergency", false}}));
    CHECK_FALSE(report::isAskedForHold("use_start", {{"emergency", true}}));
    CHECK_FALSE(report::isAskedForHold("note", {{"text", "Seen"}}));
}

TEST_CASE("a unit in doubt is not known to be ready", "[unit]") {
    sample::Story story;
    story.ready();
    report::Provenance doubt;
    doubt.problems = {"Record icu-1/3 is not as it was written."};
    doubt.devicesInDoubt = {"KB-0142"};
    const auto bedside = bedsideOf(sample::Scene(story, "10 12:00"), "KB-0142", doubt);
    CHECK(bedside.identity.inDoubt);
    CHECK(bedside.identity.verdictWord == "not known");
    CHECK_FALSE(bedside.identity.doubtText.empty());
    CHECK_FALSE(bedside.identity.readyUntil);
    CHECK(keysOf(bedside, RowPart::Blocker) == Keys{"in_doubt"});
    CHECK(keysOf(bedside, RowPart::Step).empty());
}

TEST_CASE("a retired unit says so, one that was never enrolled is none", "[unit]") {
    sample::Story story;
    story.ready().tell("10 12:00", "retire", R"({"reason":"sold"})");
    const sample::Scene scene(story, "10 13:00");
    const auto bedside = bedsideOf(scene);
    CHECK(bedside.identity.verdict == rules::Verdict::Retired);
    CHECK(bedside.rows.size() == 1);
    CHECK(bedside.rows.at(0).title == "The unit is retired.");
    CHECK(bedside.setup.empty());
    CHECK_FALSE(report::makeBedside(scene.state, scene.lookup(), {{"KB-0999", scene.asked, {}}},
                                    {}, english()));
}

TEST_CASE("a screen counts down by the same words", "[unit]") {
    const auto zone = support::zone("America/Chicago");
    const auto start = sample::local("10 13:35");
    const auto said = [&](const std::string& now) {
        return report::countdown(english(), *zone, start, sample::local(now));
    };
    CHECK(said("10 13:10") == "13:35, in 25 min");
    CHECK(said("10 13:33:30") == "13:35, in 2 min");
    CHECK(said("10 13:35") == "now");
    CHECK(said("10 14:00") == "now");
    CHECK(said("09 13:35") == "10 Nov 13:35, in 24 h");
}

TEST_CASE("every order of checks keeps after", "[unit]") {
    const sample::Scene scene(sample::Story(), "10 12:00");
    const auto& policy = *scene.state.rulebook;
    const auto order = report::checksInOrder(policy);
    CHECK(order.size() == policy.checks.size());
    for (const auto& check : policy.checks) {
        const auto place = std::find(order.begin(), order.end(), check.key);
        REQUIRE(place != order.end());
        for (const auto& before : check.after)
            CHECK(std::find(order.begin(), place, before) != place);
    }
}
