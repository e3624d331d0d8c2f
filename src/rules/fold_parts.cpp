// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Parts: put in, taken out, used, reprocessed. A part with a serial keeps its life wherever it
// goes.
#include "rules/evaluate.h"
#include "rules/folding.h"

#include <cassert>
#include <set>

namespace rules {
namespace {

namespace body = logbook::body;

// Empty text clears what was known; what is not stated stays.
void state(PartAttributes& part, const logbook::StatedPart& stated) {
    for (const auto& [key, value] : stated.attributes) {
        if (key == "reuse") {
            part.reuse = logbook::reuseOf(value);
        } else if (key == "expires") {
            part.expires = logbook::parseDay(value);
        } else if (value.empty()) {
            part.texts.erase(key);
        } else {
            part.texts.insert_or_assign(key, value);
        }
    }
    if (!stated.groups) return;
    part.groups = stated.groups;
    if (part.groups->empty()) part.groups.reset();
}

// The part, known from now on if it was not.
Shared<KnownPart>& knownPart(Folding& folding, const PartKeyView& key) {
    if (folding.indexed) return folding.indexed->knownPart(key);
    State& state = folding.state;
    const auto place = state.parts.lower_bound(key);
    if (place != state.parts.end() && !PartKeyOrder{}(key, place->first)) return place->second;
    const PartKey isNew{std::string(key.first), std::string(key.second)};
    return state.parts.emplace_hint(place, isNew, Shared<KnownPart>())->second;
}

// One that is known: every part with a serial that stands in a device is, also in a state that was
// read (stateFromBytes refuses others).
KnownPart& partToEdit(Folding& folding, const PartKeyView& key) {
    State& state = folding.state;
    KnownPart& part = folding.indexed ? folding.indexed->part(key)->edit()
                                      : state.parts.find(key)->second.edit();
    assert(folding.reach == Reach::All || part.device.empty() ||
           part.device == folding.record.device);
    return part;
}

PartLife& lifeOf(Folding& folding, FittedPart& part, const std::string& position) {
    const auto serial = part.attributes.serial();
    if (serial.empty()) return part.life;
    return partToEdit(folding, {position, serial}).life;
}

// `partOf` gives a known part to change.
template <class PartOf>
void takeOutOf(Device& device, const std::string& position, PartOf partOf) {
    const auto fitted = device.fitted.find(position);
    if (fitted == device.fitted.end()) return;
    const std::string_view serial = fitted->second.attributes.serial();
    if (!serial.empty()) partOf(PartKeyView{position, serial}).device.clear();
    device.fitted.erase(fitted);
}

void use(PartLife& life, Instant at) {
    life.used = true;
    if (!life.firstUse) life.firstUse = at;
}

// A part that stands in another device is thereby removed there.
void fetch(Folding& folding, const std::string& position, const std::string& from) {
    takeOut(folding, edit(folding, from), position);
    folding.note(AnomalyCode::PartMoved);
    raise(folding, from, {EventKind::Remove, position});
}

bool runsOnPatient(const Device& device) {
    return device.use && !device.use->paused;
}

bool reprocesses(const Position& position, const PartAttributes& part, logbook::Level level) {
    return reuseOf(part, position) == logbook::Reuse::Reusable && level >= position.reprocessLevel;
}

void renew(PartLife& life) {
    life.used = false;
    life.firstUse.reset();
    ++life.cycles;
}

void reprocessFitted(Folding& folding, const Position& position, logbook::Level level) {
    Device& device = edit(folding, folding.record.device);
    const auto fitted = device.fitted.find(position.key);
    if (fitted == device.fitted.end() || runsOnPatient(device)) return;
    if (!reprocesses(position, fitted->second.attributes, level)) return;
    renew(lifeOf(folding, fitted->second, position.key));
    raise(folding, device.serial, {EventKind::Reprocess, position.key});
}

void reprocessKnown(Folding& folding, const Position& position, const std::string& serial) {
    const auto level = std::get<body::Reprocess>(folding.record.body).level;
    auto [known, isNew] = folding.state.parts.try_emplace({position.key, serial});
    KnownPart& part = known->second.edit();
    if (isNew) part.attributes.texts["serial"] = serial;
    const Device* standsIn = folding.state.device(part.device);
    if (standsIn && runsOnPatient(*standsIn)) return;
    if (!reprocesses(position, part.attributes, level)) return;
    renew(part.life);
    if (standsIn) raise(folding, part.device, {EventKind::Reprocess, position.key});
}

}  // namespace

void takeOut(State& state, Device& device, const std::string& position) {
    takeOutOf(device, position, [&](const PartKeyView& key) -> KnownPart& {
        return state.parts.find(key)->second.edit();
    });
}

void takeOut(Folding& folding, Device& device, const std::string& position) {
    takeOutOf(device, position, [&](const PartKeyView& key) -> KnownPart& {
        return partToEdit(folding, key);
    });
}

void foldFit(Folding& folding, const body::Fit& fit) {
    if (!folding.rulebook.position(fit.position)) {
        folding.note(AnomalyCode::UnknownKey);
        folding.effect.effective = false;
        return;
    }
    const std::string& serial = folding.record.device;
    const auto stated = fit.part.attributes.find("serial");
    FittedPart part;
    part.fit = folding.ref();
    if (stated != fit.part.attributes.end() && !stated->second.empty()) {
        Shared<KnownPart>& kept = knownPart(folding, {fit.position, stated->second});
        const std::string standsIn = kept->device;
        if (!standsIn.empty() && standsIn != serial) fetch(folding, fit.position, standsIn);
        takeOut(folding, edit(folding, serial), fit.position);
        KnownPart& known = kept.edit();
        state(known.attributes, fit.part);
        known.device = serial;
        part.attributes = known.attributes;
    } else {
        takeOut(folding, edit(folding, serial), fit.position);
        state(part.attributes, fit.part);
    }
    Device& device = edit(folding, serial);
    FittedPart& fitted =
        device.fitted.insert_or_assign(fit.position, std::move(part)).first->second;
    if (runsOnPatient(device)) use(lifeOf(folding, fitted, fit.position), folding.record.at);
    const auto held = device.lastHeld.find(fit.position);
    const bool heldOne = held != device.lastHeld.end();
    raise(folding, serial, {EventKind::Fit, fit.position}, heldOne ? &held->second : nullptr);
    if (heldOne) {
        held->second = fitted.attributes;
    } else {
        device.lastHeld.try_emplace(fit.position, fitted.attributes);
    }
}

void foldRemove(Folding& folding, const body::Remove& remove) {
    Device& device = edit(folding, folding.record.device);
    const bool known = folding.rulebook.position(remove.position) != nullptr;
    if (!known) folding.note(AnomalyCode::UnknownKey);
    if (!known || !device.fitted.contains(remove.position)) {
        folding.effect.effective = false;
        return;
    }
    takeOut(folding, device, remove.position);
    raise(folding, device.serial, {EventKind::Remove, remove.position});
}

void foldReprocess(Folding& folding, const body::Reprocess& reprocess) {
    bool unknown = false;
    const std::set<std::string> positions(reprocess.positions.begin(), reprocess.positions.end());
    for (const std::string& key : positions) {
        const Position* position = folding.rulebook.position(key);
        if (position) reprocessFitted(folding, *position, reprocess.level);
        unknown |= !position;
    }
    std::set<PartKey> parts;
    for (const auto& part : reprocess.parts) parts.insert({part.position, part.serial});
    for (const auto& [key, serial] : parts) {
        const Position* position = folding.rulebook.position(key);
        if (position) reprocessKnown(folding, *position, serial);
        unknown |= !position;
    }
    if (unknown) folding.note(AnomalyCode::UnknownKey);
}

void markUsed(Folding& folding, Device& device, bool onPatient) {
    for (auto& [position, part] : device.fitted) {
        PartLife& life = lifeOf(folding, part, position);
        if (onPatient) {
            use(life, folding.record.at);
        } else {
            life.used = true;
        }
    }
}

}  // namespace rules
