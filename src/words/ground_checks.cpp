// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Findings about checks, in words: due, failed, out of date, and the values that made it so.
#include "logbook/unit.h"
#include "words/finding_words.h"
#include "words/ground.h"
#include "words/record_words.h"

#include <algorithm>

namespace words {

namespace {

using rules::Finding;
using rules::FindingCode;

const rules::CheckState* stateOf(const Context& context, const std::string& check) {
    if (!context.device) return nullptr;
    const auto found = context.device->checks.find(check);
    return found == context.device->checks.end() ? nullptr : &found->second;
}

// Whether a start of use voided the check only by the end of use that it implies.
bool impliedUseEnd(const Context& context, const Finding& finding, const logbook::Record& record) {
    const auto* rule = context.state.rulebook->check(finding.subject);
    if (!rule || record.kind() != logbook::Kind::UseStart) return false;
    const auto named = [&](rules::EventKind kind) {
        return std::any_of(rule->voidedBy.begin(), rule->voidedBy.end(),
                           [&](const auto& entry) { return entry.event.kind == kind; });
    };
    return named(rules::EventKind::UseEnd) && !named(rules::EventKind::UseStart);
}

// The clause of what the finding rests on; empty if that cannot be told.
std::string groundClause(const Context& context, const Finding& finding) {
    if (!finding.record) return "";
    const auto* state = stateOf(context, finding.subject);
    if (state && state->voided == finding.record && state->voidedBy)
        return eventClause(context, *state->voidedBy, finding.record->at);
    const auto* record = context.record(finding.record->name);
    if (record && impliedUseEnd(context, finding, *record))
        return eventClause(context, {rules::EventKind::UseEnd, ""}, record->at);
    if (record) return recordClause(context, *record);
    return context.words.say("event.other", {{"when", context.times().when(finding.record->at)}});
}

Sentence dueGround(const Context& context, const Finding& finding, Gaps gaps) {
    const auto* state = stateOf(context, finding.subject);
    std::string key = "finding.due_never";
    if (finding.reason == "order_uncertain") {
        gaps["tolerance"] = duration(context.words, context.state.rulebook->clockTolerance);
        key = "finding.due_uncertain";
    } else if (finding.record) {
        gaps["event"] = groundClause(context, finding);
        // Told from the records alone it is not known whether the check was ever passed.
        key = state && state->last ? "finding.due_voided" : "finding.due_voided_never";
    }
    const auto says = context.words.say(key + ".says", gaps);
    if (finding.blocks == rules::Blocks::Start)
        return {says, context.words.say("finding.due_start.do", gaps)};
    const auto action = key == "finding.due_voided_never" ? "finding.due_never" : key;
    return {says, context.words.say(action + ".do", gaps)};
}

// The first measure of the record that made it a failure, with its advice; empty if none did.
Sentence failedMeasure(const Context& context, const rules::Check& rule,
                       const logbook::Record& record, Gaps gaps) {
    const auto* body = std::get_if<logbook::body::Check>(&record.body);
    if (!body) return {};
    const auto group = context.device ? context.device->group() : context.group;
    for (const auto& measureRule : rule.measures) {
        const auto measure = body->measures.find(measureRule.key);
        if (measureRule.breach != rules::Breach::Fail || measure == body->measures.end()) continue;
        const auto breach = outOfLimits(measureRule, measure->second, group);
        if (!breach) continue;
        const auto both = compared(context.words, *breach, measureRule.unit);
        gaps["measure"] = context.words.inside(measureLabel(context, rule.key, measureRule.key));
        gaps["value"] = both.value;
        gaps["limit"] = both.limit;
        if (group) gaps["group"] = groupLabel(context, *group);
        const std::string key = breach->over ? "finding.failed_max" : "finding.failed_min";
        return {context.words.say(key + (breach->byGroup ? "_group.says" : ".says"), gaps),
                adviceOf(context, &measureRule)};
    }
    return {};
}

Sentence failedGround(const Context& context, const Finding& finding, Gaps gaps) {
    gaps["when"] = finding.record ? context.times().when(finding.record->at) : "";
    const auto* rule = context.state.rulebook->check(finding.subject);
    const auto* record = finding.record ? context.record(finding.record->name) : nullptr;
    Sentence told;
    if (rule && record) told = failedMeasure(context, *rule, *record, gaps);
    if (told.says.empty()) told.says = context.words.say("finding.failed.says", gaps);
    // Advice on a check is about a failed one; that a due one is to be carried out needs none.
    if (told.action.empty())
        told.action = advisedOr(context, rule, context.words.say("finding.failed.do", gaps));
    return told;
}

Sentence lapsedGround(const Context& context, const Finding& finding, Gaps gaps) {
    const auto* rule = context.state.rulebook->check(finding.subject);
    const auto action = context.words.say("finding.lapsed.do", gaps);
    if (!rule || !rule->validFor || !finding.record)
        return {context.words.say("finding.lapsed_plain.says", gaps), action};
    gaps["when"] = context.times().when(finding.record->at);
    gaps["duration"] = duration(context.words, *rule->validFor);
    return {context.words.say("finding.lapsed.says", gaps), action};
}

Sentence plainGround(const Context& context, const Finding& finding) {
    const Gaps gaps{{"check", context.words.inside(checkLabel(context, finding.subject))}};
    if (finding.code == FindingCode::Failed) return failedGround(context, finding, gaps);
    if (finding.code == FindingCode::Lapsed) return lapsedGround(context, finding, gaps);
    return dueGround(context, finding, gaps);
}

std::optional<double> limitFor(const std::optional<rules::Limit>& limit,
                               const std::optional<std::string>& group) {
    if (!limit) return std::nullopt;
    if (limit->forAll) return limit->forAll;
    const auto found = group ? limit->byGroup.find(*group) : limit->byGroup.end();
    return found == limit->byGroup.end() ? std::nullopt : std::optional(found->second);
}

}  // namespace

std::optional<OutOfLimits> outOfLimits(const rules::MeasureRule& rule,
                                       const logbook::Measure& measure,
                                       const std::optional<std::string>& group) {
    const auto value = logbook::convert(measure.value, measure.unit, rule.unit);
    if (!value) return std::nullopt;
    const auto max = limitFor(rule.max, group);
    if (max && *value > *max && !logbook::sameMeasure(*value, *max))
        return OutOfLimits{true, *value, *max, !rule.max->forAll};
    const auto min = limitFor(rule.min, group);
    if (min && *value < *min && !logbook::sameMeasure(*value, *min))
        return OutOfLimits{false, *value, *min, !rule.min->forAll};
    return std::nullopt;
}

Compared compared(const Words& words, const OutOfLimits& breach, const std::string& unit) {
    Compared both{quantity(words, breach.value, unit), number(words, breach.limit)};
    if (number(words, breach.value) != both.limit) return both;
    both.value = words.say("number.quantity",
                           {{"value", exactNumber(words, breach.value)}, {"unit", unit}});
    return both;
}

Sentence checkGround(const Context& context, const Finding& finding) {
    return plainGround(context, finding);
}

}  // namespace words
