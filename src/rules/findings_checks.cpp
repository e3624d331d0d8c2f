// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Findings about checks: due, failed, out of date; what each is to wait for.
#include "rules/evaluate.h"
#include "rules/findings.h"

#include <algorithm>

namespace rules {
namespace {

const CheckState& stateOf(const Device& device, const std::string& check) {
    static const CheckState never;
    const auto found = device.checks.find(check);
    return found == device.checks.end() ? never : found->second;
}

CheckStatus standing(const CheckState& state, const Check& check, Instant at) {
    if (!state.last) return CheckStatus::Due;
    if (state.lastFailed) return CheckStatus::Failed;
    if (!state.passFollows || !state.certainPassFollows) return CheckStatus::Due;
    if (check.validFor && at >= state.last->at + *check.validFor) return CheckStatus::Lapsed;
    return CheckStatus::Current;
}

bool isUncertain(const CheckState& state) {
    return state.last && !state.lastFailed && state.passFollows && !state.certainPassFollows;
}

// `due` rests on what voided the check; where only the order is uncertain, on the later of that and
// the last failure.
Finding dueFinding(const CheckState& state, const Check& check) {
    std::optional<RecordRef> record = state.voided;
    const bool uncertain = isUncertain(state);
    if (uncertain && state.lastFailure && (!record || *state.lastFailure > *record)) {
        record = state.lastFailure;
    }
    Finding finding = resting(FindingCode::Due, check.key, record);
    if (uncertain) finding.reason = "order_uncertain";
    finding.blocks = check.blocks;
    return finding;
}

Finding failedFinding(const CheckState& state, const Check& check) {
    Finding finding = resting(FindingCode::Failed, check.key, state.last);
    finding.blocks = check.failBlocks ? Blocks::Yes : check.blocks;
    return finding;
}

Finding lapsedFinding(const CheckState& state, const Check& check) {
    Finding finding =
        resting(FindingCode::Lapsed, check.key, state.last, state.last->at + *check.validFor);
    finding.blocks = check.blocks;
    return finding;
}

}  // namespace

CheckStatus statusOf(const State& state, const Device& device, const Check& check, Instant at) {
    if (!applies(check, device, *state.rulebook)) return CheckStatus::Exempt;
    return standing(stateOf(device, check.key), check, at);
}

std::optional<Instant> notBefore(const Device& device, const Check& check,
                                 const Rulebook& rulebook) {
    std::optional<Instant> latest;
    const auto wait = [&latest](Instant until) {
        latest = latest ? std::max(*latest, until) : until;
    };
    for (const NotBefore& rule : check.notBefore) {
        if (rule.event.kind == EventKind::PowerOn) {
            if (device.poweredSince) wait(*device.poweredSince + rule.wait);
            continue;
        }
        for (const auto& [position, part] : device.fitted) {
            if (!rulebook.position(position)) continue;
            if (rule.event.subject == "*" || rule.event.subject == position) {
                wait(part.fit.at + rule.wait);
            }
        }
    }
    return latest;
}

bool powerUnknown(const Device& device, const Check& check) {
    return !device.poweredSince &&
           std::any_of(check.notBefore.begin(), check.notBefore.end(),
                       [](const NotBefore& rule) { return rule.event.kind == EventKind::PowerOn; });
}

void addCheckFindings(const FindingContext& context, std::vector<Finding>& findings) {
    for (const Check& check : context.rulebook.checks) {
        const CheckStatus status = statusOf(context.state, context.device, check, context.at);
        if (status == CheckStatus::Exempt || status == CheckStatus::Current) continue;
        const CheckState& state = stateOf(context.device, check.key);
        Finding finding = status == CheckStatus::Due      ? dueFinding(state, check)
                          : status == CheckStatus::Failed ? failedFinding(state, check)
                                                          : lapsedFinding(state, check);
        const auto earliest = notBefore(context.device, check, context.rulebook);
        if (earliest && *earliest > context.at) finding.notBefore = earliest;
        if (state.discounted && (!finding.record || state.discounted->record > *finding.record)) {
            finding.discounted = state.discounted;
        }
        findings.push_back(std::move(finding));
    }
}

void addCheckTurningPoints(const FindingContext& context, std::set<Instant>& points) {
    for (const Check& check : context.rulebook.checks) {
        const CheckState& state = stateOf(context.device, check.key);
        if (check.validFor && state.last) points.insert(state.last->at + *check.validFor);
    }
}

}  // namespace rules
