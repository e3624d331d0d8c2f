// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The same log gives the same verdicts on every computer, so no rulebook names the zone to which
// one of them is set. Asked of this computer's own zone database.
#include "station/damaged_ward.h"
#include "station/import.h"
#include "station/rulebook_check.h"
#include "station/standing.h"
#include "station/system.h"

using namespace support;

namespace {

constexpr std::string_view ofComputer = "localtime";

std::string policyIn(std::string_view zone, std::string_view edition) {
    std::string text(Ward::policy);
    text.replace(text.find("edition = \"1\""), 13, "edition = \"" + std::string(edition) + "\"");
    text.replace(text.find("America/Chicago"), 15, zone);
    return text;
}

std::string adoptLine(std::string_view text) {
    const std::string_view instant = "2026-03-05T14:00:00Z";
    const logbook::json::Object record{
        {"station", "er-2"}, {"seq", 1},     {"at", instant},   {"entered", instant},
        {"by", "bk"},        {"device", ""}, {"kind", "adopt"},
        {"body", logbook::json::Object{{"edition", "2"}, {"text", text}}}};
    return logbook::json::canonical(record) + "\n";
}

}  // namespace

TEST_CASE("A rulebook with the zone of the computer is neither sound nor taken", "[unit]") {
    Ward ward;
    ward.surroundings.zones = station::system::systemZones();
    ward.found();
    const auto text = policyIn(ofComputer, "2");
    const auto file = ward.folder.write("local.toml", text);
    const auto before = ward.bytes();
    const auto reading = station::checkRulebook(ward.surroundings, file);
    REQUIRE(reading);
    CHECK_FALSE(reading->rulebook);
    REQUIRE(reading->faults.size() == 1);
    CHECK(reading->faults[0].code == rules::RulebookRemark::Code::BadZone);
    const auto adopted =
        station::adopt(ward.surroundings, ward.logbook, {ward.as("mt"), file});
    REQUIRE_FALSE(adopted);
    CHECK(adopted.error().code == "adopt.bad_rulebook");
    const auto imported = station::importFiles(
        ward.surroundings, ward.logbook,
        {ward.folder.write("in.jsonl", adoptLine(text))}, ward.importer());
    REQUIRE_FALSE(imported);
    CHECK(imported.error().code == "import.bad_rulebook");
    CHECK((ward.bytes() == before));
}

TEST_CASE("An edition adopted with the zone of the computer is told to be of no use", "[unit]") {
    Ward ward;
    ward.surroundings.zones = [](std::string_view name) {
        return zone(name == ofComputer ? "Europe/Berlin" : name);
    };
    ward.found();
    ward.enrol("KB-0001");
    const auto file = ward.folder.write("local.toml", policyIn(ofComputer, "2"));
    ward.clock.advance(logbook::Duration{60'000});
    REQUIRE(station::adopt(ward.surroundings, ward.logbook, {ward.as("mt"), file}));
    ward.clock.advance(logbook::Duration{60'000});
    ward.surroundings.zones = station::system::systemZones();
    const auto standing = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE_FALSE(standing);
    CHECK(standing.error().code == "trouble.bad_rulebook");
    CHECK_THAT(standing.error().notice.says, Catch::Contains("icu-1/4 cannot be used"));
    REQUIRE(standing.error().details.size() == 1);
    CHECK_THAT(standing.error().details[0], Catch::Contains("\"localtime\" is unknown"));
    CHECK(codeOf(ward, {"mt", "use_start", "KB-0001"}) == "");
}
