// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Roles against [authority]; see authority.h.
#include "rules/authority.h"

#include <algorithm>

namespace rules {
namespace {

using logbook::Kind;
using logbook::Record;

// Past `until` counts the local day after it, in the zone of the edition in force.
const KnownPerson* knownAt(const State& state, const std::string& person, Instant at) {
    const auto found = state.persons.find(person);
    if (found == state.persons.end()) return nullptr;
    const auto& until = found->second.person.until;
    if (until && state.rulebook->zone->dayOf(at) > *until) return nullptr;
    return &found->second;
}

const std::vector<std::string>* rolesFor(const State& state, Kind kind) {
    const auto found = state.rulebook->authority.find(kind);
    return found == state.rulebook->authority.end() ? nullptr : &found->second;
}

Permission permit(const State& state, const std::string& person,
                  const std::vector<std::string>* roles, Instant at) {
    if (!roles || holdsRole(state, person, *roles, at)) return {};
    Permission refusal{false, *roles};
    std::sort(refusal.roles.begin(), refusal.roles.end());
    return refusal;
}

const std::vector<std::string>* rolesToRelease(const State& state, const std::string& hold) {
    const Hold* named = state.rulebook->hold(hold);
    if (named && named->releaseBy) return &*named->releaseBy;
    return rolesFor(state, Kind::Release);
}

// With a form it is the one who did it, not the one who transcribed it, who is judged.
const std::string& personJudged(const Record& record) {
    const bool byForm = record.kind() == Kind::Check || record.kind() == Kind::Service;
    return byForm && record.form && record.doneBy ? *record.doneBy : record.by;
}

bool statedFailure(const Record& record) {
    if (const auto* check = std::get_if<logbook::body::Check>(&record.body)) {
        return check->outcome == logbook::Outcome::Fail;
    }
    const auto* service = std::get_if<logbook::body::Service>(&record.body);
    return service && service->outcome == logbook::Outcome::Fail;
}

}  // namespace

bool holdsRole(const State& state, const std::string& person, const std::vector<std::string>& roles,
               Instant at) {
    const KnownPerson* known = knownAt(state, person, at);
    if (!known) return false;
    return std::any_of(roles.begin(), roles.end(), [known](const std::string& role) {
        const auto& held = known->person.roles;
        return std::find(held.begin(), held.end(), role) != held.end();
    });
}

bool isKnown(const State& state, const std::string& person, Instant at) {
    return knownAt(state, person, at) != nullptr;
}

// One's own record may be struck without the role; but what warns of danger only by who could
// have lifted it.
Permission mayStrike(const State& state, const Striker& striker, const Record* target) {
    const bool own = target && target->by == striker.by;
    if (!own) {
        const auto* roles = rolesFor(state, Kind::Strike);
        const auto permission = permit(state, striker.by, roles, striker.at);
        if (!permission.allowed || !target) return permission;
    }
    if (const auto* withdraw = std::get_if<logbook::body::Withdraw>(&target->body)) {
        return permit(state, striker.by, rolesToRelease(state, withdraw->hold), striker.at);
    }
    if (target->kind() == Kind::Fault) {
        return permit(state, striker.by, rolesFor(state, Kind::Clear), striker.at);
    }
    return {};
}

Permission mayWrite(const State& state, const Record& record, const Record* target) {
    const Kind kind = record.kind();
    if (kind == Kind::Adopt && !state.adopted) return {};
    if (kind == Kind::Person && state.persons.empty()) return {};
    if (kind == Kind::Strike) return mayStrike(state, {record.by, record.at}, target);
    if (const auto* release = std::get_if<logbook::body::Release>(&record.body)) {
        return permit(state, record.by, rolesToRelease(state, release->hold), record.at);
    }
    if (statedFailure(record)) return {};
    return permit(state, personJudged(record), rolesFor(state, kind), record.at);
}

}  // namespace rules
