// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A unit on a patient at the Bedside desk: what stands, and in which order it is put right.
#include "report/told_bedside.h"

#include <catch2/catch.hpp>

using namespace sample;
using report::RowPart;

TEST_CASE("in use the rows are the findings, checks in the order of after", "[unit]") {
    sample::Story story;
    story.tell("10 07:00", "enrol",
               R"({"model":"Larch 3","groups":["adult"],"features":[],)"
               R"("commissioned":"2026-06-01"})");
    story.tell("10 08:00", "use_start", R"({"location":"ICU 2"})");
    const auto inUse = bedsideOf(sample::Scene(story, "10 09:00"));
    CHECK(inUse.identity.verdictWord == "in use");
    CHECK(inUse.identity.inUseSince == sample::local("10 08:00"));
    CHECK(inUse.headline == "In use. This stands meanwhile:");
    CHECK_FALSE(inUse.next);
    CHECK(keysOf(inUse, RowPart::Step).empty());
    CHECK(keysOf(inUse, RowPart::Blocker).empty());
    auto keys = keysOf(inUse, RowPart::Finding);
    std::erase_if(keys, [](const auto& key) { return !key.starts_with("due "); });
    CHECK(keys == Keys{"due leak", "due alarm_test", "due oxygen_cal", "due bedside",
                       "due battery"});
    const auto& row = rowOf(inUse, "due leak");
    CHECK(std::holds_alternative<std::monostate>(row.act));
    CHECK(row.remarks == Keys{"not while the unit is in use"});
    CHECK(rowOf(inUse, "due bedside").mark == "needed at the bedside");

    story.tell("10 09:10", "use_pause", R"({"reason":"walk"})");
    const auto paused = bedsideOf(sample::Scene(story, "10 09:20"));
    CHECK(paused.identity.verdictWord == "in use, paused");
    const auto* check = std::get_if<report::CheckToLog>(&rowOf(paused, "due alarm_test").act);
    REQUIRE(check);
    CHECK(check->needsSecond);
    CHECK(check->asserts == "Passed, mains power");
}

TEST_CASE("a change on a unit in use says what is done one after another", "[unit]") {
    sample::Story story;
    story.ready().tell("10 12:00", "use_start", R"({"location":"ICU 2"})");
    const auto inUse = bedsideOf(sample::Scene(story, "17 09:00"));
    // By the edition the change voids the leak test alone, which does not count in use.
    CHECK(rowOf(inUse, "change_due circuit").order ==
          "In this order: pause the use, change: breathing circuit, leak test and resume the use.");
    // What is offered is the first of it.
    const auto* pause =
        std::get_if<report::PauseToLog>(&rowOf(inUse, "change_due circuit").act);
    REQUIRE(pause);
    CHECK(pause->reason == "Change: breathing circuit");
    story.tell("17 09:10", "use_pause", R"({"reason":"circuit"})");
    const auto before = bedsideOf(sample::Scene(story, "17 09:11"));
    CHECK(std::holds_alternative<report::FitToLog>(rowOf(before, "change_due circuit").act));
    // That it goes on is not offered beside what is to be done before.
    CHECK(before.rows.back().key == "resume");
    CHECK(std::holds_alternative<std::monostate>(before.rows.back().act));
    CHECK(before.rows.back().why ==
          "It goes on once that is put right. Where the patient is connected before: Other "
          "entries.");
    story.tell("17 09:11", "remove", R"({"position":"circuit"})");
    const auto paused = bedsideOf(sample::Scene(story, "17 09:20"));
    CHECK(rowOf(paused, "missing circuit").order ==
          "In this order: fit: breathing circuit, leak test and resume the use.");
    story.fit("17 09:21", "circuit", R"("lot":"4472")");
    story.pass("17 09:24", "leak", R"(,"measures":{"leak":{"value":80,"unit":"mL/min"}})");
    story.pass("17 09:25", "oxygen_cal", "");
    story.tell("17 09:26", "note", R"({"text":"seen"})");
    const auto done = bedsideOf(sample::Scene(story, "17 09:28"));
    CHECK(done.headline == "In use. Nothing stands against it meanwhile.");
    CHECK(keysOf(done, RowPart::Finding) == Keys{"resume"});
    CHECK(std::holds_alternative<report::ResumeToLog>(done.rows.back().act));
    story.tell("17 09:30", "use_end");
    for (const auto& row : bedsideOf(sample::Scene(story, "17 10:00")).rows)
        CHECK(row.order.empty());
}

TEST_CASE("a part called back on a patient is first, with what it takes", "[unit]") {
    sample::Story story;
    story.ready().tell("10 12:00", "use_start", R"({"location":"ICU 2"})");
    story.tell("17 08:00", "notice",
               R"({"key":"fa_1","title":"Leaks","action":"stop_use","match":{"lots":["4471"]}})",
               "");
    const auto inUse = bedsideOf(sample::Scene(story, "17 09:00"));
    const auto keys = keysOf(inUse, RowPart::Finding);
    REQUIRE(keys.size() > 1);
    CHECK(keys.front() == "notice fa_1");
    const auto& row = rowOf(inUse, "notice fa_1");
    CHECK(row.title == "Breathing circuit under stop-use notice: Leaks");
    CHECK(std::holds_alternative<report::PauseToLog>(row.act));
    CHECK(row.order ==
          "In this order: pause the use, change: breathing circuit, leak test and resume the use.");
    story.tell("17 09:10", "use_pause", R"({"reason":"circuit"})");
    const auto paused = bedsideOf(sample::Scene(story, "17 09:11"));
    const auto* fit = std::get_if<report::FitToLog>(&rowOf(paused, "notice fa_1").act);
    REQUIRE(fit);
    CHECK(fit->position == "circuit");
}

TEST_CASE("in use, what spoils a check is taken out before it", "[unit]") {
    sample::Story story;
    story.ready().tell("10 12:00", "remove", R"({"position":"humidifier"})");
    story.fit("10 12:01", "hme", R"("lot":"H-9","model":"Moss")");
    story.tell("10 12:10", "use_start", R"({"location":"ICU 2"})");
    story.tell("17 08:00", "notice",
               R"({"key":"fa_1","title":"Leaks","action":"stop_use","match":{"lots":["4471"]}})",
               "");
    story.pass("17 08:10", "oxygen_cal", "");
    const std::string rest =
        "take out: HME, change: breathing circuit, leak test, put back: HME and resume the use.";
    const auto inUse = bedsideOf(sample::Scene(story, "17 09:00"));
    CHECK(rowOf(inUse, "notice fa_1").order == "In this order: pause the use, " + rest);
    CHECK(keysOf(inUse, RowPart::Finding).front() == "notice fa_1");

    story.tell("17 09:10", "use_pause", R"({"reason":"circuit"})");
    story.pass("17 09:10", "oxygen_cal", "");
    const auto paused = bedsideOf(sample::Scene(story, "17 09:11"));
    auto keys = keysOf(paused, RowPart::Finding);
    REQUIRE(keys.size() > 2);
    CHECK(Keys(keys.begin(), keys.begin() + 2) == Keys{"remove hme", "notice fa_1"});
    const auto& takeOut = rowOf(paused, "remove hme");
    CHECK(takeOut.title == "Take out: HME.");
    CHECK(takeOut.why == "With it in line these would not count: leak test. It goes back after "
                         "them.");
    CHECK(takeOut.order == "In this order: " + rest);
    CHECK(rowOf(paused, "notice fa_1").order.empty());
    CHECK(std::holds_alternative<report::RemoveToLog>(takeOut.act));

    // The circuit first all the same: the HME still comes out before the test.
    auto changedFirst = story;
    changedFirst.fit("17 09:12", "circuit", R"("lot":"4480")");
    keys = keysOf(bedsideOf(sample::Scene(changedFirst, "17 09:13")), RowPart::Finding);
    CHECK(Keys(keys.begin(), keys.begin() + 2) == Keys{"remove hme", "due leak"});

    // Once it is out, it goes back after the test and not before.
    story.tell("17 09:12", "remove", R"({"position":"hme"})");
    story.fit("17 09:13", "circuit", R"("lot":"4480")");
    const auto open = bedsideOf(sample::Scene(story, "17 09:14"));
    keys = keysOf(open, RowPart::Finding);
    CHECK(Keys(keys.begin(), keys.begin() + 2) == Keys{"due leak", "missing humidification"});
    CHECK(keys.back() == "resume");
    const auto* fit = std::get_if<report::FitToLog>(&rowOf(open, "missing humidification").act);
    REQUIRE(fit);
    REQUIRE(fit->putBack);
    CHECK(fit->putBack->texts.at("lot") == "H-9");
}

TEST_CASE("a check that is wanted in use says what has to come out for it", "[unit]") {
    sample::Story story;
    story.ready().tell("10 12:00", "remove", R"({"position":"humidifier"})");
    story.fit("10 12:01", "hme", R"("lot":"H-9")");
    story.fit("10 12:02", "circuit", R"("lot":"4480")");
    story.tell("10 12:10", "use_start", R"({"emergency":true})");
    const auto inUse = bedsideOf(sample::Scene(story, "10 12:20"));
    CHECK(rowOf(inUse, "due leak").order ==
          "In this order: pause the use, take out: HME, leak test, put back: HME and resume the "
          "use.");
    CHECK(std::holds_alternative<std::monostate>(rowOf(inUse, "due leak").act));
}
