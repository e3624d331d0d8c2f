// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Findings about what is fitted, what is missing, and what must not be fitted together.
#include "rules/evaluate.h"
#include "rules/findings.h"

#include <algorithm>

namespace rules {
namespace {

using logbook::Reuse;

Instant afterDay(const FindingContext& context, Day day) {
    return context.rulebook.zone->startOf(day + std::chrono::days{1});
}

// The earliest instant at which the part is to be changed, whichever rule says so.
std::optional<Instant> changeDueAt(const Position& position, const FittedPart& part,
                                   const PartLife& life) {
    std::optional<Instant> due;
    if (position.changeAfter) due = part.fit.at + *position.changeAfter;
    if (position.changeAfterUse && life.firstUse) {
        const Instant byUse = *life.firstUse + *position.changeAfterUse;
        due = due ? std::min(*due, byUse) : byUse;
    }
    return due;
}

struct PartContext {
    const FindingContext& all;
    const Position& position;
    const FittedPart& part;
    const PartLife& life;
    std::vector<Finding>& findings;

    void add(FindingCode code, std::optional<Instant> brought = std::nullopt) const {
        findings.push_back(resting(code, position.key, part.fit, brought));
    }
};

void addUseFinding(const PartContext& context) {
    if (context.all.device.use || !context.life.used) return;
    const Reuse reuse = reuseOf(context.part.attributes, context.position);
    if (reuse == Reuse::SingleUse || reuse == Reuse::SinglePatient) context.add(FindingCode::Spent);
    if (reuse == Reuse::Reusable) context.add(FindingCode::Unprocessed);
}

void addFittedFindings(const PartContext& context) {
    const auto& [all, position, part, life, findings] = context;
    if (position.matchGroup && all.group && !suits(part.attributes, *all.group, true)) {
        context.add(FindingCode::Mismatch);
    }
    if (part.attributes.expires) {
        const Instant expired = afterDay(all, *part.attributes.expires);
        if (all.at >= expired) context.add(FindingCode::Expired, expired);
    }
    const auto changeDue = changeDueAt(position, part, life);
    if (changeDue && all.at >= *changeDue) context.add(FindingCode::ChangeDue, changeDue);
    if (position.maxReprocess && life.cycles > *position.maxReprocess) {
        context.add(FindingCode::WornOut);
    }
    addUseFinding(context);
}

bool isRequired(const FindingContext& context, const Position& position) {
    if (position.required) return true;
    return position.requiredWhen &&
           holds(*position.requiredWhen, context.device, context.rulebook, Unknown::Holds);
}

void addChoiceFinding(const FindingContext& context, const Choice& choice,
                      std::vector<Finding>& findings) {
    const auto occupied = std::count_if(
        choice.positions.begin(), choice.positions.end(),
        [&](const std::string& position) { return context.device.fitted.contains(position); });
    if (occupied == 1) return;
    findings.push_back(resting(occupied == 0 ? FindingCode::Missing : FindingCode::Conflict,
                               choice.key, std::nullopt));
}

}  // namespace

void addPartFindings(const FindingContext& context, std::vector<Finding>& findings) {
    for (const Position& position : context.rulebook.positions) {
        const auto fitted = context.device.fitted.find(position.key);
        if (fitted != context.device.fitted.end()) {
            const PartLife& life = context.state.life(fitted->second, position.key);
            addFittedFindings({context, position, fitted->second, life, findings});
        } else if (isRequired(context, position)) {
            findings.push_back(resting(FindingCode::Missing, position.key, std::nullopt));
        }
    }
    for (const Choice& choice : context.rulebook.choices) {
        addChoiceFinding(context, choice, findings);
    }
    for (const Conflict& conflict : context.rulebook.conflicts) {
        if (holds(conflict.when, context.device, context.rulebook, Unknown::Holds)) {
            findings.push_back(resting(FindingCode::Conflict, conflict.key, std::nullopt));
        }
    }
}

void addPartTurningPoints(const FindingContext& context, std::set<Instant>& points) {
    for (const auto& [key, part] : context.device.fitted) {
        const Position* position = context.rulebook.position(key);
        if (!position) continue;
        const auto due = changeDueAt(*position, part, context.state.life(part, key));
        if (due) points.insert(*due);
        if (part.attributes.expires) points.insert(afterDay(context, *part.attributes.expires));
    }
}

}  // namespace rules
