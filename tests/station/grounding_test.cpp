// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Strikes, editions and persons are read ahead of all by an index of their own. Where that does not
// lead to one, what it strikes would be told as if it stood: no answer may.
#include "rules/people.h"
#include "station/folded_ward.h"
#include "station/log_at_hand.h"
#include "station/lost_records.h"

#include <algorithm>

using namespace support;

namespace {

void lose(const FoldedWard& ward, const RecordName& name) {
    loseFromIndex(ward.file.path, "records_that_found",
                  "station = '" + name.station + "' AND seq = " + std::to_string(name.seq));
}

bool isTold(const FoldedWard& ward, const station::Standing& standing, const RecordName& name) {
    const auto provenance = station::provenanceOf(ward.surroundings, standing);
    return provenance.devicesInDoubt.contains(device) &&
           std::ranges::any_of(provenance.problems, [&](const std::string& each) {
               return each.find(toText(name)) != std::string::npos;
           });
}

}  // namespace

TEST_CASE("a strike or an edition that was not read ahead is noticed", "[fault]") {
    const bool isStrike = GENERATE(true, false);
    CAPTURE(isStrike);
    const FoldedWard ward;
    auto log = quietLog(30);
    const auto pass = log.on(device).pass("leak");
    if (isStrike) {
        log.on(device).strike(pass);
    } else {
        log.adopt(bookOfLeak("voided_by = [{ event = \"use_end\" }]"));
    }
    const auto name = log.records().back().name;
    ward.add(log.records());
    const station::Asked now{log.records().back().at + minutes(1)};
    REQUIRE(station::provenanceOf(ward.surroundings, ward.ask(now)).problems.empty());
    SECTION("where all is folded") {
        lose(ward, name);
        CHECK(isTold(ward, ward.ask(now), name));
    }
    SECTION("behind a kept state") {
        CHECK(ward.rebuild().kept > 0);
        REQUIRE(ward.ask(now).folded < 10);
        lose(ward, name);
        CHECK(isTold(ward, ward.ask(now), name));
        CHECK_FALSE(isTold(ward, ward.ask({*now.at - minutes(30)}), name));
    }
    SECTION("by a program that goes on") {
        lose(ward, name);
        auto source = station::StandingSource::open(ward.surroundings, ward.file);
        REQUIRE(source);
        for (int time = 0; time < 2; ++time) {
            const auto standing = (*source)->ask(now);
            REQUIRE(standing);
            CHECK(isTold(ward, *standing, name));
        }
    }
    SECTION("and no state is kept that lacks it") {
        lose(ward, name);
        auto more = log;
        more.on(device).at(*now.at + minutes(600)).note();
        ward.add({more.records().back()});
        CHECK_FALSE(station::rebuild(ward.surroundings, ward.file));
    }
}

TEST_CASE("a person of before a kept state who was not read ahead is noticed", "[fault]") {
    const FoldedWard ward;
    auto log = logWith(bookOfLeak("valid_for = \"P3D\"\nvoided_by = [{ event = \"soil\" }]",
                                  "[authority]\nstrike = [\"lead\"]\n"));
    const auto lead = log.department().person("Sam", {"lead"});
    for (int hour = 0; hour < 240; ++hour) {
        log.on(device).at(when("03-03 00:00") + minutes(60 * hour)).note();
    }
    const auto pass = log.on(device).pass("leak");
    log.on(device).by("Sam").strike(pass);
    ward.add(log.records());
    CHECK(ward.rebuild().kept > 0);
    const station::Asked now{log.records().back().at + minutes(1)};
    const auto before = ward.ask(now);
    REQUIRE(before.folded < 10);
    REQUIRE(station::provenanceOf(ward.surroundings, before).problems.empty());
    const auto logbook = ward.open();
    const auto beginning = [&] {
        const auto atHand =
            station::readAtHand(ward.surroundings, ward.file, logbook, {.since = now.at});
        REQUIRE(atHand);
        return atHand->beginning;
    };
    REQUIRE(beginning() != nullptr);
    lose(ward, lead);
    SECTION("by an answer") {
        const auto standing = ward.ask(now);
        CHECK(isTold(ward, standing, lead));
        requireSame(ward, now, standing);
    }
    SECTION("by a program that goes on") {
        auto source = station::StandingSource::open(ward.surroundings, ward.file);
        REQUIRE(source);
        const auto standing = (*source)->ask(now);
        REQUIRE(standing);
        CHECK(isTold(ward, *standing, lead));
    }
    SECTION("and nothing is judged by it") {
        CHECK(beginning() == nullptr);
    }
}

TEST_CASE("a role that was taken away is not held on by what an index lacks", "[fault]") {
    const FoldedWard ward;
    auto log = quietLog(1);
    log.department().person("Sam", {"lead"});
    const auto taken = log.department().person("Sam", {"therapist"});
    ward.add(log.records());
    const auto roles = [&] {
        const auto people = station::readPeople(ward.surroundings, ward.file);
        REQUIRE(people);
        return rules::peopleAt(people->log, ward.clock.now()).persons.at("Sam").person.roles;
    };
    CHECK(roles() == Texts{"therapist"});
    lose(ward, taken);
    CHECK(roles() == Texts{"therapist"});
}
