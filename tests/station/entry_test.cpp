// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Entries of the own station: what they become, and what is refused without a trace.
#include "station/entry.h"

#include "station/answers.h"
#include "station/correction.h"
#include "station/upkeep.h"
#include "station/ward.h"

using support::utc;
using support::Ward;

namespace {

namespace json = logbook::json;

void refused(Ward& ward, const station::Entry& entry, std::string_view code) {
    const auto before = ward.bytes();
    const auto written = station::writeEntry(ward.surroundings, ward.logbook, entry);
    REQUIRE_FALSE(written);
    CHECK(written.error().code == code);
    CHECK(written.error().weight == station::Problem::Weight::Input);
    CHECK_FALSE(written.error().notice.says.empty());
    CHECK_FALSE(written.error().notice.safe.empty());
    CHECK_FALSE(written.error().notice.action.empty());
    CHECK((ward.bytes() == before));
}

logbook::Record lastRecord(const Ward& ward) {
    const auto logbook =
        station::openLogbook(ward.surroundings, ward.logbook, station::Access::Read);
    REQUIRE(logbook);
    auto records = logbook->records();
    REQUIRE(records);
    return records->records.back();
}

}  // namespace

TEST_CASE("An entry becomes the next record of the station, written down now", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    station::Entry entry{ward.as("mt"), "check", "KB-0001"};
    entry.body = {{"check", "leak"}, {"outcome", "pass"}};
    entry.at = utc(2026, 3, 2, 14, 30);
    entry.doneBy = "rs";
    entry.witness = "bk";
    REQUIRE(station::downtimeForms(ward.surroundings, ward.logbook, 3));
    entry.form = "icu-1-F3";
    entry.batch = "b1";
    const auto written = station::writeEntry(ward.surroundings, ward.logbook, entry);
    REQUIRE(written);
    CHECK(written->record == logbook::RecordName{"icu-1", 4});
    CHECK(written->warnings.size() == 2);  // the log knows neither rs nor bk
    CHECK(lastRecord(ward).content ==
          R"({"at":"2026-03-02T14:30:00Z","batch":"b1","body":{"check":"leak","outcome":"pass"},)"
          R"("by":"mt","device":"KB-0001","done_by":"rs","entered":"2026-03-02T15:00:00Z",)"
          R"("form":"icu-1-F3","kind":"check","seq":4,"station":"icu-1","witness":"bk"})");
}

TEST_CASE("An entry is about now unless it says otherwise", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    REQUIRE(ward.check("KB-0001", "pass"));
    CHECK(lastRecord(ward).at == ward.clock.now());
    CHECK(lastRecord(ward).entered == ward.clock.now());
}

TEST_CASE("Nothing is written before the station has its name", "[unit]") {
    Ward ward;
    ward.folder.write("er.jsonl", support::noteLine("er-2", 1));
    REQUIRE(store::Logbook::open(ward.logbook.path, {store::OpenOptions::Access::Create}));
    station::Entry entry{ward.as("mt"), "note", "KB-0001"};
    entry.body = {{"text", "Seen"}};
    refused(ward, entry, "trouble.no_station");
}

TEST_CASE("Keys that the edition does not name are refused", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    station::Entry entry{ward.as("mt"), "fit", "KB-0001"};
    entry.body = {{"position", "valve"}, {"part", json::Object{}}};
    refused(ward, entry, "entry.unknown_position");
    entry.kind = "remove";
    entry.body = {{"position", "valve"}};
    refused(ward, entry, "entry.unknown_position");
    entry.kind = "reprocess";
    entry.body = {{"positions", json::Array{"circuit", "valve"}}, {"level", "high"}};
    refused(ward, entry, "entry.unknown_position");
    entry.kind = "check";
    entry.body = {{"check", "leek"}, {"outcome", "pass"}};
    refused(ward, entry, "entry.unknown_check");
    entry.kind = "service";
    entry.body = {{"service", "weekly"}, {"outcome", "pass"}};
    refused(ward, entry, "entry.unknown_service");
    entry.kind = "group";
    entry.body = {{"group", "pediatric"}};
    refused(ward, entry, "trouble.unknown_group");
}

TEST_CASE("A use for a group that the edition does not name is kept, and that is told", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    station::Entry entry{ward.as("mt"), "use_start", "KB-0001"};
    entry.body = {{"group", "zzz"}};
    const auto written = station::writeEntry(ward.surroundings, ward.logbook, entry);
    REQUIRE(written);
    REQUIRE_FALSE(written->warnings.empty());
    CHECK(written->warnings.front() ==
          "The policy edition has no patient group \"zzz\", so the unit was ready for none such. "
          "It has: adult. The start is recorded all the same.");
}

TEST_CASE("A measure of another dimension is refused, one that converts is not", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    station::Entry entry{ward.as("mt"), "check", "KB-0001"};
    const auto withUnit = [](const char* unit) {
        return json::Object{
            {"check", "leak"},
            {"outcome", "pass"},
            {"measures",
             json::Object{{"leak", json::Object{{"value", 0.1}, {"unit", unit}}},
                          {"other", json::Object{{"value", 1}, {"unit", "hPa"}}}}}};
    };
    entry.body = withUnit("hPa");
    refused(ward, entry, "entry.other_dimension");
    entry.body = withUnit("L/min");
    CHECK(station::writeEntry(ward.surroundings, ward.logbook, entry));
}

TEST_CASE("Who may not write is refused, and who may is named", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    station::Entry entry{ward.as("mt"), "clear", "KB-0001"};
    entry.body = {{"code", "display"}};
    refused(ward, entry, "refusal.roles");
    const auto written = station::writeEntry(ward.surroundings, ward.logbook, entry);
    CHECK(written.error().notice.action.find("biomed") != std::string::npos);
    ward.person("rs", "biomed");
    entry.by = ward.as("rs");
    CHECK(station::writeEntry(ward.surroundings, ward.logbook, entry));
}

TEST_CASE("A unit that is not enrolled takes a start of use, and little else", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    station::Entry entry{ward.as("mt"), "power", "KB-0999"};
    entry.body = {{"on", true}};
    refused(ward, entry, "entry.unknown_device");
    station::Entry retire{ward.as("mt"), "retire", "KB-0001"};
    retire.body = {{"reason", "Sold"}};
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, retire));
    entry.device = "KB-0001";
    refused(ward, entry, "entry.retired_device");
    for (const auto* device : {"KB-0999", "KB-0001"}) {
        const auto started = station::writeEntry(ward.surroundings, ward.logbook,
                                                 {ward.as("mt"), "use_start", device});
        REQUIRE(started);
        CHECK(started->warnings.size() == 1);
    }
}

TEST_CASE("What breaks the format is refused with each fault", "[unit]") {
    Ward ward;
    ward.found();
    station::Entry entry{ward.as("mt"), "note", ""};
    refused(ward, entry, "entry.bad_record");
    entry = {ward.as("mt"), "note", "KB-0001"};
    entry.body = {{"text", "Seen"}};
    entry.at = ward.clock.now() + logbook::Duration{1000};
    refused(ward, entry, "entry.bad_record");
    entry.at = {};
    entry.kind = "levitate";
    refused(ward, entry, "entry.bad_record");
}

TEST_CASE("Without an edition only what never waits is taken", "[unit]") {
    Ward ward;
    REQUIRE(station::foundStation(ward.surroundings, ward.logbook, "icu-1"));
    station::Entry entry{"mt", "check", "KB-0001"};
    entry.body = {{"check", "leak"}, {"outcome", "pass"}};
    refused(ward, entry, "sign_in.nobody");
    entry.kind = "soil";
    entry.body = {{"reason", "Splash"}};
    CHECK(station::writeEntry(ward.surroundings, ward.logbook, entry));
}

TEST_CASE("A deviation that may not be permitted is refused", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    station::Entry entry{ward.as("mt"), "waive", "KB-0001"};
    entry.body = {{"finding", "due"},
                  {"subject", "leak"},
                  {"until", "2026-03-03T14:00:00Z"},
                  {"reason", "Trial"}};
    refused(ward, entry, "entry.waiver_refused");
    entry.body = {{"finding", "service_overdue"},
                  {"subject", "yearly"},
                  {"until", "2026-03-03T14:00:00Z"},
                  {"reason", "Trial"}};
    CHECK(station::writeEntry(ward.surroundings, ward.logbook, entry));
}

TEST_CASE("A strike names its unit itself and is refused where it would do nothing", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    REQUIRE(ward.check("KB-0001", "pass"));
    const auto struckThrough = [&](std::int64_t seq) {
        return station::strikeTogether(ward.surroundings, ward.logbook,
                                       {ward.as("mt"), {"icu-1", seq}, false, "Wrong"});
    };
    const auto before = ward.bytes();
    CHECK(struckThrough(99).error().code == "entry.no_target");
    CHECK(struckThrough(1).error().code == "entry.not_strikable");
    CHECK((ward.bytes() == before));
    REQUIRE(struckThrough(4));
    CHECK(lastRecord(ward).device == "KB-0001");
    CHECK(struckThrough(4).error().code == "entry.struck_already");
    CHECK(struckThrough(5).error().code == "entry.not_strikable");
}

TEST_CASE("An attempt that does not count is recorded, and that is said", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const auto written = ward.check("KB-0001", "incomplete");
    REQUIRE(written);
    CHECK(written->warnings.size() == 1);
    CHECK(ward.check("KB-0001", "pass")->warnings.empty());
}

TEST_CASE("A clock behind the last entry is told", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.clock.moveTo(utc(2026, 3, 2, 13));
    station::Entry entry{ward.as("mt"), "note", "KB-0001"};
    entry.body = {{"text", "Seen"}};
    const auto written = station::writeEntry(ward.surroundings, ward.logbook, entry);
    REQUIRE(written);
    CHECK(written->warnings.size() == 1);
}

TEST_CASE("A rulebook is adopted whole, or refused with all its faults", "[unit]") {
    Ward ward;
    ward.found();
    ward.person("rs", "biomed");
    const auto robin = ward.as("rs");
    const auto before = ward.bytes();
    const auto faulty = ward.folder.write("faulty.toml", "format = 1\ntitle = \"T\"\n");
    const auto refusedAdoption =
        station::adopt(ward.surroundings, ward.logbook, {ward.as("mt"), faulty});
    REQUIRE_FALSE(refusedAdoption);
    CHECK(refusedAdoption.error().code == "adopt.bad_rulebook");
    CHECK(refusedAdoption.error().details.size() == 3);
    const auto missing = station::adopt(ward.surroundings, ward.logbook,
                                        {ward.as("mt"), ward.folder.file("none.toml")});
    CHECK(missing.error().code == "file.not_found");
    CHECK(station::adopt(ward.surroundings, ward.logbook, {robin, ward.folder.file("policy.toml")})
              .error()
              .code == "refusal.roles");
    CHECK((ward.bytes() == before));
    const auto adopted =
        station::adopt(ward.surroundings, ward.logbook,
                       {ward.as("mt"), ward.folder.file("policy.toml"), "Rowan", "Respiratory",
                        "Kestrel"});
    REQUIRE(adopted);
    CHECK(adopted->edition == "1");
    const auto record = lastRecord(ward);
    CHECK(std::get<logbook::body::Adopt>(record.body).text == Ward::policy);
    CHECK(record.content.find(R"("approved_by":"Rowan","department":"Respiratory")") !=
          std::string::npos);
}

TEST_CASE("A notice names what it concerns by fields that are known, and by no other", "[unit]") {
    Ward ward;
    ward.found();
    const auto notice = [&](json::Object match) {
        return station::Entry{ward.as("mt"), "notice", "",
                              {{"key", "fa_1"}, {"title", "Leaks"}, {"action", "stop_use"},
                               {"match", std::move(match)}}};
    };
    refused(ward, notice({{"lotz", json::Array{"L7"}}}), "entry.unknown_match");
    refused(ward, notice({{"lots", json::Array{"L7"}}, {"serial", "S-1"}}), "entry.unknown_match");
    refused(ward, notice({{"position", "circuit"}, {"lots", json::Array{}}}),
            "entry.empty_match");
    CHECK(station::writeEntry(ward.surroundings, ward.logbook, notice({})));
    CHECK(station::writeEntry(ward.surroundings, ward.logbook,
                              notice({{"position", "circuit"}, {"lots", json::Array{"L7"}}})));
}
