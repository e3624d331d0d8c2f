// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the scenario plans: the opening, the department's own days, what goes wrong, the endings.
#include "station/demo_life.h"
#include "station/demo_script.h"

#include <algorithm>
#include <memory>

namespace station::demo {

namespace {

namespace json = logbook::json;

constexpr int mostTries = 60;

void writeAdopt(Script& script, const Scenario& scenario, const Edition& edition) {
    script.writeDepartment({"adopt", {}, {{"by", scenario.openingBy}}, {}}, "adopt",
                           {{"edition", edition.edition}, {"text", edition.text},
                            {"approved_by", scenario.approvedBy},
                            {"department", scenario.department},
                            {"facility", scenario.facility}});
}

void writePerson(Script& script, const Person& person) {
    const World& world = script.world();
    json::Object body{{"person", person.key}, {"name", person.name},
                      {"roles", json::Array(person.roles.begin(), person.roles.end())}};
    if (person.untilDay) {
        const logbook::Day last = world.calendar.dayOf(world.calendar.end());
        body.emplace_back("until", logbook::toText(last - std::chrono::days(*person.untilDay)));
    }
    script.writeDepartment({"person", {}, {{"by", world.scenario.openingBy}}, {}}, "person",
                           std::move(body));
}

void open(World& world, Instant now) {
    Script script(world, nullptr, now);
    writeAdopt(script, world.scenario, world.scenario.editions.front());
    for (const Person& person : world.scenario.persons) {
        script.waitUntil(script.now() + minutes(1));
        writePerson(script, person);
    }
}

void enrol(World& world, UnitState& unit, Instant now) {
    Script script(world, &unit, now);
    script.run({{"enrol", {}, {}, {}}});
    unit.busyUntil = script.now();
}

void commission(World& world, UnitState& unit, Instant now) {
    Script script(world, &unit, now);
    script.runNamed("commission");
    unit.prepared = true;
    unit.lastRecheck = script.now();
    goOn(world, unit, script.now());
}

void washOnce(World& world, Instant now) {
    const Wash& wash = world.scenario.wash;
    const Instant finish = now + minutes(wash.minutes);
    const std::vector<SoiledPart> load = world.shelf.wash(now, finish);
    if (load.empty()) {
        return;
    }
    json::Array parts;
    for (const SoiledPart& part : load) {
        parts.emplace_back(json::Object{{"position", part.position}, {"serial", part.serial}});
    }
    const std::string number = std::to_string(1000 + ++world.batches);
    Script script(world, nullptr, finish);
    script.writeDepartment({"reprocess", {}, {{"as", wash.role}}, {}}, "reprocess",
                           {{"parts", std::move(parts)}, {"level", wash.level},
                            {"load", wash.loadPrefix + number}});
}

void roundOnce(World& world, Instant now) {
    std::vector<UnitState*> stored;
    for (UnitState& unit : world.units) {
        if (unit.stored() && unit.busyUntil <= now &&
            unit.area->prepare == world.scenario.round.station) {
            stored.push_back(&unit);
        }
    }
    const std::string by =
        world.someone({world.scenario.round.role}, world.scenario.round.station, now).key;
    for (int count = 0; count < world.scenario.round.units && !stored.empty(); ++count) {
        UnitState* const unit = world.dice.pick(stored);
        std::erase(stored, unit);
        Script script(world, unit, now + minutes(2LL * count));
        script.run({{"sighted", {}, {{"by", by}}, {}}});
    }
}

void handOver(World& world, Instant now) {
    Script script(world, nullptr, now);
    script.run({{"sign", {"handover"}, {}, {}}});
}

bool suits(const Event& event, const UnitState& unit, Instant now) {
    if (!unit.alive() || unit.pinned || unit.busyUntil > now) {
        return false;
    }
    const bool state = event.wants == "any" || (event.wants == "stored" && unit.stored()) ||
                       (event.wants == "in_use" && unit.inUse && !unit.paused);
    return state && (event.unit.empty() || event.unit == unit.plan->serial) &&
           (event.kit.empty() || event.kit == unit.plan->kit);
}

bool holdsLot(const UnitState& unit, std::string_view lot) {
    return std::ranges::any_of(unit.fitted,
                               [&](const auto& fitted) { return fitted.second.lot == lot; });
}

void happenTo(World& world, const Event& event, UnitState& unit, Instant now) {
    Script script(world, &unit, now);
    script.run(event.steps);
    if (unit.alive()) {
        goOn(world, unit, script.now());
    }
}

// Waits for a unit that suits; gives up after some days.
void tryEvent(World& world, const Event& event, int tries, Instant now) {
    std::vector<UnitState*> fitting;
    for (UnitState& unit : world.units) {
        if (suits(event, unit, now)) {
            fitting.push_back(&unit);
        }
    }
    if (!fitting.empty()) {
        happenTo(world, event, *world.dice.pick(fitting), now);
    } else if (tries < mostTries) {
        world.plan(now + hours(2), [&world, &event, tries](Instant then) {
            tryEvent(world, event, tries + 1, then);
        });
    }
}

void tryUnit(World& world, const Event& event, UnitState& unit, Instant now, int tries) {
    if (suits(event, unit, now)) {
        if (event.lot.empty() || holdsLot(unit, event.lot)) {
            happenTo(world, event, unit, now);
        }
    } else if (tries < mostTries) {
        UnitState* const which = &unit;
        world.plan(now + hours(4), [&world, &event, which, tries](Instant then) {
            tryUnit(world, event, *which, then, tries + 1);
        });
    }
}

void planForEach(World& world, const Event& event) {
    const Instant first = world.calendar.daysBack(event.day, event.time);
    for (UnitState& unit : world.units) {
        const bool meant = std::ranges::find(event.each, unit.plan->kit) != event.each.end();
        if (!meant || !world.dice.perMille(event.perMille)) {
            continue;
        }
        UnitState* const which = &unit;
        const Duration delay = minutes(world.dice.between(0, event.spread.ms / 60'000));
        world.plan(first + delay, [&world, &event, which](Instant now) {
            tryUnit(world, event, *which, now, 0);
        });
    }
}

void begin(World& world, UnitState& unit, Instant now) {
    const Ending& ending = world.scenario.endings.find(unit.plan->ending)->second;
    if (ending.steps.empty() || !unit.alive()) {
        return;
    }
    unit.pinned = true;
    Script script(world, &unit, std::max(now, unit.busyUntil));
    script.run(ending.steps);
    unit.busyUntil = script.now();
}

void planArrival(World& world, UnitState& unit, Instant enrolled, Instant commissioned) {
    UnitState* const which = &unit;
    world.plan(enrolled, [&world, which](Instant now) { enrol(world, *which, now); });
    if (unit.plan->commission) {
        world.plan(commissioned, [&world, which](Instant now) { commission(world, *which, now); });
    }
}

}  // namespace

void planOpening(World& world) {
    const Instant first = world.adoptedAt(world.scenario.editions.front());
    world.plan(first, [&world](Instant now) { open(world, now); });
    for (std::size_t index = 1; index < world.scenario.editions.size(); ++index) {
        const Edition& edition = world.scenario.editions[index];
        world.plan(world.adoptedAt(edition), [&world, &edition](Instant now) {
            Script script(world, nullptr, now);
            writeAdopt(script, world.scenario, edition);
        });
    }
    int count = 0;
    for (UnitState& unit : world.units) {
        if (unit.plan->arrives) {
            const Instant arrival = world.calendar.daysBack(*unit.plan->arrives, hours(9));
            planArrival(world, unit, arrival,
                        world.calendar.nextOffice(arrival + hours(4), hours(9)));
        } else {
            ++count;
            planArrival(world, unit, first + minutes(40 + 2LL * count),
                        first + minutes(140 + 11LL * count));
        }
    }
}

void planDays(World& world) {
    const Scenario& scenario = world.scenario;
    for (int day = scenario.days - 1; day >= 0; --day) {
        for (const Duration time : scenario.wash.times) {
            world.plan(world.calendar.daysBack(day, time),
                       [&world](Instant now) { washOnce(world, now); });
        }
        world.plan(world.calendar.daysBack(day, scenario.round.time),
                   [&world](Instant now) { roundOnce(world, now); });
        if (day % scenario.handover.everyDays == 0) {
            world.plan(world.calendar.daysBack(day, scenario.handover.time),
                       [&world](Instant now) { handOver(world, now); });
        }
    }
}

void planEvents(World& world) {
    for (const Event& event : world.scenario.events) {
        const Instant at = world.calendar.daysBack(event.day, event.time);
        if (!event.each.empty()) {
            planForEach(world, event);
        } else if (event.unit.empty() && event.kit.empty()) {
            world.plan(at, [&world, &event](Instant now) {
                Script script(world, nullptr, now);
                script.run(event.steps);
            });
        } else {
            world.plan(at, [&world, &event](Instant now) { tryEvent(world, event, 0, now); });
        }
    }
}

void planEndings(World& world) {
    for (UnitState& unit : world.units) {
        const Range hoursBefore = world.scenario.endings.find(unit.plan->ending)->second.hours;
        UnitState* const which = &unit;
        const Duration before =
            minutes(world.dice.between(hoursBefore.low * 60LL, hoursBefore.high * 60LL));
        world.plan(world.calendar.end() - before,
                   [&world, which](Instant now) { begin(world, *which, now); });
    }
}

}  // namespace station::demo
