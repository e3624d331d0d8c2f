// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looks through every condition of an edition; see features.h.
#include "rules/features.h"

#include <optional>
#include <variant>

namespace rules {
namespace {

template <class Take>
void forEachEntry(const Condition& condition, Take& take) {
    for (const ConditionEntry& entry : condition) take(entry);
}

template <class Take>
void forEachEntry(const std::optional<Condition>& condition, Take& take) {
    if (condition) forEachEntry(*condition, take);
}

template <class Take>
void forEachEntry(const Check& check, Take& take) {
    forEachEntry(check.appliesWhen, take);
    for (const NotWith& forbidden : check.notWith) forEachEntry(forbidden.when, take);
    for (const VoidedBy& voiding : check.voidedBy) {
        forEachEntry(voiding.when, take);
        forEachEntry(voiding.unless, take);
    }
}

// Calls `take` with each entry of each condition of the edition.
template <class Take>
void forEachEntry(const Rulebook& rulebook, Take take) {
    for (const Position& position : rulebook.positions) forEachEntry(position.requiredWhen, take);
    for (const Conflict& conflict : rulebook.conflicts) forEachEntry(conflict.when, take);
    for (const Check& check : rulebook.checks) forEachEntry(check, take);
    for (const Service& service : rulebook.services) forEachEntry(service.appliesWhen, take);
}

}  // namespace

std::vector<std::string> featuresOf(const Rulebook& rulebook) {
    std::set<std::string> features;
    forEachEntry(rulebook, [&](const ConditionEntry& entry) {
        if (entry.kind == PathKind::Feature) features.insert(entry.name);
    });
    for (const auto& [feature, label] : rulebook.featureLabels) features.insert(feature);
    return {features.begin(), features.end()};
}

LookedForValues attributesOf(const Rulebook& rulebook, std::string_view position) {
    LookedForValues attributes;
    forEachEntry(rulebook, [&](const ConditionEntry& entry) {
        if (entry.kind != PathKind::Attribute || entry.name != position) return;
        auto& values = attributes[entry.attribute];
        for (const auto& value : entry.values)
            if (const auto* text = std::get_if<std::string>(&value)) values.insert(*text);
    });
    return attributes;
}

}  // namespace rules
