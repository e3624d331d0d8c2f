// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Finding a unit or part by what was scanned, and what a press states as entries.
#include "station/bedside.h"

#include "station/correction.h"
#include "station/ward.h"

using support::utc;
using support::Ward;

namespace {

using What = station::Found::What;
using Keys = std::vector<std::string>;

station::WholeStanding standingOf(Ward& ward) {
    auto stands = station::wholeStanding(ward.surroundings, ward.logbook, {});
    REQUIRE(stands);
    return std::move(*stands);
}

station::Found found(Ward& ward, std::string_view text, const std::string& open = {}) {
    const auto stands = standingOf(ward);
    return station::find(ward.surroundings, stands, text, open);
}

report::Bedside bedsideOf(Ward& ward, const std::string& device) {
    const auto stands = standingOf(ward);
    auto made = station::bedside(ward.surroundings, stands, device);
    REQUIRE(made);
    return std::move(*made);
}

void enrol(Ward& ward, const std::string& device, const std::string& asset) {
    station::Entry entry{ward.as("mt"), "enrol", device};
    entry.body = {{"model", "Larch"},
                  {"groups", logbook::json::Array{"adult"}},
                  {"features", logbook::json::Array{}},
                  {"commissioned", "2026-01-15"},
                  {"asset", asset}};
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
}

void write(Ward& ward, const std::string& device, station::Act act) {
    const station::Doing doing{ward.as("mt"), device};
    const auto written = station::writeEntry(ward.surroundings, ward.logbook,
                                             station::entryOf(doing, std::move(act)));
    INFO((written ? "" : written.error().notice.text()));
    REQUIRE(written);
}

std::string textOf(const station::Act& act) {
    return logbook::json::canonical(logbook::json::Value(act.body));
}

report::CheckToLog leakTest() {
    report::CheckToLog check;
    check.check = "leak";
    check.label = "Leak test";
    check.conditions = {{"mains_power", "On mains power"}, {"gas_supply", "Gas connected"}};
    report::AskedMeasure leak;
    leak.key = "leak";
    leak.label = "Leak";
    leak.unit = "mL/min";
    leak.max = 200;
    check.measures = {leak};
    return check;
}

const words::Words& english() {
    return *words::Words::builtIn();
}

}  // namespace

TEST_CASE("A unit is found by serial or asset number, exactly first", "[unit]") {
    Ward ward;
    ward.found();
    enrol(ward, "KB-0001", "A-17");
    enrol(ward, "kb-0001", "A-18");
    enrol(ward, "KB-0002", "a-17");
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    CHECK(found(ward, "KB-0001").device == "KB-0001");
    CHECK(found(ward, "kb-0001").device == "kb-0001");
    CHECK(found(ward, "A-17").device == "KB-0001");
    CHECK(found(ward, "a-17").device == "KB-0002");
    CHECK(found(ward, " KB-0002\r\n").device == "KB-0002");
    CHECK(found(ward, "kb-0002").device == "KB-0002");
    const auto both = found(ward, "Kb-0001");
    CHECK(both.what == What::Units);
    CHECK(both.devices == Keys{"KB-0001", "kb-0001"});
    CHECK(both.device.empty());
    CHECK(both.sentence == "2 units go by Kb-0001. Choose one.");
}

TEST_CASE("What is not known is told with what was read", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    const auto nothing = found(ward, "\x1d" "KB-00O1\n");
    CHECK(nothing.what == What::Nothing);
    CHECK(nothing.read == "KB-00O1");
    CHECK(nothing.sentence ==
          "Read: KB-00O1. No unit, part or model of parts is known here by that.");
    CHECK(nothing.device.empty());
    CHECK(found(ward, " \r").what == What::Nothing);
    CHECK(found(ward, "").sentence.starts_with("Nothing that can be read came in."));
}

TEST_CASE("A retired unit is found after those in service", "[unit]") {
    Ward ward;
    ward.found();
    enrol(ward, "KB-0001", "A-17");
    enrol(ward, "KB-0002", "A-17");
    write(ward, "KB-0001", {"retire", {{"reason", "sold"}}});
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    CHECK(found(ward, "A-17").device == "KB-0002");
    CHECK_FALSE(found(ward, "A-17").retired);
    CHECK(found(ward, "KB-0001").retired);
    CHECK(found(ward, "KB-0001").sentence == "Unit KB-0001, retired.");
}

TEST_CASE("A part is found by serial, a kind of part by its model", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.enrol("KB-0002");
    write(ward, "KB-0001",
          station::fitOf({"circuit",
                          {{"serial", "C-9"}, {"model", "Fern 22"}, {"lot", "L1"}},
                          std::vector<std::string>{"adult"}}));
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    const auto part = found(ward, "c-9", "KB-0002");
    CHECK(part.what == What::Part);
    REQUIRE(part.parts.size() == 1);
    CHECK(part.parts[0].position == "circuit");
    CHECK_FALSE(part.parts[0].standsElsewhere.empty());
    CHECK(found(ward, "C-9", "KB-0001").parts.at(0).standsElsewhere.empty());
    const auto model = found(ward, "fern 22", "KB-0002");
    CHECK(model.what == What::Model);
    CHECK(model.parts.at(0).texts.contains("model"));
    CHECK_FALSE(model.parts.at(0).texts.contains("serial"));
    CHECK_FALSE(model.parts.at(0).texts.contains("lot"));
}

TEST_CASE("A lot is found by its parts and by notices, with where it stands", "[unit]") {
    Ward ward;
    ward.found();
    for (const auto* unit : {"KB-0001", "KB-0002"}) {
        ward.enrol(unit);
        write(ward, unit, station::fitOf({"circuit", {{"lot", "L1"}, {"model", "Fern 22"}}, {}}));
    }
    write(ward, "KB-0001", station::fitOf({"circuit", {{"lot", "L2"}}, {}}));
    write(ward, "KB-0001", station::fitOf({"circuit", {{"lot", "L3"}}, {}}));
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    const auto lot = found(ward, "L1", "KB-0001");
    CHECK(lot.what == What::Lot);
    CHECK(lot.sentence == "Lot L1: circuit.");
    REQUIRE(lot.parts.size() == 1);
    CHECK(lot.parts[0].texts.at("lot") == "L1");
    CHECK(lot.parts[0].texts.at("model") == "Fern 22");
    REQUIRE(lot.places.size() == 1);
    CHECK(lot.places[0].device == "KB-0002");
    CHECK(lot.notices.empty());
    // One that stands nowhere any more.
    const auto gone = found(ward, "L2");
    CHECK(gone.what == What::Lot);
    CHECK(gone.places.empty());
    CHECK(gone.parts.at(0).position == "circuit");
    CHECK(found(ward, "L9").what == What::Nothing);
    station::Entry notice{ward.as("mt"), "notice"};
    notice.body = {{"key", "fa_1"},
                   {"title", "Leaks"},
                   {"action", "stop_use"},
                   {"match", logbook::json::Object{{"lots", logbook::json::Array{"L1", "L9"}}}}};
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, notice));
    const Keys told{"Stop-use notice fa 1: Leaks. Do not use such a part."};
    CHECK(found(ward, "L1").notices == told);
    CHECK(found(ward, "Fern 22").notices == told);
    const auto named = found(ward, "L9");
    CHECK(named.what == What::Lot);
    CHECK(named.notices == told);
    CHECK(named.parts.empty());
    CHECK(named.sentence == "Lot L9, of which no part is known in any unit.");
    CHECK(found(ward, "L2").notices.empty());
}

TEST_CASE("A pass states the conditions its button named, and values in the edition's unit",
          "[unit]") {
    const auto check = leakTest();
    const auto pass = station::passOf(english(), check, {{"leak", 0.18, "L/min"}});
    REQUIRE(pass);
    CHECK(pass->kind == "check");
    CHECK(textOf(*pass) ==
          R"({"check":"leak","conditions":["mains_power","gas_supply"],)"
          R"("measures":{"leak":{"unit":"mL/min","value":180}},"outcome":"pass"})");
    const auto notSo = station::notSoOf(english(), check, {}, {"gas_supply"});
    REQUIRE(notSo);
    CHECK(textOf(*notSo) ==
          R"({"check":"leak","conditions":["mains_power"],"outcome":"pass"})");
    const auto failed = station::failOf(english(), check, {{"leak", 260, "mL/min"}},
                                        std::vector<std::string>{"mains_power"});
    REQUIRE(failed);
    CHECK(textOf(*failed) ==
          R"({"check":"leak","conditions":["gas_supply"],)"
          R"("measures":{"leak":{"unit":"mL/min","value":260}},"outcome":"fail"})");
    CHECK(textOf(*station::failOf(english(), check, {})) == R"({"check":"leak","outcome":"fail"})");
    CHECK(textOf(station::incompleteOf(check, {"gas_supply"})) ==
          R"({"check":"leak","conditions":["mains_power"],"outcome":"incomplete"})");
    CHECK(textOf(station::incompleteOf(check, {"mains_power", "gas_supply"})) ==
          R"({"check":"leak","outcome":"incomplete"})");
    const auto refused = station::passOf(english(), check, {{"leak", 2, "kPa"}});
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == "entry.other_dimension");
}

TEST_CASE("Parts are stated as they were corrected, what is empty is not", "[unit]") {
    report::PartProposal proposal;
    proposal.position = "circuit";
    proposal.texts = {{"model", "Fern 22"}, {"layout", "coaxial"}};
    proposal.groups = std::vector<std::string>{"adult"};
    auto part = station::statedPart(proposal);
    part.texts["lot"] = "C-1";
    part.texts["serial"] = "";
    CHECK(textOf(station::fitOf(part)) ==
          R"({"part":{"groups":["adult"],"layout":"coaxial","lot":"C-1","model":"Fern 22"},)"
          R"("position":"circuit"})");
    const auto swap = station::swapOf(part);
    REQUIRE(swap.size() == 2);
    CHECK(swap[0].kind == "remove");
    CHECK(textOf(swap[0]) == R"({"position":"circuit"})");
    CHECK(swap[1].kind == "fit");
    CHECK(textOf(station::reprocessOf({"flow_sensor"}, logbook::Level::High, "load 7")) ==
          R"({"level":"high","load":"load 7","positions":["flow_sensor"]})");
    CHECK(textOf(station::actOf(report::PowerToLog{true}).value()) == R"({"on":true})");
    CHECK(textOf(station::actOf(report::GroupToLog{"adult", "Adult"}).value()) ==
          R"({"group":"adult"})");
    CHECK_FALSE(station::actOf(leakTest()));
    CHECK_FALSE(station::actOf({}));
}

TEST_CASE("A swap is two entries of one batch, kept together", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.enrol("KB-0002");
    write(ward, "KB-0001", station::fitOf({"circuit", {{"lot", "L1"}}, {}}));
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    station::Doing doing{ward.as("mt"), "KB-0001"};
    doing.batch = station::batchName(ward.surroundings, standingOf(ward));
    doing.at = utc(2026, 3, 2, 14, 50);
    const auto entries =
        station::entriesOf(doing, station::swapOf({"circuit", {{"lot", "L2"}}, {}}));
    const auto written = station::writeTogether(ward.surroundings, ward.logbook, entries);
    INFO((written ? "" : written.error().notice.text()));
    REQUIRE(written);
    REQUIRE(written->size() == 2);
    for (const auto& each : *written) {
        CHECK(each.warnings.empty());
    }
    const auto stands = standingOf(ward);
    const auto& records = stands.log->log.records();
    const auto& last = records.at(records.size() - 1);
    const auto& before = records.at(records.size() - 2);
    CHECK(before.kind() == logbook::Kind::Remove);
    CHECK(last.kind() == logbook::Kind::Fit);
    CHECK(last.batch == doing.batch);
    CHECK(before.batch == doing.batch);
    CHECK(before.at == utc(2026, 3, 2, 14, 50));
    CHECK(last.name == written->at(1).record);
    CHECK(stands.state.device("KB-0001")->fitted.at("circuit").attributes.text("lot") == "L2");
    CHECK(station::batchName(ward.surroundings, stands) != doing.batch);
    // What was made on the wrong unit moves as a whole.
    station::Correction correction{ward.as("mt"), last.name, true, "wrong unit"};
    const auto moved =
        station::moveToUnit(ward.surroundings, ward.logbook, correction, "KB-0002");
    REQUIRE(moved);
    CHECK(moved->struck.size() == 2);
}

TEST_CASE("Of entries written together none is kept if one is refused", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    const auto before = ward.bytes();
    const station::Doing doing{ward.as("mt"), "KB-0001"};
    const auto entries = station::entriesOf(
        doing, {station::fitOf({"circuit", {}, {}}), station::fitOf({"no_such", {}, {}})});
    const auto written = station::writeTogether(ward.surroundings, ward.logbook, entries);
    REQUIRE_FALSE(written);
    CHECK(written.error().code == "entry.unknown_position");
    CHECK(standingOf(ward).state.device("KB-0001")->fitted.empty());
}

TEST_CASE("Each of several entries is held against those before it", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    const station::Doing doing{ward.as("mt"), "KB-0001"};
    const auto entries = station::entriesOf(
        doing, {station::fitOf({"circuit", {}, {}}), station::removeOf("circuit"),
                station::removeOf("circuit")});
    const auto written = station::writeTogether(ward.surroundings, ward.logbook, entries);
    REQUIRE(written);
    CHECK(written->at(1).warnings.empty());
    // Nothing is left to take out.
    CHECK(written->at(2).warnings.size() == 1);
}

TEST_CASE("What cannot be backdated is for now, whatever the session is for", "[unit]") {
    const station::Doing doing{"mt", "KB-0001", utc(2026, 3, 2, 14)};
    CHECK_FALSE(station::entryOf(doing, {"waive", {}}).at);
    CHECK(station::entryOf(doing, {"fit", {}}).at == utc(2026, 3, 2, 14));
}

TEST_CASE("A unit that was never enrolled is a problem, not a blank desk", "[unit]") {
    Ward ward;
    ward.found();
    const auto stands = standingOf(ward);
    const auto made = station::bedside(ward.surroundings, stands, "KB-0999");
    REQUIRE_FALSE(made);
    CHECK(made.error().code == "trouble.unknown_device");
}

TEST_CASE("A pass that is kept stands as done", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    const auto before = bedsideOf(ward, "KB-0001");
    REQUIRE(before.next);
    const auto* check = std::get_if<report::CheckToLog>(&before.rows[*before.next].act);
    REQUIRE(check);
    write(ward, "KB-0001", *station::passOf(english(), *check, {{"leak", 12, "mL/min"}}));
    const auto after = bedsideOf(ward, "KB-0001");
    CHECK(after.identity.verdict == rules::Verdict::Ready);
    CHECK(after.rows.at(0).part == report::RowPart::Done);
    CHECK(after.rows.at(0).who == "mt");
}
