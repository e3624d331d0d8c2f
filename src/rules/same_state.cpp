// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Field by field; see same_state.h. Each shape is taken apart into all its fields, so that one
// that is given another field is not compiled until it is compared too.
#include "rules/same_state.h"

#include <algorithm>
#include <tuple>

namespace rules {
namespace {

// Of two texts, numbers, records, and whatever is compared by itself.
template <class T>
bool alike(const T& one, const T& other) {
    return one == other;
}

bool alike(const logbook::body::Enrol& one, const logbook::body::Enrol& other) {
    const auto fields = [](const logbook::body::Enrol& enrol) {
        const auto& [model, groups, features, commissioned, label, asset, maker, udi, location,
                     owner, returnBy] = enrol;
        return std::tie(model, groups, features, commissioned, label, asset, maker, udi, location,
                        owner, returnBy);
    };
    return fields(one) == fields(other);
}

bool alike(const PartAttributes& one, const PartAttributes& other) {
    const auto& [texts, groups, reuse, expires] = one;
    return std::tie(texts, groups, reuse, expires) ==
           std::tie(other.texts, other.groups, other.reuse, other.expires);
}

bool alike(const PartLife& one, const PartLife& other) {
    const auto& [used, firstUse, cycles] = one;
    return std::tie(used, firstUse, cycles) == std::tie(other.used, other.firstUse, other.cycles);
}

bool alike(const FittedPart& one, const FittedPart& other) {
    const auto& [attributes, fit, life] = one;
    return fit == other.fit && alike(life, other.life) && alike(attributes, other.attributes);
}

bool alike(const std::optional<Use>& one, const std::optional<Use>& other) {
    if (!one || !other) return one.has_value() == other.has_value();
    const auto& [start, paused] = *one;
    return start == other->start && paused == other->paused;
}

bool alike(const StandingHold& one, const StandingHold& other) {
    const auto& [record, reason] = one;
    return record == other.record && reason == other.reason;
}

bool alike(const StandingFault& one, const StandingFault& other) {
    const auto& [record, blocking, text] = one;
    return record == other.record && blocking == other.blocking && text == other.text;
}

bool alike(const StandingWaiver& one, const StandingWaiver& other) {
    const auto& [record, until, reason] = one;
    return record == other.record && until == other.until && reason == other.reason;
}

bool alike(const ServiceState& one, const ServiceState& other) {
    const auto& [lastPass, lastResult, lastFailed, triggered] = one;
    return std::tie(lastPass, lastResult, lastFailed, triggered) ==
           std::tie(other.lastPass, other.lastResult, other.lastFailed, other.triggered);
}

bool alike(const std::optional<Event>& one, const std::optional<Event>& other) {
    if (!one || !other) return one.has_value() == other.has_value();
    const auto& [kind, subject] = *one;
    return kind == other->kind && subject == other->subject;
}

bool alike(const std::optional<Discounted>& one, const std::optional<Discounted>& other) {
    if (!one || !other) return one.has_value() == other.has_value();
    const auto& [record, reasons] = *one;
    return record == other->record && reasons == other->reasons;
}

bool alike(const CheckState& one, const CheckState& other) {
    const auto& [voided, voidedBy, last, lastFailed, lastFailure, passFollows, certainPassFollows,
                 discounted, serialsAtPasses, lastUpset] = one;
    return std::tie(voided, last, lastFailed, lastFailure, passFollows, certainPassFollows) ==
               std::tie(other.voided, other.last, other.lastFailed, other.lastFailure,
                        other.passFollows, other.certainPassFollows) &&
           alike(voidedBy, other.voidedBy) && alike(discounted, other.discounted) &&
           serialsAtPasses == other.serialsAtPasses && lastUpset == other.lastUpset;
}

template <class Map>
bool allAlike(const Map& one, const Map& other) {
    return std::equal(one.begin(), one.end(), other.begin(), other.end(),
                      [](const auto& a, const auto& b) {
                          return a.first == b.first && alike(a.second, b.second);
                      });
}

template <class Map>
bool sameRecords(const Map& one, const Map& other) {
    return std::equal(one.begin(), one.end(), other.begin(), other.end(),
                      [](const auto& a, const auto& b) {
                          return a.first == b.first && a.second.record == b.second.record;
                      });
}

}  // namespace

bool same(const Device& one, const Device& other) {
    const auto& [serial, enrolment, enrolled, retired, location, software, selectedGroup,
                 poweredSince, fitted, lastHeld, use, precautions, holds, faults, waivers,
                 noticesDone, services, checks, last] = one;
    return std::tie(last, serial, enrolled, retired, location, software, selectedGroup,
                    poweredSince, precautions, noticesDone) ==
               std::tie(other.last, other.serial, other.enrolled, other.retired, other.location,
                        other.software, other.selectedGroup, other.poweredSince, other.precautions,
                        other.noticesDone) &&
           alike(use, other.use) && allAlike(checks, other.checks) &&
           allAlike(fitted, other.fitted) && allAlike(lastHeld, other.lastHeld) &&
           allAlike(services, other.services) && allAlike(holds, other.holds) &&
           allAlike(faults, other.faults) && allAlike(waivers, other.waivers) &&
           alike(enrolment, other.enrolment);
}

bool same(const KnownPart& one, const KnownPart& other) {
    const auto& [attributes, life, device] = one;
    return device == other.device && alike(life, other.life) && alike(attributes, other.attributes);
}

bool sameAuthority(const State& one, const State& other) {
    return one.rulebook == other.rulebook && one.adopted == other.adopted &&
           sameRecords(one.persons, other.persons);
}

bool sameNotices(const State& one, const State& other) {
    return sameRecords(one.notices, other.notices);
}

}  // namespace rules
