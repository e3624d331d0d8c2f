// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every field of a rulebook as it is read, and looking up by key.
#include "support/rulebook_texts.h"

#include <catch2/catch.hpp>

using namespace rules;
using logbook::Kind;
using logbook::Level;
using logbook::Reuse;
using support::hours;
using support::taken;

namespace {

using Values = std::vector<std::variant<bool, std::string>>;

constexpr Duration minutes(int count) { return {count * 60'000LL}; }
constexpr Duration days(int count) { return {count * 86'400'000LL}; }

const std::string full = R"(
format = 1
title = "Kestrel Bay, adult intensive care"
edition = "2026-2"
time_zone = "Europe/Berlin"
late_entry_after = "PT3H"
clock_tolerance = "PT4M"
max_waiver = "P10D"
confirm_every = "P14D"

[groups.pediatric]
[groups.adult]
label = { en = "Adult", es = "Adulto" }
advice = "Select the group on the screen."
par = 6

[positions.hme]
[positions.humidifier]
[positions.flow_sensor]
label = "Flow sensor"
advice = "Fit another."
required = true
required_when = { "feature.co2" = true }
match_group = true
change_after = "P7D"
change_after_use = "P3D"
reuse = "reusable"
reprocess_level = "high"
max_reprocess = 50
takes = "PT2M"
reprocess_takes = "PT40M"
reprocess_attended = "PT5M"
spare = true

[choices.humidification]
label = "Humidification"
advice = "One only."
positions = ["humidifier", "hme"]

[conflicts.wet_and_dry]
label = "Both"
advice = "Remove one."
when = { "hme.fitted" = true, "humidifier.fitted" = true }

[checks.self_test]
takes = "PT5M"
[checks.leak]
label = "Leak test"
advice = "Close the circuit."
takes = "PT3M"
attended = "PT1M"
calibrates = { metric = "flow", type = "zero" }
blocks = "start"
fail_blocks = false
waivable = true
during_use = true
needs_second = true
valid_for = "P30D"
needs = ["mains_power", "gas_supply"]
needs_match = ["flow_sensor"]
after = ["self_test"]
not_with = [
  { position = "hme", when = { "flow_sensor.layout" = "coaxial" } },
  { position = "humidifier" },
]
voided_by = [
  { event = "change hme" },
  { event = "fit hme", unless = { "hme.reuse" = ["single_use", "reusable"] } },
  { event = "fit flow_sensor", only = "new_part" },
  { event = "fit *", only = "different technology", when = { in_use = false } },
]
not_before = [
  { event = "fit flow_sensor", wait = "PT20M" },
  { event = "power_on", wait = "PT2M" },
]
[checks.leak.applies_when]
"feature.co2" = [true, false]
"hme.fitted" = true
"hme.layout" = "coaxial"
group = "adult"
in_use = false
"last_use.precautions" = true
model = ["Larch", "Rowan"]

[checks.leak.measures.rise]
unit = "cmH2O"
[checks.leak.measures.leak]
label = "Leak"
advice = "Look at the seals."
unit = "mL/min"
required = true
min = -1.5
max = { adult = 200, pediatric = 100.5 }
breach = "discount"

[services.maintenance]
label = "Maintenance"
advice = "Call biomed."
applies_when = { model = "Larch" }
every = "P2Y"
grace = "P30D"
before_first_use = true
due_after = ["clear *", "software", "service maintenance"]

[holds.incident]
label = "Incident"
advice = "Keep apart."
release_by = ["risk_manager"]
sheet = ["Do not clean.", { en = "Call.", es = "Llame." }]
[holds.cleaning]

[faults.battery_worn]
label = "Battery worn"
advice = "Replace it."
blocking = true
[faults.fan]

[authority]
clear = ["biomed", "chief"]
strike = []

[labels.roles]
biomed = "Biomedical engineer"
[labels.conditions]
gas_supply = { en = "Gas supply" }
[labels.features]
co2 = "CO2 measurement"
[labels.alarms]
technical = "Technical alarm"
)";

}  // namespace

TEST_CASE("The head of a rulebook is read", "[unit]") {
    const auto book = taken(full);
    CHECK(book->title == "Kestrel Bay, adult intensive care");
    CHECK(book->edition == "2026-2");
    CHECK(book->zone == support::zone("Europe/Berlin"));
    CHECK(book->lateEntryAfter == hours(3));
    CHECK(book->clockTolerance == minutes(4));
    CHECK(book->maxWaiver == days(10));
    CHECK(book->confirmEvery == days(14));
}

TEST_CASE("Groups and positions are read, sorted by key", "[unit]") {
    const auto book = taken(full);
    REQUIRE(book->groups.size() == 2);
    CHECK(book->groups[0].key == "adult");
    CHECK(book->groups[0].label == Localized{{"en", "Adult"}, {"es", "Adulto"}});
    CHECK(book->groups[0].advice == Localized{{"", "Select the group on the screen."}});
    CHECK(book->groups[0].par == 6);
    CHECK(book->groups[1].key == "pediatric");

    REQUIRE(book->positions.size() == 3);
    CHECK(book->positions[0].key == "flow_sensor");
    CHECK(book->positions[2].key == "humidifier");
    const auto& sensor = book->positions[0];
    CHECK(sensor.label == Localized{{"", "Flow sensor"}});
    CHECK(sensor.advice == Localized{{"", "Fit another."}});
    CHECK(sensor.required);
    REQUIRE(sensor.requiredWhen);
    REQUIRE(sensor.requiredWhen->size() == 1);
    CHECK(sensor.matchGroup);
    CHECK(sensor.changeAfter == days(7));
    CHECK(sensor.changeAfterUse == days(3));
    CHECK(sensor.reuse == Reuse::Reusable);
    CHECK(sensor.reprocessLevel == Level::High);
    CHECK(sensor.maxReprocess == 50);
    CHECK(sensor.takes == minutes(2));
    CHECK(sensor.reprocessTakes == minutes(40));
    CHECK(sensor.reprocessAttended == minutes(5));
    CHECK(sensor.spare);
}

TEST_CASE("Choices keep their order and conflicts their condition", "[unit]") {
    const auto book = taken(full);
    const auto* choice = book->choice("humidification");
    REQUIRE(choice);
    CHECK(choice->positions == std::vector<std::string>{"humidifier", "hme"});
    CHECK(choice->label.at("") == "Humidification");
    CHECK(choice->advice.at("") == "One only.");
    const auto* conflict = book->conflict("wet_and_dry");
    REQUIRE(conflict);
    CHECK(conflict->label.at("") == "Both");
    CHECK(conflict->advice.at("") == "Remove one.");
    REQUIRE(conflict->when.size() == 2);
    CHECK(conflict->when[1].kind == PathKind::Fitted);
    CHECK(conflict->when[1].name == "humidifier");
    CHECK(conflict->when[1].values == Values{true});
}

TEST_CASE("A check is read", "[unit]") {
    const auto book = taken(full);
    const auto* check = book->check("leak");
    REQUIRE(check);
    CHECK(check->label.at("") == "Leak test");
    CHECK(check->advice.at("") == "Close the circuit.");
    CHECK(check->takes == minutes(3));
    CHECK(check->attended == minutes(1));
    CHECK(check->blocks == Blocks::Start);
    CHECK_FALSE(check->failBlocks);
    CHECK(check->waivable);
    CHECK(check->duringUse);
    CHECK(check->needsSecond);
    CHECK(check->validFor == days(30));
    CHECK(check->needs == std::vector<std::string>{"mains_power", "gas_supply"});
    CHECK(check->needsMatch == std::vector<std::string>{"flow_sensor"});
    CHECK(check->after == std::vector<std::string>{"self_test"});
    REQUIRE(check->notWith.size() == 2);
    CHECK(check->notWith[0].position == "hme");
    REQUIRE(check->notWith[0].when);
    CHECK(check->notWith[0].when->front().attribute == "layout");
    CHECK(check->notWith[1].position == "humidifier");
    CHECK_FALSE(check->notWith[1].when);
    REQUIRE(check->notBefore.size() == 2);
    CHECK(check->notBefore[0].event == Event{EventKind::Fit, "flow_sensor"});
    CHECK(check->notBefore[0].wait == minutes(20));
    CHECK(check->notBefore[1].event == Event{EventKind::PowerOn, ""});
}

TEST_CASE("What voids a check is read in its order", "[unit]") {
    const auto book = taken(full);
    const auto& voidedBy = book->check("leak")->voidedBy;
    REQUIRE(voidedBy.size() == 4);
    CHECK(voidedBy[0].event == Event{EventKind::Change, "hme"});
    CHECK(voidedBy[0].only == Only::Any);
    CHECK_FALSE(voidedBy[0].when);
    CHECK_FALSE(voidedBy[0].unless);
    REQUIRE(voidedBy[1].unless);
    CHECK(voidedBy[1].unless->front().values ==
          Values{std::string("single_use"), std::string("reusable")});
    CHECK(voidedBy[2].only == Only::NewPart);
    CHECK(voidedBy[3].event == Event{EventKind::Fit, "*"});
    CHECK(voidedBy[3].only == Only::DifferentAttribute);
    CHECK(voidedBy[3].attribute == "technology");
    REQUIRE(voidedBy[3].when);
    CHECK(voidedBy[3].when->front().kind == PathKind::InUse);
}

TEST_CASE("Every path of a condition is read", "[unit]") {
    const auto book = taken(full);
    const auto& when = book->check("leak")->appliesWhen;
    REQUIRE(when.size() == 7);  // sorted by path
    CHECK(when[0].kind == PathKind::Feature);
    CHECK(when[0].name == "co2");
    CHECK(when[0].values == Values{true, false});
    CHECK(when[1].kind == PathKind::Group);
    CHECK(when[1].values == Values{std::string("adult")});
    CHECK(when[2].kind == PathKind::Fitted);
    CHECK(when[2].name == "hme");
    CHECK(when[3].kind == PathKind::Attribute);
    CHECK(when[3].name == "hme");
    CHECK(when[3].attribute == "layout");
    CHECK(when[4].kind == PathKind::InUse);
    CHECK(when[4].values == Values{false});
    CHECK(when[5].kind == PathKind::Precautions);
    CHECK(when[6].kind == PathKind::Model);
    CHECK(when[6].values == Values{std::string("Larch"), std::string("Rowan")});
}

TEST_CASE("Measures are read, sorted by key", "[unit]") {
    const auto book = taken(full);
    const auto* check = book->check("leak");
    REQUIRE(check->measures.size() == 2);
    CHECK(check->measures[0].key == "leak");
    const auto* leak = findMeasure(*check, "leak");
    REQUIRE(leak);
    CHECK(leak->label.at("") == "Leak");
    CHECK(leak->advice.at("") == "Look at the seals.");
    CHECK(leak->unit == "mL/min");
    CHECK(leak->required);
    CHECK(leak->breach == Breach::Discount);
    REQUIRE(leak->min);
    CHECK(leak->min->forAll == -1.5);
    CHECK(leak->min->byGroup.empty());
    REQUIRE(leak->max);
    CHECK_FALSE(leak->max->forAll);
    CHECK(leak->max->byGroup.at("adult") == 200);
    CHECK(leak->max->byGroup.at("pediatric") == 100.5);
    const auto* rise = findMeasure(*check, "rise");
    REQUIRE(rise);
    CHECK(rise->unit == "cmH2O");
    CHECK_FALSE(rise->required);
    CHECK_FALSE(rise->min);
    CHECK_FALSE(rise->max);
    CHECK(rise->breach == Breach::Fail);
    CHECK(findMeasure(*check, "flow") == nullptr);
}

TEST_CASE("Services, holds and faults are read", "[unit]") {
    const auto book = taken(full);
    const auto* service = book->service("maintenance");
    REQUIRE(service);
    CHECK(service->label.at("") == "Maintenance");
    CHECK(service->advice.at("") == "Call biomed.");
    REQUIRE(service->appliesWhen.size() == 1);
    CHECK(service->every == CalendarInterval{24});
    CHECK(service->graceDays == 30);
    CHECK(service->beforeFirstUse);
    CHECK(service->dueAfter == std::vector<Event>{{EventKind::Clear, "*"},
                                                  {EventKind::Software, ""},
                                                  {EventKind::Service, "maintenance"}});
    const auto* hold = book->hold("incident");
    REQUIRE(hold);
    CHECK(hold->label.at("") == "Incident");
    CHECK(hold->advice.at("") == "Keep apart.");
    CHECK(hold->releaseBy == std::vector<std::string>{"risk_manager"});
    CHECK(hold->sheet == std::vector<Localized>{{{"", "Do not clean."}},
                                                {{"en", "Call."}, {"es", "Llame."}}});
    CHECK_FALSE(book->hold("cleaning")->releaseBy);
    CHECK(book->hold("cleaning")->sheet.empty());
    CHECK(book->fault("battery_worn")->blocking == true);
    CHECK(book->fault("battery_worn")->label.at("") == "Battery worn");
    CHECK(book->fault("battery_worn")->advice.at("") == "Replace it.");
    CHECK_FALSE(book->fault("fan")->blocking);
}

TEST_CASE("Authority and labels are read", "[unit]") {
    const auto book = taken(full);
    CHECK(book->authority ==
          std::map<Kind, std::vector<std::string>>{{Kind::Clear, {"biomed", "chief"}},
                                                   {Kind::Strike, {}}});
    CHECK(book->roleLabels.at("biomed").at("") == "Biomedical engineer");
    CHECK(book->conditionLabels.at("gas_supply").at("en") == "Gas supply");
    CHECK(book->featureLabels.at("co2").at("") == "CO2 measurement");
    CHECK(book->alarmLabels.at("technical").at("") == "Technical alarm");
}

TEST_CASE("A key that the edition does not name is not found", "[unit]") {
    const auto book = taken(full);
    CHECK(book->group("adult") == &book->groups[0]);
    CHECK(book->group("") == nullptr);
    CHECK(book->group("zzz") == nullptr);
    CHECK(book->position("flow") == nullptr);
    CHECK(book->choice("hme") == nullptr);
    CHECK(book->conflict("hme") == nullptr);
    CHECK(book->check("leaks") == nullptr);
    CHECK(book->service("clean") == nullptr);
    CHECK(book->hold("x") == nullptr);
    CHECK(book->fault("fans") == nullptr);
}
