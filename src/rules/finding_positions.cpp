// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Positions of findings; see finding_positions.h.
#include "rules/finding_positions.h"

#include "rules/findings.h"

namespace rules {

namespace {

std::vector<std::string> missing(const Rulebook& rulebook, const std::string& subject) {
    const auto* choice = rulebook.choice(subject);
    return choice ? choice->positions : std::vector{subject};
}

std::vector<std::string> inConflict(const Rulebook& rulebook, const Device& device,
                                    const std::string& subject) {
    std::vector<std::string> named;
    if (const auto* choice = rulebook.choice(subject)) {
        named = choice->positions;
    } else if (const auto* conflict = rulebook.conflict(subject)) {
        for (const auto& entry : conflict->when) {
            if (entry.kind == PathKind::Fitted || entry.kind == PathKind::Attribute)
                named.push_back(entry.name);
        }
    }
    std::erase_if(named, [&](const auto& position) { return !device.fitted.contains(position); });
    return named;
}

}  // namespace

std::vector<std::string> positionsOf(const Finding& finding, const State& state,
                                     const Device& device, Instant at) {
    const auto& rulebook = *state.rulebook;
    switch (finding.code) {
        case FindingCode::ChangeDue:
        case FindingCode::Expired:
        case FindingCode::Mismatch:
        case FindingCode::Spent:
        case FindingCode::Unprocessed:
        case FindingCode::WornOut: return {finding.subject};
        case FindingCode::Missing: return missing(rulebook, finding.subject);
        case FindingCode::Conflict: return inConflict(rulebook, device, finding.subject);
        case FindingCode::Notice: break;
        default: return {};
    }
    const auto known = state.notices.find(finding.subject);
    if (known == state.notices.end()) return {};
    return positionsUnder({state, rulebook, device, at, device.group(), device.group()},
                          known->second);
}

}  // namespace rules
