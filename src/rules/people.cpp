// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Persons and confirmations; see people.h.
#include "rules/people.h"

#include "rules/authority.h"

#include <algorithm>
#include <set>

namespace rules {
namespace {

using logbook::Kind;
using logbook::Record;

constexpr std::string_view confirmedWord = "confirmed";

bool isOfPeople(const Record& record) {
    return record.kind() == Kind::Adopt || record.kind() == Kind::Person;
}

State peopleBefore(const Log& log) {
    State people;
    people.rulebook = log.firstEdition();
    return people;
}

// The entry that was made first, where this one takes its place on another unit.
const Record& originOf(const Log& log, const Record& record) {
    const Record* origin = &record;
    // A file made by hand may lead in a circle.
    for (auto steps = log.records().size(); origin->movedFrom && steps > 0; --steps) {
        const auto name = logbook::parseRecordName(*origin->movedFrom);
        const auto before = name ? log.find(*name) : std::nullopt;
        if (!before) break;
        origin = &log.records()[*before];
    }
    return *origin;
}

// The record that a standing review at `index` confirms, if it does; `people` is the state before.
const RecordName* confirmedBy(const Log& log, std::size_t index, const State& people) {
    const Record& record = log.records()[index];
    const auto* review = std::get_if<logbook::body::Review>(&record.body);
    if (!review || review->disposition != confirmedWord || !record.confirmed) return nullptr;
    if (log.struckBy(index) != nullptr) return nullptr;
    if (people.rulebook && !mayWrite(people, record).allowed) return nullptr;
    const auto target = log.find(review->target);
    if (!target || confirmerOf(log, log.records()[*target]) != record.by) return nullptr;
    return &review->target;
}

}  // namespace

State peopleAt(const Log& log, Instant at) {
    State people = peopleBefore(log);
    for (const Record& record : log.records()) {
        if (record.at > at) break;
        if (isOfPeople(record)) fold(people, record, log.editions());
    }
    return people;
}

bool isManager(const State& people, const std::string& person, Instant at) {
    const auto found = people.rulebook->authority.find(Kind::Person);
    if (found == people.rulebook->authority.end()) return isKnown(people, person, at);
    return holdsRole(people, person, found->second, at);
}

std::vector<std::string> managers(const State& people, Instant at) {
    std::vector<std::string> found;
    for (const auto& [person, known] : people.persons) {
        if (isManager(people, person, at)) found.push_back(person);
    }
    return found;
}

std::vector<std::string> rolesOfAuthority(const Rulebook& rulebook) {
    std::set<std::string> roles;
    for (const auto& [kind, named] : rulebook.authority) roles.insert(named.begin(), named.end());
    return {roles.begin(), roles.end()};
}

std::vector<std::string> rolesNamed(const Rulebook& rulebook) {
    const auto authority = rolesOfAuthority(rulebook);
    std::set<std::string> roles(authority.begin(), authority.end());
    for (const auto& hold : rulebook.holds) {
        if (hold.releaseBy) roles.insert(hold.releaseBy->begin(), hold.releaseBy->end());
    }
    for (const auto& [role, label] : rulebook.roleLabels) roles.insert(role);
    return {roles.begin(), roles.end()};
}

const std::string& confirmerOf(const Log& log, const Record& record) {
    return originOf(log, record).by;
}

std::vector<std::size_t> unconfirmed(const Log& log) {
    std::set<RecordName> confirmed;
    std::vector<std::size_t> candidates;
    State people = peopleBefore(log);
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        const Record& record = log.records()[index];
        if (!originOf(log, record).confirmed && log.struckBy(index) == nullptr) {
            candidates.push_back(index);
        }
        if (const auto* target = confirmedBy(log, index, people)) confirmed.insert(*target);
        if (people.rulebook && isOfPeople(record)) fold(people, record, log.editions());
    }
    std::erase_if(candidates, [&](std::size_t index) {
        const Record& record = log.records()[index];
        return confirmed.contains(record.name) ||
               confirmed.contains(originOf(log, record).name);
    });
    return candidates;
}

}  // namespace rules
