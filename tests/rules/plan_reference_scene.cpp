// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The device after tasks, read straight from the rules of conditions, events and new parts; see
// plan_reference_scene.h.
#include "rules/plan_reference_scene.h"

#include <algorithm>

namespace plan_reference {
namespace {

using rules::EventKind;
using rules::PathKind;

template <class Value>
bool lists(const rules::ConditionEntry& entry, const Value& value) {
    return std::find(entry.values.begin(), entry.values.end(),
                     std::variant<bool, std::string>(value)) != entry.values.end();
}

std::string attribute(const Scene& scene, const rules::PartAttributes& part,
                      const std::string& position, const std::string& key) {
    if (key == "reuse") {
        return std::string(
            logbook::name(part.reuse ? *part.reuse : scene.book.position(position)->reuse));
    }
    const auto found = part.texts.find(key);
    return found == part.texts.end() ? "" : found->second;
}

bool entryHolds(const Scene& scene, const rules::ConditionEntry& entry, bool unknown) {
    const auto part = scene.parts.find(entry.name);
    const auto& features = scene.device.enrolment.features;
    switch (entry.kind) {
        case PathKind::Feature:
            return lists(entry, std::count(features.begin(), features.end(), entry.name) > 0);
        case PathKind::Fitted: return lists(entry, part != scene.parts.end());
        case PathKind::Attribute: {
            if (part == scene.parts.end()) return false;
            const auto value = attribute(scene, part->second, entry.name, entry.attribute);
            return value.empty() ? unknown : lists(entry, value);
        }
        case PathKind::Group: return scene.group && lists(entry, *scene.group);
        case PathKind::Model: return lists(entry, scene.device.enrolment.model);
        case PathKind::InUse: return lists(entry, scene.device.use && !scene.device.use->paused);
        case PathKind::Precautions: return lists(entry, scene.device.precautions);
    }
    return false;
}

rules::PartAttributes newPart(const Question& question, const std::string& position) {
    rules::PartAttributes part;
    const auto& held = question.device.lastHeld;
    if (const auto last = held.find(position); last != held.end()) part = last->second;
    part.texts.erase("serial");
    part.texts.erase("lot");
    part.texts.erase("expires");
    part.expires.reset();
    if (!suits(part, question.group)) part.groups = {question.group};
    return part;
}

bool names(const rules::Event& pattern, const rules::Event& event) {
    const bool sameKind = pattern.kind == event.kind ||
                          (pattern.kind == EventKind::Change &&
                           (event.kind == EventKind::Fit || event.kind == EventKind::Remove));
    return sameKind && (pattern.subject == "*" || pattern.subject == event.subject);
}

bool onlyHolds(const Scene& scene, const Question& question, const rules::Check& check,
               const rules::VoidedBy& entry, const std::string& position) {
    if (entry.only == rules::Only::Any) return true;
    const auto& part = scene.parts.at(position);
    if (entry.only == rules::Only::NewPart) {
        const auto serial = attribute(scene, part, position, "serial");
        const auto state = question.device.checks.find(check.key);
        if (serial.empty() || state == question.device.checks.end()) return true;
        const auto passed = state->second.serialsAtPasses.find(position);
        return passed == state->second.serialsAtPasses.end() || !passed->second.contains(serial);
    }
    const auto last = question.device.lastHeld.find(position);
    if (last == question.device.lastHeld.end()) return true;
    const auto was = attribute(scene, last->second, position, entry.attribute);
    const auto is = attribute(scene, part, position, entry.attribute);
    return was.empty() || is.empty() || was != is;
}

}  // namespace

bool suits(const rules::PartAttributes& part, const std::string& group) {
    return part.groups &&
           std::find(part.groups->begin(), part.groups->end(), group) != part.groups->end();
}

Scene sceneAfter(const Question& question, const Tasks& tasks, bool withClosing) {
    Scene scene{*question.state.rulebook, question.device, question.device.group(), {}};
    if (tasks.group) scene.group = question.group;
    for (const auto& position : scene.book.positions) {
        const auto& key = position.key;
        const auto now = question.device.fitted.find(key);
        const bool closes = tasks.closing.contains(key);
        if (tasks.removedForChoice.contains(key) || (closes && !withClosing)) continue;
        if (tasks.newParts.contains(key)) {
            scene.parts[key] = newPart(question, key);
        } else if (now != question.device.fitted.end()) {
            scene.parts[key] = now->second.attributes;
        }
    }
    return scene;
}

bool holds(const Scene& scene, const rules::Condition& condition, bool unknown) {
    return std::all_of(condition.begin(), condition.end(),
                       [&](const auto& entry) { return entryHolds(scene, entry, unknown); });
}

bool voids(const Scene& scene, const Question& question, const rules::Check& check,
           const rules::Event& event) {
    for (const auto& entry : check.voidedBy) {
        if (!names(entry.event, event)) continue;
        if (!onlyHolds(scene, question, check, entry, event.subject)) continue;
        if (entry.when && !holds(scene, *entry.when, true)) continue;
        if (entry.unless && holds(scene, *entry.unless, false)) continue;
        return true;
    }
    return false;
}

bool isForbiddenWith(const Scene& scene, const rules::Check& check, const std::string& position) {
    for (const auto& rule : check.notWith) {
        if (rule.position != position) continue;
        if (!rule.when || holds(scene, *rule.when, true)) return true;
    }
    return false;
}

}  // namespace plan_reference
