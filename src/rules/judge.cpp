// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A check attempt: failed, passed, or discounted with every reason that holds.
#include "rules/assess.h"
#include "rules/authority.h"
#include "rules/discount_reasons.h"
#include "rules/evaluate.h"
#include "rules/folding.h"

#include "logbook/unit.h"

#include <algorithm>

namespace rules {
namespace {

namespace body = logbook::body;
using logbook::Outcome;
using Reasons = std::vector<std::string>;

// The limit for the selected group; `byGroupUnknown` if it goes by group and has none for it.
struct AppliedLimit {
    std::optional<double> value;
    bool byGroupUnknown = false;
};

AppliedLimit limitFor(const std::optional<Limit>& limit, const std::optional<std::string>& group) {
    if (!limit) return {};
    if (limit->forAll) return {limit->forAll, false};
    if (!group) return {std::nullopt, true};
    const auto found = limit->byGroup.find(*group);
    if (found == limit->byGroup.end()) return {std::nullopt, true};
    return {found->second, false};
}

enum class MeasureStanding { Within, OutOfLimits, Undecided, Absent };

// A measure of another dimension than the rulebook's is as if absent.
MeasureStanding standing(const MeasureRule& rule, const body::Check& attempt,
                         const std::optional<std::string>& group) {
    const auto given = attempt.measures.find(rule.key);
    if (given == attempt.measures.end()) return MeasureStanding::Absent;
    const auto value = logbook::convert(given->second.value, given->second.unit, rule.unit);
    if (!value) return MeasureStanding::Absent;
    const AppliedLimit min = limitFor(rule.min, group);
    const AppliedLimit max = limitFor(rule.max, group);
    const bool below =
        min.value && *value < *min.value && !logbook::sameMeasure(*value, *min.value);
    const bool above =
        max.value && *value > *max.value && !logbook::sameMeasure(*value, *max.value);
    if (below || above) return MeasureStanding::OutOfLimits;
    return min.byGroupUnknown || max.byGroupUnknown ? MeasureStanding::Undecided
                                                    : MeasureStanding::Within;
}

bool isFailure(const Device& device, const Check& check, const body::Check& attempt) {
    if (attempt.outcome == Outcome::Fail) return true;
    return std::any_of(check.measures.begin(), check.measures.end(), [&](const MeasureRule& rule) {
        return rule.breach == Breach::Fail &&
               standing(rule, attempt, device.group()) == MeasureStanding::OutOfLimits;
    });
}

bool states(const body::Check& attempt, std::string_view condition) {
    const auto& stated = attempt.conditions;
    return std::find(stated.begin(), stated.end(), condition) != stated.end();
}

void addMeasureReasons(Reasons& reasons, const Device& device, const Check& check,
                       const body::Check& attempt) {
    for (const MeasureRule& rule : check.measures) {
        const auto stands = standing(rule, attempt, device.group());
        if (stands == MeasureStanding::Absent && rule.required) {
            reasons.push_back(measureMissingReason(rule.key));
        }
        // Out of a limit whose breach fails is no reason here: the attempt has failed.
        if (stands == MeasureStanding::OutOfLimits || stands == MeasureStanding::Undecided) {
            reasons.push_back("measure " + rule.key);
        }
    }
}

void addSetUpReasons(Reasons& reasons, const Folding& folding, const Device& device,
                     const Check& check) {
    const auto group = device.group();
    for (const std::string& position : check.needsMatch) {
        if (!group || !fittedSuits(device, position, *group))
            reasons.push_back("mismatch " + position);
    }
    for (const NotWith& rule : check.notWith) {
        const bool inLine =
            device.fitted.contains(rule.position) &&
            (!rule.when || holds(*rule.when, device, folding.rulebook, Unknown::Holds));
        if (inLine) reasons.push_back("in_line " + rule.position);
    }
    for (const std::string& key : check.after) {
        const Check& before = *folding.rulebook.check(key);
        const auto status = statusOf(folding.state, device, before, folding.record.at);
        if (status != CheckStatus::Exempt && status != CheckStatus::Current) {
            reasons.push_back("order " + key);
        }
    }
}

bool isVerified(const Folding& folding) {
    const auto& record = folding.record;
    if (!record.witness || *record.witness == record.by) return false;
    if (record.doneBy && *record.witness == *record.doneBy) return false;
    return isKnown(folding.state, *record.witness, record.at);
}

Reasons discountReasons(const Folding& folding, const Device& device, const Check& check,
                        const body::Check& attempt) {
    Reasons reasons;
    if (attempt.outcome == Outcome::Incomplete) reasons.emplace_back("incomplete");
    const auto earliest = notBefore(device, check, folding.rulebook);
    if (earliest && folding.record.at < *earliest) reasons.emplace_back("too_early");
    if (powerUnknown(device, check) && !states(attempt, "warmed_up")) {
        reasons.emplace_back("power_unknown");
    }
    for (const std::string& condition : check.needs) {
        if (!states(attempt, condition)) reasons.push_back("condition " + condition);
    }
    addMeasureReasons(reasons, device, check, attempt);
    addSetUpReasons(reasons, folding, device, check);
    const bool onPatient = device.use && !device.use->paused;
    if (onPatient && !check.duringUse) reasons.emplace_back("in_use");
    if (check.needsSecond && !isVerified(folding)) reasons.emplace_back(unverified);
    std::sort(reasons.begin(), reasons.end());
    reasons.erase(std::unique(reasons.begin(), reasons.end()), reasons.end());
    return reasons;
}

// No record of another station that upset the check lies before the pass by less than the clocks
// may differ.
bool isCertain(const Folding& folding, const CheckState& state) {
    return std::none_of(state.lastUpset.begin(), state.lastUpset.end(), [&](const auto& upset) {
        return upset.first != folding.record.name.station &&
               folding.record.at - upset.second < folding.rulebook.clockTolerance;
    });
}

void noteSerials(CheckState& state, const Device& device, const Check& check) {
    for (const VoidedBy& entry : check.voidedBy) {
        if (entry.only != Only::NewPart) continue;
        for (const auto& [position, part] : device.fitted) {
            const bool named = entry.event.subject == "*" || entry.event.subject == position;
            const std::string serial(part.attributes.serial());
            if (named && !serial.empty()) state.serialsAtPasses[position].insert(serial);
        }
    }
}

void countFailure(const Folding& folding, CheckState& state) {
    state.last = folding.ref();
    state.lastFailed = true;
    state.lastFailure = folding.ref();
    state.passFollows = false;
    state.certainPassFollows = false;
    state.discounted.reset();
    state.lastUpset[folding.record.name.station] = folding.record.at;
}

}  // namespace

Judgement judge(const Folding& folding, const Device& device, const Check& check,
                const body::Check& attempt) {
    if (isFailure(device, check, attempt)) return {true, {}};
    return {false, discountReasons(folding, device, check, attempt)};
}

void foldCheck(Folding& folding, const body::Check& attempt) {
    Device& device = edit(folding, folding.record.device);
    const Check* check = folding.rulebook.check(attempt.check);
    if (!check) folding.note(AnomalyCode::UnknownKey);
    if (!check || !applies(*check, device, folding.rulebook)) {
        folding.effect.effective = false;
        return;
    }
    const Judgement judgement = judge(folding, device, *check, attempt);
    CheckState& state = device.checks[check->key];
    if (judgement.failure) return countFailure(folding, state);
    if (!judgement.reasons.empty()) {
        state.discounted = Discounted{folding.ref(), judgement.reasons};
        return;
    }
    state.last = folding.ref();
    state.lastFailed = false;
    state.passFollows = true;
    state.certainPassFollows |= isCertain(folding, state);
    state.discounted.reset();
    noteSerials(state, device, *check);
}

}  // namespace rules
