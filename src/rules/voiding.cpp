// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What an event on a device undoes: checks that name it in `voided_by`, services in `due_after`.
#include "rules/evaluate.h"
#include "rules/folding.h"
#include "rules/plan_tasks.h"

namespace rules {
namespace {

std::string attributeOf(const PartAttributes& part, const std::string& attribute,
                        const Position* position) {
    if (attribute == "reuse") {
        if (!part.reuse && !position) return "";
        return std::string(logbook::name(part.reuse ? *part.reuse : position->reuse));
    }
    if (attribute == "expires") return part.expires ? logbook::toText(*part.expires) : "";
    if (attribute == "groups") {
        std::string all;
        for (const auto& group : part.groups.value_or(std::vector<std::string>{})) {
            all += group + ' ';
        }
        return all;
    }
    return std::string(part.text(attribute));
}

// A part whose serial was there at a counted pass is not new to the check.
bool isNewPart(const Device& device, const Check& check, const std::string& position) {
    const std::string serial(device.fitted.at(position).attributes.serial());
    const auto state = device.checks.find(check.key);
    if (serial.empty() || state == device.checks.end()) return true;
    const auto serials = state->second.serialsAtPasses.find(position);
    return serials == state->second.serialsAtPasses.end() || !serials->second.contains(serial);
}

// A part put into a position, and the one that it held before; null if it held none.
struct Fitting {
    const std::string& position;
    const PartAttributes* before;
};

// An event; of a fit, what the position held before.
struct Happened {
    const Event& event;
    const PartAttributes* before;
};

// If the position held none before, or either part lacks the attribute, they count as different.
bool isDifferent(const Rulebook& rulebook, const Device& device, const VoidedBy& entry,
                 const Fitting& fit) {
    if (!fit.before) return true;
    const Position* rule = rulebook.position(fit.position);
    const auto was = attributeOf(*fit.before, entry.attribute, rule);
    const auto is = attributeOf(device.fitted.at(fit.position).attributes, entry.attribute, rule);
    return was.empty() || is.empty() || was != is;
}

bool onlyHolds(const Rulebook& rulebook, const Device& device, const Check& check,
               const VoidedBy& entry, const Fitting& fit) {
    if (entry.only == Only::NewPart) return isNewPart(device, check, fit.position);
    if (entry.only == Only::DifferentAttribute) return isDifferent(rulebook, device, entry, fit);
    return true;
}

bool voids(const Folding& folding, const Device& device, const Check& check, const VoidedBy& entry,
           const Happened& happened) {
    const Event& event = happened.event;
    if (!matches(entry.event, event)) return false;
    if (!onlyHolds(folding.rulebook, device, check, entry, {event.subject, happened.before})) {
        return false;
    }
    if (entry.when && !holds(*entry.when, device, folding.rulebook, Unknown::Holds)) return false;
    return !entry.unless || !holds(*entry.unless, device, folding.rulebook, Unknown::HoldsNot);
}

void setVoided(CheckState& state, const Folding& folding, const Event& event) {
    state.voided = folding.ref();
    state.voidedBy = event;
    state.passFollows = false;
    state.certainPassFollows = false;
    state.lastUpset[folding.record.name.station] = folding.record.at;
}

}  // namespace

bool fitVoids(const State& before, const Device& device, const Check& check, const VoidedBy& entry,
              const std::string& position) {
    const Device& was = *before.device(device.serial);
    const auto held = was.lastHeld.find(position);
    const PartAttributes* part = held == was.lastHeld.end() ? nullptr : &held->second;
    return device.fitted.contains(position) &&
           onlyHolds(*before.rulebook, device, check, entry, {position, part});
}

void raise(Folding& folding, const std::string& serial, const Event& event,
           const PartAttributes* before) {
    if (folding.tellsAll()) folding.effect.events.push_back({serial, event});
    Device& device = edit(folding, serial);
    const Check* voided = nullptr;
    for (const Voiding& place : folding.rulebook.voidings[static_cast<std::size_t>(event.kind)]) {
        const Check& check = folding.rulebook.checks[place.check];
        if (&check == voided) continue;
        if (!voids(folding, device, check, check.voidedBy[place.entry], {event, before})) continue;
        setVoided(device.checks[check.key], folding, event);
        voided = &check;
    }
    for (const Service& service : folding.rulebook.services) {
        for (const Event& pattern : service.dueAfter) {
            if (matches(pattern, event)) device.services[service.key].triggered = folding.ref();
        }
    }
}

}  // namespace rules
