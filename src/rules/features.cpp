// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looks through every condition of an edition; see features.h.
#include "rules/features.h"

#include <optional>
#include <set>

namespace rules {
namespace {

using Features = std::set<std::string>;

void add(Features& features, const Condition& condition) {
    for (const ConditionEntry& entry : condition) {
        if (entry.kind == PathKind::Feature) features.insert(entry.name);
    }
}

void add(Features& features, const std::optional<Condition>& condition) {
    if (condition) add(features, *condition);
}

void add(Features& features, const Check& check) {
    add(features, check.appliesWhen);
    for (const NotWith& forbidden : check.notWith) add(features, forbidden.when);
    for (const VoidedBy& voiding : check.voidedBy) {
        add(features, voiding.when);
        add(features, voiding.unless);
    }
}

}  // namespace

std::vector<std::string> featuresOf(const Rulebook& rulebook) {
    Features features;
    for (const Position& position : rulebook.positions) add(features, position.requiredWhen);
    for (const Conflict& conflict : rulebook.conflicts) add(features, conflict.when);
    for (const Check& check : rulebook.checks) add(features, check);
    for (const Service& service : rulebook.services) add(features, service.appliesWhen);
    for (const auto& [feature, label] : rulebook.featureLabels) features.insert(feature);
    return {features.begin(), features.end()};
}

}  // namespace rules
