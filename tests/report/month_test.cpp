// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The month: its text, its JSON, and the command that gives it again.
#include "report/month.h"
#include "report/small_log.h"
#include "words/approved.h"

#include <algorithm>

namespace {

const words::Words& english() {
    return *words::Words::builtIn();
}

constexpr auto november = std::chrono::year{2026} / std::chrono::November;

report::Month monthOf(const sample::Scene& scene, const rules::MonthQuestion& question,
                      const std::string& path = "/data/kestrel bay.logbook") {
    auto provenance = sample::provenance(scene);
    provenance.heads = {{"icu-1", 82, "fd0f8c1b"}, {"nicu-2", 1, "00ff00ff"}};
    auto month = report::makeMonth(scene.log, question, path, std::move(provenance));
    REQUIRE(month);
    return *month;
}

}  // namespace

TEST_CASE("the month as text is the approved one", "[golden]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    const auto month = monthOf(scene, {november, {}, rules::unlimited});
    support::requireApproved("tests/report/approved/month.txt", report::toText(month, english()));
    support::requireApproved("tests/report/approved/month.json",
                             logbook::json::pretty(report::toJson(month)) + "\n");
}

TEST_CASE("the command that repeats a month gives the same month", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    const auto month = monthOf(scene, {november, {}, rules::unlimited});
    CHECK(report::repeatCommand(month) ==
          "airmuster-cli month '/data/kestrel bay.logbook' 2026-11 --at 2026-11-13T13:00:00.001Z "
          "--known-at 2026-11-13T13:00:00.001Z");
    const auto again = monthOf(scene, {november, month.at, month.knownAt});
    CHECK(report::toText(again, english()) == report::toText(month, english()));
    CHECK(report::toJson(again) == report::toJson(month));
    const auto odd = monthOf(scene, {november, {}, rules::unlimited}, "it's.logbook");
    CHECK(report::repeatCommand(odd).starts_with("airmuster-cli month 'it'\\''s.logbook' "));
    const auto plain = monthOf(scene, {november, {}, rules::unlimited}, "ward.logbook");
    CHECK(report::repeatCommand(plain).starts_with("airmuster-cli month ward.logbook 2026-11 "));
    const auto dashed = monthOf(scene, {november, {}, rules::unlimited}, "-w.logbook");
    CHECK(report::repeatCommand(dashed).starts_with("airmuster-cli month ./-w.logbook 2026-11 "));
}

TEST_CASE("a month as known earlier pins that time", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    const auto then = sample::local("11 00:00");
    const auto month = monthOf(scene, {november, then, then});
    CHECK(month.knownAt == then);
    CHECK(month.answer.allStarts() == 2);
    CHECK(report::toText(month, english())
              .find("As known at 11 Nov 2026 00:00 CST (UTC-06:00, 2026-11-11T06:00:00Z).") !=
          std::string::npos);
}

TEST_CASE("a month without starts has no rate", "[unit]") {
    sample::Story story;
    story.ready();
    const sample::Scene scene(story, "13 08:00");
    const auto month = monthOf(scene, {november, {}, rules::unlimited});
    const auto json = report::toJson(month);
    CHECK(json.find("compliance")->isNull());
    CHECK(json.find("wilson95")->isNull());
    const auto text = report::toText(month, english());
    CHECK(text.find("No use started in this period, so there is no rate.") != std::string::npos);
    CHECK(text.find("None: no use started in this period.") != std::string::npos);
    CHECK(text.find("Nothing out of order was found") != std::string::npos);
}

TEST_CASE("a start on a unit that was not enrolled is told", "[unit]") {
    sample::Story story;
    story.unit("KB-9").tell("10 12:00", "use_start");
    const sample::Scene scene(story, "13 08:00");
    const auto month = monthOf(scene, {november, {}, rules::unlimited});
    CHECK(report::toText(month, english()).find("This unit was not enrolled then.") !=
          std::string::npos);
    const auto json = report::toJson(month);
    CHECK(logbook::json::canonical(*json.find("exceptions")) ==
          R"([{"class":"noncompliant","device":"KB-9","findings":["unenrolled"],"flags":[],)"
          R"("record":"icu-1/5"}])");
    CHECK(logbook::json::canonical(*json.find("compliance")) == "0");
}

TEST_CASE("a log without an edition has no month", "[unit]") {
    const rules::Log log({}, support::zones());
    const auto month = report::makeMonth(log, {november, {}, rules::unlimited}, "x", {});
    REQUIRE_FALSE(month);
    CHECK(month.error().code == rules::LogFault::Code::NoEdition);
}

TEST_CASE("what was written down since a month was signed, or is left out, is counted", "[unit]") {
    auto story = sample::smallLog();
    const auto signedAs = [&](const std::string& time, const std::string& month) {
        story.on("icu-9").as("lead").tell(
            time, "sign",
            R"({"scope":"month","month":")" + month +
                R"(","known_at":"2026-11-12T12:00:00Z","digest":"00","heads":{}})",
            "");
    };
    signedAs("13 06:30", "2026-11");
    signedAs("13 06:31", "2026-10");
    story.on("icu-8").unit("KB-0180").enteredAt("13 07:30");
    story.tell("12 09:00", "sighted", R"({"location":"ICU 4"})");
    story.on("icu-8").tell("13 07:40", "strike", R"({"target":"icu-1/5","reason":"slip"})");
    const sample::Scene scene(story, "13 08:00");
    const auto all = monthOf(scene, {november, {}, rules::unlimited});
    CHECK(all.leftOut == 0);
    REQUIRE(all.signatures.size() == 1);
    const auto since = static_cast<std::size_t>(std::count_if(
        scene.log.records().begin(), scene.log.records().end(), [](const auto& record) {
            return record.entered > support::utc(2026, 11, 12, 12) &&
                   record.kind() != logbook::Kind::Sign;
        }));
    CHECK(all.signatures[0].since == since);
    CHECK(report::toText(all, english()).find("Signed 13 Nov 06:30 by M. Alder, icu-9/1, as known "
                                              "12 Nov 06:00.") != std::string::npos);
    const auto then = monthOf(scene, {november, {}, sample::local("13 07:00")});
    CHECK(then.leftOut == 2);
    CHECK(then.signatures[0].since == since - 2);
    CHECK(monthOf(scene, {november, {}, sample::local("13 06:00")}).signatures.empty());
    const auto october = std::chrono::year{2026} / std::chrono::October;
    CHECK(monthOf(scene, {october, {}, sample::local("13 07:00")}).leftOut == 0);
}
