// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a field notice concerns is told when it is recorded and before: a slip in it is seen.
#include "station/notice_reach.h"

#include "station/ward.h"

using support::Ward;

namespace {

namespace json = logbook::json;

station::Entry noticeOf(Ward& ward, json::Object match) {
    station::Entry entry{ward.as("mt"), "notice"};
    entry.body = {{"key", "fa_1"},
                  {"title", "Leaks"},
                  {"action", "stop_use"},
                  {"match", std::move(match)}};
    return entry;
}

void fit(Ward& ward, const std::string& device, json::Object part) {
    station::Entry entry{ward.as("mt"), "fit", device};
    entry.body = {{"position", "circuit"}, {"part", std::move(part)}};
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
}

using Lines = std::vector<std::string>;

// Before it is recorded, and then the same.
station::NoticeReach reachOf(Ward& ward, const json::Object& match) {
    const auto before =
        station::noticeOutlook(ward.surroundings, ward.logbook, noticeOf(ward, match));
    REQUIRE(before);
    const auto written =
        station::writeEntry(ward.surroundings, ward.logbook, noticeOf(ward, match));
    REQUIRE(written);
    CHECK(written->meaning == before->told);
    CHECK(written->warnings == before->warnings);
    return *before;
}

}  // namespace

TEST_CASE("A notice tells what it concerns now", "[unit]") {
    Ward ward;
    ward.found();
    for (const auto* unit : {"KB-0001", "KB-0002", "KB-0003"}) ward.enrol(unit);
    fit(ward, "KB-0001", {{"lot", "L7"}, {"serial", "4711"}, {"model", "Fern 2"}});
    fit(ward, "KB-0002", {{"lot", "L7"}});
    fit(ward, "KB-0003", {{"lot", "L7"}, {"serial", "4712"}});
    fit(ward, "KB-0003", {{"lot", "L8"}});
    const auto& words = ward.surroundings.words;
    const auto parts = [&](const char* units, const char* fits, const char* kept) {
        return Lines{words.say("notice_reach.parts",
                               {{"units", units}, {"fits", fits}, {"kept", kept}})};
    };
    const auto lot = reachOf(ward, {{"position", "circuit"}, {"lots", json::Array{"L7"}}});
    CHECK(lot.told == parts("2", "2", "1"));
    CHECK(lot.warnings.empty());
    const auto model = reachOf(ward, {{"part_models", json::Array{"Fern 2", "Fern 3"}}});
    CHECK(model.told == parts("1", "1", "0"));
    CHECK(model.warnings == Lines{words.say("notice_reach.strange_part_models",
                                            {{"models", "\"Fern 3\""}})});
    const auto units = reachOf(ward, {{"devices", json::Array{"KB-0001", "KB-0002"}}});
    CHECK(units.told == Lines{words.say("notice_reach.units", {{"units", "2"}})});
    CHECK(units.warnings.empty());
}

TEST_CASE("A notice with a slip in it says that it concerns nothing, and is kept", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    fit(ward, "KB-0001", {{"lot", "L7"}});
    const auto& words = ward.surroundings.words;
    const auto nothing = words.say("notice_reach.nothing");
    CHECK(reachOf(ward, {{"lots", json::Array{"L77"}}}).warnings == Lines{nothing});
    const auto position = reachOf(ward, {{"position", "cicruit"}});
    CHECK(position.told.empty());
    REQUIRE(position.warnings.size() == 2);
    CHECK(position.warnings[0] == nothing);
    CHECK(position.warnings[1].find("\"cicruit\"") != std::string::npos);
    const auto model = reachOf(ward, {{"device_models", json::Array{"Larhc"}}});
    CHECK(model.warnings == Lines{nothing, words.say("notice_reach.strange_unit_models",
                                                     {{"models", "\"Larhc\""}})});
    auto cancelled = noticeOf(ward, {{"lots", json::Array{"L77"}}});
    cancelled.body.emplace_back("cancelled", true);
    const auto written = station::writeEntry(ward.surroundings, ward.logbook, cancelled);
    REQUIRE(written);
    CHECK(written->warnings.empty());
}

TEST_CASE("Before it is recorded a notice is refused as when it is", "[unit]") {
    Ward ward;
    ward.found();
    const auto codeOf = [&](const station::Entry& entry) {
        const auto looked = station::noticeOutlook(ward.surroundings, ward.logbook, entry);
        return looked ? "" : looked.error().code;
    };
    const auto before = ward.bytes();
    CHECK(codeOf(noticeOf(ward, {{"lots", json::Array{}}})) == "entry.empty_match");
    CHECK(codeOf(noticeOf(ward, {{"lotz", json::Array{"L7"}}})) == "entry.unknown_match");
    CHECK(codeOf(noticeOf(ward, {{"lots", "L7"}})) == "entry.bad_record");
    CHECK(codeOf({ward.as("mt"), "note", "KB-0001", {{"text", "Seen"}}}) == "entry.only_notice");
    CHECK((ward.bytes() == before));
}
