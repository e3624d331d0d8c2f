// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Steps about parts and checks: what is fitted, from which shelf or lot, and what was measured.
#include "station/demo_verbs.h"

#include <cstdlib>

namespace station::demo {

namespace {

namespace json = logbook::json;

std::string partKeyOf(const UnitState& unit, const Step& step) {
    if (!step.option("model").empty()) {
        return std::string(step.option("model"));
    }
    const auto usual = unit.kit->parts.find(step.word(0));
    return usual == unit.kit->parts.end() ? std::string() : usual->second;
}

// A part that goes through the washer is put with the soiled ones; others are thrown away.
void putAway(Script& script, const std::string& position) {
    UnitState& unit = *script.unit();
    const auto fitted = unit.fitted.find(position);
    if (fitted == unit.fitted.end()) {
        return;
    }
    const FittedItem& item = fitted->second;
    const Part& part = script.world().scenario.parts.find(item.part)->second;
    if (!item.serial.empty() && part.reuse == "reusable") {
        script.world().shelf.putSoiled({item.part, position, item.serial, script.now()});
    }
    unit.fitted.erase(fitted);
}

// The part of a unit of that kit that stands ready; that unit's people will have to see to it.
FittedItem takeFromOther(Script& script, std::string_view kit, const std::string& position) {
    World& world = script.world();
    for (UnitState& other : world.units) {
        const bool suits = &other != script.unit() && other.plan->kit == kit && other.stored() &&
                           !other.pinned && other.busyUntil <= script.now() &&
                           other.fitted.contains(position);
        if (suits) {
            const FittedItem item = other.fitted[position];
            other.fitted.erase(position);
            other.prepared = false;
            return item;
        }
    }
    return {};
}

FittedItem itemFor(Script& script, const Step& step, const std::string& key) {
    World& world = script.world();
    if (!step.option("other").empty()) {
        FittedItem item = takeFromOther(script, step.option("other"), std::string(step.word(0)));
        if (!item.part.empty()) {
            return item;
        }
    }
    const Part& part = world.scenario.parts.find(key)->second;
    if (part.prefix.empty()) {
        const int day = world.calendar.dayBackOf(script.now());
        const std::string lot = step.option("lot").empty()
                                    ? world.dice.pick(lotsOn(part, day)).lot
                                    : std::string(step.option("lot"));
        return {key, {}, lot};
    }
    std::string serial = step.option("dirty").empty() ? std::string() : world.shelf.takeSoiled(key);
    return {key, serial.empty() ? world.shelf.takeClean(key, script.now()) : serial, {}};
}

// In date for all of the demo, unless the step says otherwise.
std::string expiryOf(const Script& script, const Step& step, const Part& part) {
    const Calendar& calendar = script.world().calendar;
    if (!step.option("expires").empty()) {
        const int inDays = std::atoi(std::string(step.option("expires")).c_str());
        return logbook::toText(calendar.dayOf(script.now()) + std::chrono::days(inDays));
    }
    const int later = 420 - part.lots.front().from;
    return logbook::toText(calendar.dayOf(calendar.end()) + std::chrono::days(later));
}

json::Object statedOf(const Script& script, const Step& step, const FittedItem& item) {
    const Part& part = script.world().scenario.parts.find(item.part)->second;
    json::Object stated{{"model", part.model}, {"reuse", part.reuse}};
    if (!item.serial.empty()) {
        stated.emplace_back("serial", item.serial);
    } else {
        stated.emplace_back("lot", item.lot);
        stated.emplace_back("expires", expiryOf(script, step, part));
    }
    if (part.groups) {
        stated.emplace_back("groups", json::Array(part.groups->begin(), part.groups->end()));
    }
    for (const auto& [name, value] : part.attributes) {
        stated.emplace_back(name, value);
    }
    return stated;
}

void fit(Script& script, const Step& step) {
    const std::string position(step.word(0));
    const std::string key = partKeyOf(*script.unit(), step);
    if (key.empty()) {
        return;  // a unit of this kit has no such part
    }
    script.spend(step, minutes(1));
    putAway(script, position);
    const FittedItem item = itemFor(script, step, key);
    script.write(step, "fit",
                 {{"position", position}, {"part", statedOf(script, step, item)}});
    script.unit()->fitted[position] = item;
}

void remove(Script& script, const Step& step) {
    const std::string position(step.word(0));
    if (!script.unit()->fitted.contains(position)) {
        return;
    }
    script.spend(step, Duration{30'000});
    script.write(step, "remove", {{"position", position}});
    putAway(script, position);
}

double powerOfTen(int exponent) {
    double power = 1;
    for (int count = 0; count < exponent; ++count) {
        power *= 10;
    }
    return power;
}

double drawn(Script& script, const Step& step, const MeasureHabit& habit) {
    if (!step.option(habit.key).empty()) {
        return std::strtod(std::string(step.option(habit.key)).c_str(), nullptr);
    }
    World& world = script.world();
    const bool fails = step.verb == "fail" && habit.failing.has_value();
    const int low = fails ? habit.failing->first : habit.low;
    const int high = fails ? habit.failing->second : habit.high;
    const auto scale = static_cast<std::int64_t>(powerOfTen(habit.decimals));
    const std::int64_t gone =
        world.scenario.days - world.calendar.dayBackOf(script.now());
    const std::int64_t worn = habit.wears * script.unit()->plan->wear * gone * scale / 30;
    const std::int64_t value = world.dice.between(low * scale, high * scale) + worn;
    return static_cast<double>(value) / static_cast<double>(scale);
}

json::Object measuresOf(Script& script, const Step& step, const CheckHabit& habit) {
    json::Object measures;
    for (const MeasureHabit& measure : habit.measures) {
        if (measure.group.empty() || measure.group == script.unit()->group) {
            measures.emplace_back(measure.key,
                                  json::Object{{"value", drawn(script, step, measure)},
                                               {"unit", measure.unit}});
        }
    }
    return measures;
}

void carryOut(Script& script, const Step& step, std::string_view outcome) {
    const auto found = script.world().scenario.checks.find(step.word(0));
    const CheckHabit habit =
        found == script.world().scenario.checks.end() ? CheckHabit{} : found->second;
    script.spend(step, Duration{habit.seconds * 1000});
    json::Object body{{"check", step.word(0)}, {"outcome", outcome}};
    if (json::Object measures = measuresOf(script, step, habit); !measures.empty()) {
        body.emplace_back("measures", std::move(measures));
    }
    if (!habit.conditions.empty()) {
        body.emplace_back("conditions",
                          json::Array(habit.conditions.begin(), habit.conditions.end()));
    }
    if (!step.text.empty()) {
        body.emplace_back("text", step.text);
    }
    script.write(step, "check", std::move(body));
}

void check(Script& script, const Step& step) { carryOut(script, step, "pass"); }
void fail(Script& script, const Step& step) { carryOut(script, step, "fail"); }
void incomplete(Script& script, const Step& step) { carryOut(script, step, "incomplete"); }

}  // namespace

const Verbs& partVerbs() {
    static const Verbs verbs{
        {"fit", fit}, {"remove", remove}, {"check", check}, {"fail", fail},
        {"incomplete", incomplete},
    };
    return verbs;
}

}  // namespace station::demo
