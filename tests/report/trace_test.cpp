// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The trace of a lot, a serial, a load and a notice: their text and their JSON.
#include "report/trace.h"
#include "report/small_log.h"
#include "words/approved.h"

namespace {

using rules::TraceBy;

const words::Words& english() {
    return *words::Words::builtIn();
}

// A sensor that goes through a load between two units, and circuits of a lot under a notice.
sample::Story recallLog() {
    sample::Story story;
    story.ready();
    story.tell("10 12:00", "use_start", R"({"location":"ICU 2"})");
    story.tell("10 15:00", "use_pause", R"({"reason":"circuit change"})");
    story.tell("10 15:10", "use_resume");
    story.tell("10 20:00", "use_end");
    story.tell("10 20:30", "remove", R"({"position":"flow_sensor"})");
    story.fit("11 06:00", "circuit", R"("lot":"4480")");
    story.tell("11 09:00", "reprocess",
               R"({"parts":[{"position":"flow_sensor","serial":"FS-1"},)"
               R"({"position":"exhalation_valve","serial":"EV-7"}],"level":"high","load":"W-17"})",
               "");
    story.on("icu-2").unit("KB-0150").ready();
    story.fit("11 10:00", "flow_sensor", R"("serial":"FS-1","model":"Sorrel FS")");
    story.on("icu-3").unit("KB-0160").ready();
    story.as("lead").tell("11 16:00", "notice",
                          R"({"key":"n26_03","title":"Circuits of lot 4471: look for a crack",)"
                          R"("action":"stop_use","match":{"lots":["4471"]}})",
                          "");
    story.as("rt1").fit("12 08:00", "circuit", R"("lot":"4490")");
    story.tell("12 08:10", "notice_done", R"({"key":"n26_03","text":"Sent back"})");
    story.tell("12 09:00", "reprocess",
               R"({"parts":[{"position":"flow_sensor","serial":"FS-1"}],"level":"low"})", "");
    return story;
}

report::Trace traceOf(const sample::Scene& scene, TraceBy by, const std::string& key) {
    return report::makeTrace(scene.log, {by, key, scene.asked}, sample::provenance(scene));
}

std::string textOf(const report::Trace& trace) {
    return report::toText(trace, english(), {80});
}

}  // namespace

TEST_CASE("the traces as text and as JSON are the approved ones", "[golden]") {
    const sample::Scene scene(recallLog(), "13 08:00");
    const auto load = traceOf(scene, TraceBy::Load, "W-17");
    const auto notice = traceOf(scene, TraceBy::Notice, "n26_03");
    support::requireApproved("tests/report/approved/trace_load.txt", textOf(load));
    support::requireApproved("tests/report/approved/trace_notice.txt", textOf(notice));
    support::requireApproved("tests/report/approved/trace_serial.txt",
                             textOf(traceOf(scene, TraceBy::Serial, "FS-1")));
    support::requireApproved("tests/report/approved/trace_load.json",
                             logbook::json::pretty(report::toJson(load)) + "\n");
    support::requireApproved("tests/report/approved/trace_notice.json",
                             logbook::json::pretty(report::toJson(notice)) + "\n");
}

TEST_CASE("a trace that finds nothing says so", "[unit]") {
    const sample::Scene scene(recallLog(), "13 08:00");
    for (const auto& [by, says] : std::map<TraceBy, std::string>{
             {TraceBy::Lot, "No part of this lot"},
             {TraceBy::Serial, "No part with this serial"},
             {TraceBy::Load, "No reprocess load of this name"}}) {
        const auto trace = traceOf(scene, by, "none");
        CHECK(trace.found.isEmpty());
        CHECK(textOf(trace).find(says) != std::string::npos);
        CHECK(report::toJson(trace).find("stays")->array()->empty());
    }
}

TEST_CASE("a notice about units tells the units", "[unit]") {
    auto story = recallLog();
    story.as("lead").tell("12 12:00", "notice",
                          R"({"key":"n26_05","title":"New instructions","action":"information",)"
                          R"("match":{"devices":["KB-0160","KB-0999"]}})",
                          "");
    const sample::Scene scene(story, "13 08:00");
    const auto text = textOf(traceOf(scene, TraceBy::Notice, "n26_05"));
    CHECK(text.find("It asks to take note.") != std::string::npos);
    CHECK(text.find("\nUnits concerned: 1. Concerned now: 1.\n"
                    "Notice still to be carried out: 1.\n") != std::string::npos);
    CHECK(text.find("  KB-0160: model Larch 3\n") != std::string::npos);
    CHECK(text.find("NOTICE STILL TO BE CARRIED OUT HERE") != std::string::npos);
}

TEST_CASE("a notice that concerned nothing, and a cancelled one, say so", "[unit]") {
    auto story = recallLog();
    story.as("lead").tell("12 12:00", "notice",
                          R"({"key":"n26_06","title":"Masks","action":"inspect",)"
                          R"("match":{"lots":["M-1"]}})",
                          "");
    story.as("lead").tell("12 13:00", "notice",
                          R"({"key":"n26_03","title":"Withdrawn","action":"stop_use",)"
                          R"("match":{"lots":["4471"]},"cancelled":true})",
                          "");
    const sample::Scene scene(story, "13 08:00");
    CHECK(textOf(traceOf(scene, TraceBy::Notice, "n26_06")).find("Look through the stock too") !=
          std::string::npos);
    const auto cancelled = textOf(traceOf(scene, TraceBy::Notice, "n26_03"));
    CHECK(cancelled.find("It is cancelled") != std::string::npos);
    CHECK(cancelled.find("still to be carried out") == std::string::npos);
    CHECK(cancelled.find("STILL TO BE CARRIED OUT") == std::string::npos);
}

TEST_CASE("a trace tells by whom an entry was confirmed since", "[unit]") {
    sample::Story story;
    story.ready().with(R"("confirmed":false)").fit("10 12:00", "circuit", R"("lot":"4480")");
    const sample::Scene before(story, "10 13:00");
    CHECK(report::toText(traceOf(before, TraceBy::Lot, "4471"), english(), {200})
              .find("nobody signed in for it") != std::string::npos);
    story.tell("10 14:00", "review",
               R"({"target":"icu-1/19","disposition":"confirmed","text":""})");
    const sample::Scene after(story, "10 15:00");
    const auto text = report::toText(traceOf(after, TraceBy::Lot, "4471"), english(), {200});
    INFO(text);
    CHECK(text.find("confirmed by J. Linden, 10 Nov 14:00") != std::string::npos);
    CHECK(text.find("nobody signed in for it") == std::string::npos);
}
