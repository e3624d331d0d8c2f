// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Persons and confirmations; see people.h.
#include "rules/people.h"

#include "rules/authority.h"

#include <algorithm>
#include <map>
#include <set>

namespace rules {
namespace {

using logbook::Kind;
using logbook::Record;

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

// The record of which a standing review at `index` says so, by the person whose word it is;
// `people` is the state before.
const RecordName* answeredBy(const Log& log, std::size_t index, const State& people,
                             std::string_view disposition) {
    const Record& record = log.records()[index];
    const auto* review = std::get_if<logbook::body::Review>(&record.body);
    if (!review || review->disposition != disposition || !record.confirmed) return nullptr;
    if (log.struckBy(index) != nullptr) return nullptr;
    if (people.rulebook && !mayWrite(people, record).allowed) return nullptr;
    const auto target = log.find(review->target);
    if (!target || confirmerOf(log, log.records()[*target]) != record.by) return nullptr;
    return &review->target;
}

// All records that a review answers so, each with the index of the last review that does.
using Answers = std::map<RecordName, std::size_t>;

Answers answered(const Log& log, std::string_view disposition) {
    Answers targets;
    State people = peopleBefore(log);
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        if (const auto* target = answeredBy(log, index, people, disposition)) {
            targets[*target] = index;
        }
        const Record& record = log.records()[index];
        if (people.rulebook && isOfPeople(record)) fold(people, record, log.editions());
    }
    return targets;
}

// The review of that record, or of the one whose place it takes; null if there is none.
const std::size_t* answerTo(const Log& log, const Answers& answered, std::size_t index) {
    const Record& record = log.records()[index];
    auto found = answered.find(record.name);
    if (found == answered.end()) found = answered.find(originOf(log, record).name);
    return found == answered.end() ? nullptr : &found->second;
}

// Those that stand and were taken without a signature, or take the place of such.
std::vector<std::size_t> unsignedOnes(const Log& log) {
    std::vector<std::size_t> found;
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        const Record& record = log.records()[index];
        if (!originOf(log, record).confirmed && log.struckBy(index) == nullptr) {
            found.push_back(index);
        }
    }
    return found;
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
    auto candidates = unsignedOnes(log);
    if (candidates.empty()) return candidates;
    const auto confirmed = answered(log, confirmedWord);
    std::erase_if(candidates,
                  [&](std::size_t index) { return answerTo(log, confirmed, index) != nullptr; });
    return candidates;
}

std::map<std::size_t, std::size_t> confirmations(const Log& log) {
    std::map<std::size_t, std::size_t> found;
    const auto candidates = unsignedOnes(log);
    if (candidates.empty()) return found;
    const auto confirmed = answered(log, confirmedWord);
    for (const auto index : candidates) {
        if (const auto* review = answerTo(log, confirmed, index)) found.emplace(index, *review);
    }
    return found;
}

std::set<std::size_t> disowned(const Log& log, const std::vector<std::size_t>& unconfirmed) {
    std::set<std::size_t> found;
    if (unconfirmed.empty()) return found;
    const auto denied = answered(log, notMineWord);
    for (const auto index : unconfirmed) {
        if (answerTo(log, denied, index) != nullptr) found.insert(index);
    }
    return found;
}

}  // namespace rules
