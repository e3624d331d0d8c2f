// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The way to ready as a person follows it: steps, waits with their reasons, and who can lift what
// stands in the way.
#include "report/plan.h"
#include "report/small_log.h"
#include "report/steps.h"
#include "words/approved.h"

namespace {

const words::Words& english() {
    return *words::Words::builtIn();
}

std::string textOf(const sample::Scene& scene, report::Provenance provenance = {},
                   std::size_t width = 100) {
    const auto way =
        report::makeWayToReady(scene.state, scene.lookup(),
                               {"KB-0142", scene.asked, scene.group}, std::move(provenance));
    REQUIRE(way);
    return report::toText(*way, english(), {width});
}

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

sample::Story changedCell() {
    sample::Story story;
    story.ready().fit("10 13:05", "oxygen_sensor", R"("serial":"O2-9")");
    return story.fit("10 13:06", "circuit", R"("lot":"4472")");
}

}  // namespace

TEST_CASE("a way to ready with a wait is told as approved", "[golden]") {
    const sample::Scene scene(changedCell(), "10 13:10");
    support::requireApproved("tests/report/approved/plan.txt",
                             textOf(scene, sample::provenance(scene)));
}

TEST_CASE("what stands in the way is told with who can lift it, as approved", "[golden]") {
    sample::Story story;
    story.ready().tell("10 12:00", "fault", R"({"code":"fan_noise","text":"at start"})");
    story.tell("10 12:01", "withdraw", R"({"hold":"repair","reason":"fan noise"})");
    story.tell("10 12:02", "withdraw", R"({"hold":"incident","reason":"see report"})");
    story.tell("10 12:03", "use_start");
    const sample::Scene scene(story, "10 13:10");
    support::requireApproved("tests/report/approved/plan_blocked.txt", textOf(scene));
}

TEST_CASE("a step says what it waits for, and since when", "[unit]") {
    const auto text = textOf(sample::Scene(changedCell(), "10 13:10"), {}, 160);
    CHECK(says(text, "not before 13:35: the oxygen sensor went in at 13:05"));
    CHECK(says(text, "13:12  Wait, 23 min."));
    CHECK(says(text, "for the oxygen sensor calibration"));
}

TEST_CASE("a wait that a planned fit brings names that fit", "[unit]") {
    sample::Story story;
    story.ready().tell("10 12:55", "remove", R"({"position":"oxygen_sensor"})");
    const sample::Scene scene(story, "10 13:00");
    const auto context = scene.context();
    rules::Task fit{rules::TaskKind::Fit, "oxygen_sensor"};
    fit.start = scene.asked;
    fit.attended = fit.finish = scene.asked + logbook::Duration{60'000};
    rules::Task calibration{rules::TaskKind::Check, "oxygen_cal"};
    calibration.start = fit.finish + logbook::Duration{30 * 60'000};
    calibration.attended = calibration.finish = calibration.start + logbook::Duration{300'000};
    calibration.notBefore = calibration.start;
    const std::vector<rules::Task> tasks{fit, calibration};
    const auto text = report::stepsTable(context, {tasks, scene.asked}).text(160);
    CHECK(says(text, "not before 13:31: the oxygen sensor goes in at 13:01"));
    CHECK(says(text, "13:01  Wait, 30 min."));
}

TEST_CASE("a unit that is off is switched on first where a check waits for that", "[unit]") {
    sample::Story story;
    story.ready().tell("10 12:00", "power", R"({"on":false})");
    story.fit("10 12:10", "oxygen_sensor", R"("serial":"O2-9")");
    const auto text = textOf(sample::Scene(story, "10 12:50"), {}, 160);
    CHECK(says(text, "12:50  Switch the unit on and leave it on."));
    CHECK(says(text, "not before 12:52: the unit is switched on at 12:50"));
}

TEST_CASE("what runs on its own is told, and the wait for it", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    rules::Task washing{rules::TaskKind::Reprocess, "flow_sensor"};
    washing.start = scene.asked;
    washing.attended = scene.asked + logbook::Duration{5 * 60'000};
    washing.finish = scene.asked + logbook::Duration{45 * 60'000};
    const std::vector<rules::Task> tasks{washing};
    const auto text = report::stepsTable(scene.context(), {tasks, scene.asked}).text(160);
    CHECK(says(text, "45 min; runs on its own for 40 min"));
    CHECK(says(text, "08:05  Wait, 40 min."));
    CHECK(says(text, "until the flow sensor is reprocessed"));
}

TEST_CASE("a plan that is not proved says how far it can be from the best", "[unit]") {
    const sample::Scene scene(changedCell(), "10 13:10");
    auto way = report::makeWayToReady(scene.state, scene.lookup(),
                                      {"KB-0142", scene.asked, scene.group}, {});
    REQUIRE(way);
    way->plan.exact = false;
    way->plan.bound = *way->plan.readyAt - logbook::Duration{4 * 60'000};
    CHECK(says(report::toText(*way, english()), "4 min earlier at most"));
}

TEST_CASE("if only the order is not proved, no earlier end is spoken of", "[unit]") {
    const sample::Scene scene(changedCell(), "10 13:10");
    auto way = report::makeWayToReady(scene.state, scene.lookup(),
                                      {"KB-0142", scene.asked, scene.group}, {});
    REQUIRE(way);
    way->plan.exact = false;
    way->plan.bound = *way->plan.readyAt;
    const auto text = report::toText(*way, english());
    CHECK(says(text, "the best order found"));
    CHECK_FALSE(says(text, "None can end before"));
}

TEST_CASE("no step is told earlier than it counts, nor is the unit ready earlier", "[unit]") {
    sample::Story story;
    story.ready().fit("10 13:05:22", "oxygen_sensor", R"("serial":"O2-9")");
    const auto text = textOf(sample::Scene(story, "10 13:10"), {}, 160);
    INFO(text);
    CHECK(says(text, "13:10  Wait, 26 min."));
    CHECK(says(text, "13:36  Carry out: oxygen sensor calibration."));
    CHECK(says(text, "not before 13:36: the oxygen sensor went in at 13:05"));
    CHECK_FALSE(says(text, "13:35"));
    CHECK(says(text, "Ready at 13:41, in 31 min."));
}
