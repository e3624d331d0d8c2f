// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Answers that look for some records of a logbook in which others cannot be read: that there may be
// more is told, though a kept state knows all that they did.
#include "station/answers.h"
#include "station/bedside.h"
#include "station/clock_doubt.h"
#include "station/correction.h"
#include "station/damaged_ward.h"
#include "station/fleet_list.h"
#include "station/log_at_hand.h"
#include "station/model_log.h"
#include "station/waiting_log.h"

using namespace support;

namespace {

station::Standing standingOf(Ward& ward) {
    auto standing = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(standing);
    return *std::move(standing);
}

}  // namespace

TEST_CASE("A list tells of units that may be enrolled where it cannot be read", "[fault]") {
    Ward ward;
    fill(ward);
    const auto list =
        ward.folder.write("fleet.csv", "serial,model,groups,features,commissioned\n"
                                       "KB-0002,Larch,adult,,2026-03-02\n"
                                       "KB-0003,Larch,adult,,2026-03-02\n");
    const auto preview = [&] {
        auto found = station::previewFleet(ward.surroundings, ward.logbook, {list});
        REQUIRE(found);
        return *std::move(found);
    };
    const auto before = preview();
    REQUIRE(before.good.size() == 1);
    CHECK(before.good[0].remarks.empty());
    CHECK(before.refused.size() == 1);
    zeroLeaf(ward, ofKb2);
    const auto after = preview();
    REQUIRE(after.good.size() == 2);
    for (const auto& unit : after.good) {
        CHECK(unit.remarks ==
              std::vector<std::string>{ward.surroundings.words.say("fleet.may_be_enrolled")});
    }
}

TEST_CASE("Fits of a model that cannot be read are not told as none", "[fault]") {
    Ward ward;
    fill(ward);
    station::Entry fit{ward.as("mt"), "fit", "KB-0001"};
    fit.body = {{"position", "circuit"}, {"part", logbook::json::Object{{"lot", "L5822"}}}};
    REQUIRE(codeOf(ward, fit) == "");
    keepStates(ward);
    const auto before = standingOf(ward);
    station::ModelLog models;
    const auto unreadOf = [&] {
        const auto found = models.of(ward.surroundings, ward.logbook, before, "L5822");
        REQUIRE(found);
        return (*found)->facts.unread.size();
    };
    CHECK(unreadOf() == 0);
    zeroLeaf(ward, "L5822");
    models = {};
    CHECK(unreadOf() > 0);
}

TEST_CASE("Entries that wait and cannot be read are not told as none", "[fault]") {
    Ward ward;
    fill(ward);
    keepStates(ward);
    const auto standing = standingOf(ward);
    const auto waiting = [&] {
        station::WaitingLog log;
        auto found = log.of(ward.surroundings, ward.logbook, standing, "mt");
        REQUIRE(found);
        return *std::move(found);
    };
    CHECK(waiting().entries.size() == 2);
    CHECK(waiting().doubts.empty());
    zeroLeaf(ward, ofKb2);
    CHECK(waiting().entries.size() == 1);
    CHECK_FALSE(waiting().doubts.empty());
}

TEST_CASE("A session of which entries cannot be read is not shown as whole", "[fault]") {
    Ward ward;
    fill(ward);
    const auto record = [&](const std::string& text) {
        station::Entry note{ward.as("mt"), "note", "KB-0001", {{"text", text}}};
        note.batch = "S1";
        const auto written = station::writeEntry(ward.surroundings, ward.logbook, note);
        REQUIRE(written);
        return written->record;
    };
    record("first of the session");
    keepStates(ward);
    const auto last = record("last of the session");
    const auto standing = standingOf(ward);
    const auto lines = [&] {
        return station::linesToCorrect(ward.surroundings, ward.logbook, standing,
                                       {ward.as("mt"), last, true}, false);
    };
    REQUIRE(lines());
    CHECK(lines()->size() == 2);
    zeroLeaf(ward, "first of the session");
    const auto some = lines();
    REQUIRE_FALSE(some);
    CHECK(some.error().code == "correction.batch_unread");
}

TEST_CASE("A log whose latest time cannot be read is not taken for whole", "[fault]") {
    Ward ward;
    fill(ward);
    keepStates(ward);
    REQUIRE(codeOf(ward, {"mt", "use_start", "KB-0001"}) == "");
    const auto read = [&] {
        const auto logbook =
            station::openLogbook(ward.surroundings, ward.logbook, station::Access::Read);
        REQUIRE(logbook);
        auto log = station::readAtHand(ward.surroundings, ward.logbook, *logbook,
                                       {{"KB-0001"}, {}, ward.clock.now()});
        REQUIRE(log);
        return *std::move(log);
    };
    CHECK(read().beginning != nullptr);
    zeroLeaf(ward, ofKb2);
    CHECK_FALSE(read().unread.empty());
}

TEST_CASE("A notice, a unit or a code is not said not to be there where it cannot be read",
          "[fault]") {
    Ward ward;
    fill(ward);
    const auto told = [&] {
        const auto whole = station::wholeStanding(ward.surroundings, ward.logbook, {});
        REQUIRE(whole);
        const auto trace =
            station::trace(ward.surroundings, *whole, {rules::TraceBy::Notice, "fa_1"});
        REQUIRE_FALSE(trace);
        const auto bedside = station::bedside(ward.surroundings, *whole, "KB-0009");
        REQUIRE_FALSE(bedside);
        return std::vector<std::string>{
            trace.error().details.empty() ? "certain" : "in doubt", bedside.error().code,
            station::find(ward.surroundings, *whole, "5822").sentence,
            station::find(ward.surroundings, *whole, "4711").sentence,
            station::find(ward.surroundings, *whole, "KB-0001").sentence};
    };
    const auto before = told();
    const auto& words = ward.surroundings.words;
    CHECK(before[0] == "certain");
    CHECK(before[1] == "trouble.unknown_device");
    CHECK(before[2] == words.say("bedside.found_nothing", {{"text", "5822"}}));
    zeroLeaf(ward, ofKb2);
    const auto after = told();
    CHECK(after[0] == "in doubt");
    CHECK(after[1] == "trouble.unknown_device_damaged");
    CHECK(after[2] == words.say("bedside.found_nothing_read", {{"text", "5822"}}));
    CHECK(after[3] == before[3] + " " + words.say("bedside.found_may_be_more"));
    CHECK(after[4] == before[4]);
}
