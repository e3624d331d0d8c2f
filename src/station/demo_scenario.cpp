// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// TOML to a scenario, and whether what it names is there.
#include "station/demo_scenario.h"

#include "station/demo_table.h"

namespace station::demo {

namespace {

Person personOf(const Table& table) {
    Person person{table.text("key"), table.text("name"), table.text("shift"),
                  table.textsOr("roles"), table.textsOr("stations"), std::nullopt,
                  table.textOr("pin", "")};
    if (table.has("until_day")) {
        person.untilDay = table.number("until_day");
    }
    return person;
}

Part partOf(const Table& table) {
    Part part;
    part.model = table.text("model");
    part.reuse = table.text("reuse");
    part.prefix = table.textOr("prefix", "");
    part.pool = table.numberOr("pool", 0);
    part.attributes = table.textTable("attributes");
    if (table.has("groups")) {
        part.groups = table.textsOr("groups");
    }
    table.eachOf("lots", [&](const Table& lot) {
        part.lots.push_back({lot.text("lot"), lot.number("from"), lot.number("to")});
    });
    if (part.prefix.empty() && part.lots.empty()) {
        table.fault("lots", "a part without a prefix needs lots");
    }
    return part;
}

CheckHabit checkOf(const Table& table) {
    CheckHabit check{table.number("seconds"), table.textsOr("conditions"), {}};
    table.eachOf("measures", [&](const Table& row) {
        MeasureHabit measure{row.text("key"), row.text("unit"), row.textOr("group", ""),
                             row.number("low"), row.number("high"), row.numberOr("decimals", 0),
                             std::nullopt, row.numberOr("wears", 0)};
        if (row.has("failing")) {
            const Range failing = row.range("failing");
            measure.failing.emplace(failing.low, failing.high);
        }
        check.measures.push_back(std::move(measure));
    });
    return check;
}

ByKey<Routine> routinesOf(const Table& table, bool all) {
    ByKey<Routine> routines;
    for (const auto& [key, value] : table.raw()) {
        if (all || value.is_array()) {
            routines.emplace(key.str(), table.steps(key.str()));
        }
    }
    return routines;
}

Life lifeOf(const Table& table) {
    return {table.range("idle"), table.range("use"), table.range("turnaround"),
            table.number("recheck_days"), table.number("mid_use_per_mille"),
            table.textsOr("mid_use")};
}

Event eventOf(const Table& table) {
    Event event;
    event.day = table.number("day");
    event.perMille = table.numberOr("per_mille", 1000);
    event.time = table.timeOfDay("time");
    event.spread = table.durationOr("spread");
    event.unit = table.textOr("unit", "");
    event.kit = table.textOr("kit", "");
    event.wants = table.textOr("wants", "any");
    event.lot = table.textOr("lot", "");
    event.each = table.textsOr("each");
    event.steps = table.steps("steps");
    return event;
}

Unit unitOf(const Table& table) {
    Unit unit;
    unit.serial = table.text("serial");
    unit.model = table.text("model");
    unit.kit = table.text("kit");
    unit.area = table.textOr("area", unit.area);
    unit.life = table.textOr("life", unit.life);
    unit.ending = table.text("ending");
    unit.owner = table.textOr("owner", "");
    unit.age = table.number("age");
    unit.wear = table.numberOr("wear", 0);
    unit.returnIn = table.numberOr("return_in", 0);
    unit.maintenance = table.truthOr("maintenance", true);
    unit.commission = table.truthOr("commission", true);
    if (table.has("arrives")) {
        unit.arrives = table.number("arrives");
    }
    if (table.has("last_use_day")) {
        unit.lastUseDay = table.number("last_use_day");
    }
    return unit;
}

Clock clockOf(const Table& table) {
    const Duration ahead = table.durationOr("ahead");
    const Duration behind = table.durationOr("behind");
    return {table.text("station"), table.number("day"), table.timeOfDay("time"),
            table.durationOr("lasts"), Duration{ahead.ms - behind.ms}};
}

void readHouse(const Table& table, const ScenarioTexts& texts, Scenario& scenario) {
    scenario.days = table.number("days");
    scenario.facility = table.text("facility");
    scenario.department = table.text("department");
    scenario.approvedBy = table.text("approved_by");
    scenario.openingBy = table.text("opening_by");
    scenario.visitor = table.text("visitor");
    scenario.clockToleranceMinutes = table.number("clock_tolerance_minutes");
    table.eachOf("editions", [&](const Table& row) {
        Edition edition{row.text("file"), row.text("edition"), {}, row.number("day")};
        const auto text = texts.rulebooks.find(edition.file);
        if (text == texts.rulebooks.end()) {
            row.fault("file", "there is no such rulebook");
        } else {
            edition.text = text->second;
        }
        scenario.editions.push_back(std::move(edition));
    });
    table.eachKey("areas", [&](const std::string& key, const Table& row) {
        scenario.areas[key] = {row.text("bedside"), row.text("prepare"), row.text("store"),
                               row.textsOr("rooms")};
    });
    table.eachOf("persons", [&](const Table& row) { scenario.persons.push_back(personOf(row)); });
    scenario.writers = table.textTable("writers");
}

void readHabits(const Table& table, Scenario& scenario) {
    table.eachKey("models", [&](const std::string& key, const Table& row) {
        scenario.models[key] = {row.text("name"), row.text("maker"), row.text("software"),
                                row.textsOr("groups"), row.textsOr("features")};
    });
    table.eachKey("parts", [&](const std::string& key, const Table& row) {
        scenario.parts[key] = partOf(row);
    });
    table.eachKey("checks", [&](const std::string& key, const Table& row) {
        scenario.checks[key] = checkOf(row);
    });
    table.one("routines", [&](const Table& row) { scenario.routines = routinesOf(row, true); });
    table.eachKey("kits", [&](const std::string& key, const Table& row) {
        scenario.kits[key] = {row.text("group"), row.textTable("parts"), routinesOf(row, false)};
    });
    table.eachKey("life", [&](const std::string& key, const Table& row) {
        scenario.lives[key] = lifeOf(row);
    });
}

void readCalendar(const Table& table, Scenario& scenario) {
    table.one("chances", [&](const Table& row) {
        scenario.chances = {row.number("precautions"), row.number("late"), row.number("slow")};
    });
    table.one("wash", [&](const Table& row) {
        scenario.wash = {row.text("station"), row.text("role"), row.text("level"),
                         row.text("load_prefix"), row.timesOfDay("times"), row.number("minutes")};
    });
    table.one("round", [&](const Table& row) {
        scenario.round = {row.text("station"), row.text("role"), row.timeOfDay("time"),
                          row.number("units")};
    });
    table.one("handover", [&](const Table& row) {
        scenario.handover = {row.text("station"), row.timeOfDay("time"), row.number("every_days")};
    });
    table.eachOf("clocks", [&](const Table& row) { scenario.clocks.push_back(clockOf(row)); });
}

void readEvents(const Table& table, Scenario& scenario) {
    table.eachOf("mishaps", [&](const Table& row) {
        scenario.mishaps.push_back({row.text("on"), row.textOr("kit", ""),
                                    row.number("per_mille"), row.steps("steps")});
    });
    table.eachOf("events", [&](const Table& row) { scenario.events.push_back(eventOf(row)); });
    table.eachKey("endings", [&](const std::string& key, const Table& row) {
        scenario.endings[key] = {row.range("hours"), row.steps("steps")};
    });
    table.eachOf("units", [&](const Table& row) { scenario.units.push_back(unitOf(row)); });
}

template <class Item>
void want(const ByKey<Item>& items, const std::string& key, std::string_view what, Faults& faults) {
    if (!items.contains(key)) {
        faults.push_back(std::string(what) + " \"" + key + "\" is not there");
    }
}

void checkReferences(const Scenario& scenario, Faults& faults) {
    for (const Unit& unit : scenario.units) {
        want(scenario.models, unit.model, "model", faults);
        want(scenario.kits, unit.kit, "kit", faults);
        want(scenario.areas, unit.area, "area", faults);
        want(scenario.lives, unit.life, "life", faults);
        want(scenario.endings, unit.ending, "ending", faults);
    }
    for (const auto& [key, kit] : scenario.kits) {
        for (const auto& [position, part] : kit.parts) {
            want(scenario.parts, part, "part", faults);
        }
    }
    for (const auto& [key, area] : scenario.areas) {
        if (area.rooms.empty()) {
            faults.push_back("area \"" + key + "\" has no rooms");
        }
    }
    if (scenario.editions.empty() || scenario.persons.empty()) {
        faults.push_back("there is no edition or no person");
    }
}

std::optional<toml::table> parse(std::string_view text, std::string_view name, Faults& faults) {
    try {
        return toml::parse(text);
    } catch (const toml::parse_error& error) {
        faults.push_back(std::string(name) + " line " +
                         std::to_string(error.source().begin.line) + ": " +
                         std::string(error.description()));
        return std::nullopt;
    }
}

std::string joined(const Faults& faults) {
    std::string lines;
    for (const std::string& fault : faults) {
        lines += (lines.empty() ? "" : "\n") + fault;
    }
    return lines;
}

}  // namespace

tl::expected<Scenario, std::string> readScenario(const ScenarioTexts& texts) {
    Faults faults;
    Scenario scenario;
    const auto house = parse(texts.scenario, "scenario", faults);
    const auto events = parse(texts.events, "events", faults);
    if (house && events) {
        const Table table(*house, "scenario", faults);
        readHouse(table, texts, scenario);
        readHabits(table, scenario);
        readCalendar(table, scenario);
        readEvents(Table(*events, "events", faults), scenario);
        checkReferences(scenario, faults);
    }
    if (!faults.empty()) {
        return tl::unexpected(joined(faults));
    }
    return scenario;
}

}  // namespace station::demo
