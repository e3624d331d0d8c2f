// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The list of people tells how each signs in here, and the list of imports who brought in what.
#include "station/people_list.h"

#include "station/import.h"
#include "station/imports_list.h"
#include "station/people.h"
#include "station/ward.h"

#include <algorithm>

using station::PinHere;
using support::noteLine;
using support::secretOf;
using support::utc;
using support::Ward;

namespace {

station::ListedPerson listed(const Ward& ward, std::string_view person) {
    const auto list = station::peopleOf(ward.surroundings, ward.logbook);
    REQUIRE(list);
    const auto found = std::ranges::find(list->people, person, &station::ListedPerson::person);
    REQUIRE(found != list->people.end());
    return *found;
}

void fail(Ward& ward, const std::string& person, int times) {
    for (int index = 0; index < times; ++index) {
        CHECK_FALSE(station::signIn(ward.surroundings, ward.logbook, person, secretOf("999999")));
        ward.clock.advance({61'000});
    }
}

void addPerson(Ward& ward, logbook::json::Object body) {
    station::Entry entry{ward.as("mt"), "person"};
    entry.body = std::move(body);
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
}

}  // namespace

TEST_CASE("Each person is listed with roles, last day, PIN and badge", "[unit]") {
    Ward ward;
    ward.found();
    ward.person("bk", "biomed");
    addPerson(ward, {{"person", "aq"},
                     {"name", "Alma Quill"},
                     {"roles", logbook::json::Array{"biomed", "lead"}},
                     {"until", "2026-03-04"}});
    REQUIRE(station::setBadge(ward.surroundings, ward.logbook, {ward.as("mt"), "bk", "004271"}));
    const auto list = station::peopleOf(ward.surroundings, ward.logbook);
    REQUIRE(list);
    CHECK(list->station == "icu-1");
    CHECK_FALSE(list->unopened);
    REQUIRE(list->people.size() == 3);
    const auto& quill = list->people[0];
    CHECK(quill.name == "Alma Quill");
    CHECK(quill.roles == std::vector<std::string>{"biomed", "lead"});
    CHECK(quill.roleLabels == std::vector<std::string>{"biomed", "lead"});
    CHECK(quill.untilText == "4 Mar 2026");
    CHECK(quill.isKnown);
    CHECK(quill.pin == PinHere::None);
    CHECK_FALSE(quill.hasBadge);
    CHECK(list->people[1].hasBadge);
    CHECK(list->people[2].pin == PinHere::Set);
    CHECK_FALSE(list->people[2].waitsUntil);
    CHECK_FALSE(list->people[2].until);
}

TEST_CASE("Who has left stays in the list, from the day after the last", "[unit]") {
    Ward ward;
    ward.found();
    addPerson(ward, {{"person", "aq"},
                     {"name", "Alma Quill"},
                     {"roles", logbook::json::Array{"lead"}},
                     {"until", "2026-03-04"}});
    // America/Chicago is six hours behind.
    ward.clock.set(utc(2026, 3, 5, 5, 59));
    CHECK(listed(ward, "aq").isKnown);
    CHECK(listed(ward, "aq").isManager);
    ward.clock.set(utc(2026, 3, 5, 6));
    CHECK_FALSE(listed(ward, "aq").isKnown);
    CHECK_FALSE(listed(ward, "aq").isManager);
}

TEST_CASE("A PIN that waits and one that is locked are told apart", "[unit]") {
    Ward ward;
    ward.found();
    ward.person("bk", "biomed");
    ward.as("bk");
    fail(ward, "bk", 3);
    CHECK(listed(ward, "bk").pin == PinHere::Set);
    CHECK(listed(ward, "bk").wrongPins == 3);
    CHECK_FALSE(listed(ward, "bk").waitsUntil);
    CHECK_FALSE(station::signIn(ward.surroundings, ward.logbook, "bk", secretOf("999999")));
    CHECK(listed(ward, "bk").waitsUntil == ward.clock.now() + logbook::Duration{8000});
    ward.clock.advance({8000});
    CHECK_FALSE(listed(ward, "bk").waitsUntil);
    fail(ward, "bk", 6);
    CHECK(listed(ward, "bk").pin == PinHere::Locked);
    CHECK_FALSE(listed(ward, "bk").waitsUntil);
    CHECK(listed(ward, "mt").pin == PinHere::Set);
}

TEST_CASE("A PIN of somebody whom the log does not know is listed too", "[unit]") {
    Ward ward;
    ward.found();
    REQUIRE(store::Credentials(ward.logbook.path)
                .setPin("zz", support::testPin, {"mt", ward.clock.now()}));
    const auto stranger = listed(ward, "zz");
    CHECK_FALSE(stranger.isKnown);
    CHECK(stranger.name.empty());
    CHECK(stranger.pin == PinHere::Set);
}

TEST_CASE("In a log without an edition nobody is known, and looking writes nothing", "[unit]") {
    Ward ward;
    REQUIRE(station::foundStation(ward.surroundings, ward.logbook, "icu-1"));
    const auto before = ward.bytes();
    const auto list = station::peopleOf(ward.surroundings, ward.logbook);
    REQUIRE(list);
    CHECK(list->people.empty());
    CHECK(list->unopened);
    CHECK(station::importsOf(ward.surroundings, ward.logbook)->empty());
    CHECK((ward.bytes() == before));
    const station::LogbookFile none{ward.folder.file("none.logbook")};
    CHECK_FALSE(station::peopleOf(ward.surroundings, none));
    CHECK_FALSE(station::importsOf(ward.surroundings, none));
}

TEST_CASE("Imports are listed in their order, with who brought in what", "[unit]") {
    Ward ward;
    const auto bringIn = [&](std::string_view name, const std::string& bytes) {
        return station::importFiles(ward.surroundings, ward.logbook,
                                    {ward.folder.write(name, bytes)}, ward.importer());
    };
    REQUIRE(bringIn("first.jsonl", noteLine("er-2", 1)));
    const auto before = station::importsOf(ward.surroundings, ward.logbook);
    REQUIRE(before);
    REQUIRE(before->size() == 1);
    CHECK(before->front().person == "desk");
    CHECK(before->front().when == "2026-03-02T14:00:00Z");
    ward.found();
    ward.clock.advance({3'600'000});
    REQUIRE(bringIn("second.jsonl", noteLine("er-2", 1) + noteLine("er-2", 2)));
    CHECK_FALSE(bringIn("gap.jsonl", noteLine("er-2", 9)));
    const auto list = station::importsOf(ward.surroundings, ward.logbook);
    REQUIRE(list);
    REQUIRE(list->size() == 2);
    const auto& second = list->back();
    CHECK(second.files == "second.jsonl");
    CHECK(second.person == "mt");
    CHECK(second.name == "mt");
    CHECK(second.added == 1);
    CHECK(second.skipped == 1);
    CHECK(second.at == utc(2026, 3, 2, 15));
    CHECK(second.when == "2 Mar 09:00");
    CHECK(list->front().when == "2 Mar 08:00");
}
