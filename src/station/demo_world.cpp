// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The agenda and the people of the demo.
#include "station/demo_world.h"

#include <algorithm>
#include <utility>

namespace station::demo {

namespace {

bool holdsOne(const Person& person, const std::vector<std::string>& roles) {
    return std::ranges::any_of(roles, [&](const std::string& role) {
        return std::ranges::find(person.roles, role) != person.roles.end();
    });
}

bool worksThere(const Person& person, std::string_view station) {
    return person.stations.empty() ||
           std::ranges::find(person.stations, station) != person.stations.end();
}

}  // namespace

World::World(const Scenario& wanted, std::uint64_t seed, Calendar days)
    : scenario(wanted), calendar(days), dice(seed), shelf(wanted) {
    for (const Unit& plan : wanted.units) {
        UnitState state;
        state.plan = &plan;
        state.kit = &wanted.kits.find(plan.kit)->second;
        state.area = &wanted.areas.find(plan.area)->second;
        state.life = &wanted.lives.find(plan.life)->second;
        state.location = state.area->store;
        units.push_back(std::move(state));
    }
}

void World::plan(Instant at, std::function<void(Instant)> what) {
    m_agenda.push({at, m_planned++, std::move(what)});
}

void World::play() {
    while (!m_agenda.empty() && m_agenda.top().at <= calendar.end()) {
        const Planned next = m_agenda.top();
        m_agenda.pop();
        next.what(next.at);
    }
}

UnitState* World::unit(std::string_view serial) {
    const auto found = std::ranges::find_if(
        units, [&](const UnitState& state) { return state.plan->serial == serial; });
    return found == units.end() ? nullptr : &*found;
}

const Person& World::someone(const std::vector<std::string>& roles, std::string_view station,
                             Instant at) {
    std::vector<const Person*> atWork;
    std::vector<const Person*> others;
    for (const Person& person : scenario.persons) {
        if (person.shift == "never" || !holdsOne(person, roles)) {
            continue;
        }
        const bool there = worksThere(person, station) && calendar.atWork(person.shift, at);
        (there ? atWork : others).push_back(&person);
    }
    if (!atWork.empty()) {
        return *dice.pick(atWork);
    }
    return others.empty() ? scenario.persons.front() : *dice.pick(others);
}

Instant World::adoptedAt(const Edition& edition) const {
    const bool first = &edition == &scenario.editions.front();
    return calendar.daysBack(edition.day, hours(first ? 7 : 12));
}

int World::editionAt(Instant at) const {
    int number = 1;
    for (std::size_t index = 1; index < scenario.editions.size(); ++index) {
        number += adoptedAt(scenario.editions[index]) <= at ? 1 : 0;
    }
    return number;
}

}  // namespace station::demo
