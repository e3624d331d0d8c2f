// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Conditions on a device's state; see evaluate.h.
#include "rules/evaluate.h"

#include <algorithm>

namespace rules {
namespace {

bool anyIs(const ConditionEntry& entry, bool value) {
    return std::any_of(entry.values.begin(), entry.values.end(), [value](const auto& wanted) {
        const bool* flag = std::get_if<bool>(&wanted);
        return flag && *flag == value;
    });
}

bool anyIs(const ConditionEntry& entry, std::string_view value) {
    return std::any_of(entry.values.begin(), entry.values.end(), [value](const auto& wanted) {
        const std::string* text = std::get_if<std::string>(&wanted);
        return text && *text == value;
    });
}

bool contains(const std::vector<std::string>& set, std::string_view key) {
    return std::find(set.begin(), set.end(), key) != set.end();
}

bool attributeHolds(const ConditionEntry& entry, const Device& device, const Rulebook& rulebook,
                    Unknown unknown) {
    const auto fitted = device.fitted.find(entry.name);
    if (fitted == device.fitted.end()) return false;
    const PartAttributes& part = fitted->second.attributes;
    if (entry.attribute == "reuse") {
        const Position* position = rulebook.position(entry.name);
        if (!part.reuse && !position) return unknown == Unknown::Holds;
        return anyIs(entry, logbook::name(part.reuse ? *part.reuse : position->reuse));
    }
    if (entry.attribute == "expires" && part.expires) {
        return anyIs(entry, logbook::toText(*part.expires));
    }
    if (entry.attribute == "groups" && part.groups) {
        return std::any_of(part.groups->begin(), part.groups->end(),
                           [&](const std::string& group) { return anyIs(entry, group); });
    }
    const std::string_view stated = part.text(entry.attribute);
    if (stated.empty()) return unknown == Unknown::Holds;
    return anyIs(entry, stated);
}

bool entryHolds(const ConditionEntry& entry, const Device& device, const Rulebook& rulebook,
                Unknown unknown) {
    switch (entry.kind) {
        case PathKind::Feature:
            return anyIs(entry, contains(device.enrolment.features, entry.name));
        case PathKind::Fitted: return anyIs(entry, device.fitted.contains(entry.name));
        case PathKind::Attribute: return attributeHolds(entry, device, rulebook, unknown);
        case PathKind::Group: {
            const auto group = device.group();
            return group && anyIs(entry, *group);
        }
        case PathKind::Model: return anyIs(entry, device.enrolment.model);
        case PathKind::InUse: return anyIs(entry, device.use && !device.use->paused);
        case PathKind::Precautions: return anyIs(entry, device.precautions);
    }
    return false;
}

}  // namespace

bool holds(const Condition& condition, const Device& device, const Rulebook& rulebook,
           Unknown unknown) {
    return std::all_of(condition.begin(), condition.end(), [&](const ConditionEntry& entry) {
        return entryHolds(entry, device, rulebook, unknown);
    });
}

bool applies(const Check& check, const Device& device, const Rulebook& rulebook) {
    return holds(check.appliesWhen, device, rulebook, Unknown::Holds);
}

bool applies(const Service& service, const Device& device, const Rulebook& rulebook) {
    return holds(service.appliesWhen, device, rulebook, Unknown::Holds);
}

logbook::Reuse reuseOf(const PartAttributes& part, const Position& position) {
    return part.reuse.value_or(position.reuse);
}

bool suits(const PartAttributes& part, std::string_view group, bool strict) {
    if (!part.groups) return !strict;
    return contains(*part.groups, group);
}

bool fittedSuits(const Device& device, std::string_view position, std::string_view group) {
    const auto fitted = device.fitted.find(position);
    return fitted != device.fitted.end() && suits(fitted->second.attributes, group, true);
}

}  // namespace rules
