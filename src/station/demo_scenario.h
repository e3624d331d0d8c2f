// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A demo scenario: an invented hospital, its people, fleet and habits, and what goes wrong there.
// Plain data, read from TOML; days are counted back from the end of the demo.
#pragma once

#include "logbook/instant.h"
#include "station/demo_steps.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <utility>
#include <vector>

namespace station::demo {

using logbook::Duration;

template <class Item>
using ByKey = std::map<std::string, Item, std::less<>>;

struct Edition { std::string file, edition, text; int day = 0; };
struct Area { std::string bedside, prepare, store; std::vector<std::string> rooms; };
struct Person {
    std::string key, name, shift;            // day, night, office or never
    std::vector<std::string> roles, stations;  // no stations: all
    std::optional<int> untilDay;
    std::string pin;                         // at the station of the demo; none if empty
};
struct Model { std::string name, maker, software; std::vector<std::string> groups, features; };
struct Lot { std::string lot; int from = 0, to = 0; };
struct Part {
    std::string model, reuse, prefix;        // with a prefix: has serials
    std::optional<std::vector<std::string>> groups;
    ByKey<std::string> attributes;
    std::vector<Lot> lots;
    int pool = 0;                            // clean ones on the shelf on the first day
};
struct MeasureHabit {
    std::string key, unit, group;            // no group: for all
    int low = 0, high = 0, decimals = 0;
    std::optional<std::pair<int, int>> failing;
    int wears = 0;                           // per month, on a unit with `wear`
};
struct CheckHabit {
    int seconds = 30;
    std::vector<std::string> conditions;
    std::vector<MeasureHabit> measures;
};
struct Kit { std::string group; ByKey<std::string> parts; ByKey<Routine> routines; };
struct Range { int low = 0, high = 0; };
struct Life {
    Range idle, use, turnaround;             // hours
    int recheckDays = 6, midUsePerMille = 0;
    std::vector<std::string> midUse;
};
struct Mishap { std::string on, kit; int perMille = 0; Routine steps; };
struct Event {
    int day = 0, perMille = 1000;
    Duration time{}, spread{};
    std::string unit, kit, wants, lot;       // neither unit nor kit: the department's
    std::vector<std::string> each;           // one for every unit of these kits
    Routine steps;
};
struct Ending { Range hours; Routine steps; };
struct Unit {
    std::string serial, model, kit, area = "icu", life = "default", ending, owner;
    int age = 0, wear = 0, returnIn = 0;
    bool maintenance = true, commission = true;  // what biomed does for it
    std::optional<int> arrives, lastUseDay;
};
struct Clock { std::string station; int day = 0; Duration time{}, lasts{}, ahead{}; };
struct Wash {
    std::string station, role, level, loadPrefix;
    std::vector<Duration> times;
    int minutes = 0;
};
struct Round { std::string station, role; Duration time{}; int units = 0; };
struct Handover { std::string station; Duration time{}; int everyDays = 7; };
struct Chances { int precautions = 0, late = 0, slow = 0; };  // per mille

struct Scenario {
    int days = 0;
    std::string facility, department, approvedBy, openingBy, visitor;
    int clockToleranceMinutes = 6;
    std::vector<Edition> editions;           // the earliest first
    ByKey<Area> areas;
    std::vector<Person> persons;
    ByKey<std::string> writers;              // kind: role
    ByKey<Model> models;
    ByKey<Part> parts;
    ByKey<CheckHabit> checks;
    ByKey<Routine> routines;
    ByKey<Kit> kits;
    ByKey<Life> lives;
    std::vector<Mishap> mishaps;
    std::vector<Event> events;
    ByKey<Ending> endings;
    std::vector<Unit> units;
    std::vector<Clock> clocks;
    Chances chances;
    Wash wash;
    Round round;
    Handover handover;
};

// Texts by file name; `scenario` and `events` are read as one.
struct ScenarioTexts {
    std::string_view scenario, events;
    ByKey<std::string_view> rulebooks;
};

// The error lists everything that is wrong, a line each: a missing field, a step that cannot be
// read, a kit, model, part, routine or ending that is not there.
[[nodiscard]] tl::expected<Scenario, std::string> readScenario(const ScenarioTexts& texts);

}  // namespace station::demo
