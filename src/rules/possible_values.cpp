// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Bounds of a measure; see possible_values.h.
#include "rules/possible_values.h"

#include <vector>

namespace rules {

namespace {

void addLimits(std::vector<double>& limits, const std::optional<Limit>& limit) {
    if (!limit) return;
    if (limit->forAll) limits.push_back(*limit->forAll);
    for (const auto& [group, value] : limit->byGroup) limits.push_back(value);
}

}  // namespace

logbook::Bounds possibleValues(const MeasureRule& rule) {
    auto bounds = logbook::boundsOf(rule.unit);
    std::vector<double> limits;
    addLimits(limits, rule.min);
    addLimits(limits, rule.max);
    const auto whole = bounds;
    for (const double limit : limits) {
        switch (beyond(whole, limit)) {
            case Beyond::Least: bounds.least.reset(); break;
            case Beyond::Most: bounds.most.reset(); break;
            case Beyond::Nothing: break;
        }
    }
    return bounds;
}

Beyond beyond(const logbook::Bounds& bounds, double value) {
    const auto differs = [value](double bound) { return !logbook::sameMeasure(value, bound); };
    if (bounds.least && value < *bounds.least && differs(*bounds.least)) return Beyond::Least;
    if (bounds.most && value > *bounds.most && differs(*bounds.most)) return Beyond::Most;
    return Beyond::Nothing;
}

}  // namespace rules
