// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a step asks for, and whether a value may be kept; see bedside_acts.h.
#include "report/bedside_acts.h"

#include "rules/features.h"
#include "rules/possible_values.h"
#include "words/attribute_text.h"
#include "words/bedside_words.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace report {

namespace {

using words::Context;

// The limit for a group, and whether there would have to be one.
struct GroupLimit {
    std::optional<double> value;
    bool lacking = false;
};

GroupLimit limitFor(const std::optional<rules::Limit>& limit,
                    const std::optional<std::string>& group) {
    if (!limit || limit->forAll) return {limit ? limit->forAll : std::nullopt, false};
    const auto found = group ? limit->byGroup.find(*group) : limit->byGroup.end();
    if (found == limit->byGroup.end()) return {std::nullopt, true};
    return {found->second, false};
}

std::string limitsFor(const Context& context, const rules::MeasureRule& rule,
                      const AskedMeasure& asked, const std::optional<std::string>& group) {
    const auto& words = context.words;
    const words::Gaps gaps{{"group", group ? words::groupLabel(context, *group) : ""}};
    if (asked.noLimitForGroup)
        return words.say(group ? "bedside.no_limit_for" : "bedside.no_limit_unset", gaps);
    auto limits = words::limitsText(words, asked.min, asked.max, asked.unit);
    const bool byGroup = (rule.min && !rule.min->forAll) || (rule.max && !rule.max->forAll);
    if (limits.empty() || !byGroup) return limits;
    return words.say("bedside.limits_for", {{"limits", limits}, {"group", gaps.at("group")}});
}

AskedMeasure askedMeasure(const Context& context, const rules::Check& check,
                          const rules::MeasureRule& rule,
                          const std::optional<std::string>& group) {
    const auto min = limitFor(rule.min, group);
    const auto max = limitFor(rule.max, group);
    AskedMeasure asked;
    asked.key = rule.key;
    asked.label = words::measureLabel(context, check.key, rule.key);
    asked.unit = rule.unit;
    asked.required = rule.required;
    asked.min = min.value;
    asked.max = max.value;
    asked.noLimitForGroup = min.lacking || max.lacking;
    asked.breach = rule.breach;
    asked.possible = rules::possibleValues(rule);
    asked.limits = limitsFor(context, rule, asked, group);
    if (asked.min || asked.max)
        asked.outside = context.words.say(rule.breach == rules::Breach::Fail
                                              ? "bedside.outside_fails"
                                              : "bedside.outside_discounts");
    return asked;
}

std::vector<AssertedCondition> conditionsOf(const Context& context, const rules::Check& check) {
    auto keys = check.needs;
    // Of a unit that is off, or not known to be on, only the person knows how long it has been.
    const std::string warm = "warmed_up";
    if (context.device && rules::powerUnknown(*context.device, check) &&
        std::find(keys.begin(), keys.end(), warm) == keys.end())
        keys.push_back(warm);
    std::vector<AssertedCondition> conditions;
    for (const auto& key : keys) conditions.push_back({key, words::conditionLabel(context, key)});
    return conditions;
}

}  // namespace

bool mayBeNegative(const AskedMeasure& measure) {
    if (measure.possible.least && *measure.possible.least >= 0) return false;
    const auto isBelow = [](const std::optional<double>& limit) { return limit && *limit < 0; };
    return isBelow(measure.min) || isBelow(measure.max) || (!measure.min && !measure.max);
}

bool mustBeAnswered(logbook::Kind kind, std::string_view field) {
    using logbook::Kind;
    switch (kind) {
        case Kind::Group: return field == "group";
        case Kind::Move:
        case Kind::Sighted: return field == "location";
        case Kind::Note: return field == "text";
        case Kind::Alarm:
        case Kind::Fault:
        case Kind::Clear: return field == "code";
        case Kind::Withdraw:
        case Kind::Release: return field == "hold";
        case Kind::NoticeDone: return field == "key";
        case Kind::Service: return field == "service" || field == "outcome";
        case Kind::Waive: return field == "finding" || field == "until" || field == "reason";
        case Kind::UseStart: return field == "before";
        default: return false;
    }
}

CheckToLog checkToLog(const Context& context, const rules::Check& check,
                      const std::optional<std::string>& selecting) {
    CheckToLog log;
    log.check = check.key;
    log.label = words::checkLabel(context, check.key);
    log.conditions = conditionsOf(context, check);
    std::vector<std::string> labels;
    for (const auto& condition : log.conditions) labels.push_back(condition.label);
    log.asserts = words::passedAsserting(context.words, labels);
    log.failed = context.words.say("bedside.failed");
    log.needsSecond = check.needsSecond;
    log.groupFirst = selecting.has_value();
    log.group = selecting;
    if (!log.group && context.device) log.group = context.device->group();
    for (const auto& rule : check.measures)
        log.measures.push_back(askedMeasure(context, check, rule, log.group));
    std::stable_partition(log.measures.begin(), log.measures.end(),
                          [](const auto& measure) { return measure.required; });
    return log;
}

FitToLog fitToLog(const Context& context, const std::string& position,
                  const std::optional<std::string>& group) {
    FitToLog log;
    log.position = position;
    log.label = words::positionLabel(context, position);
    log.proposed = proposalForPosition(context, position, group);
    log.occupied = context.fitted(position) != nullptr;
    for (const auto& [key, values] : rules::attributesOf(*context.state.rulebook, position)) {
        if (isOfOnePart(key) || key == "model" || key == "reuse") continue;
        log.asked.push_back({key, words::capitalized(words::attributeLabel(context.words, key)),
                             {values.begin(), values.end()}});
    }
    return log;
}

RemoveToLog removeToLog(const Context& context, const std::string& position) {
    return {position, words::positionLabel(context, position)};
}

ReprocessToLog reprocessToLog(const Context& context, const rules::Position& position) {
    return {position.key, words::positionLabel(context, position.key), position.reprocessLevel,
            context.words.say("level." + std::string(logbook::name(position.reprocessLevel)))};
}

std::string limitsIn(const words::Words& words, const AskedMeasure& measure,
                     std::string_view unit) {
    const auto converted = [&](const std::optional<double>& limit) {
        return limit ? logbook::convert(*limit, measure.unit, unit) : std::nullopt;
    };
    return words::limitsText(words, converted(measure.min), converted(measure.max),
                             std::string(unit));
}

std::vector<std::string> unitsFor(const AskedMeasure& measure, const std::string& usual) {
    std::vector<std::string> units{usual};
    if (usual != measure.unit) units.push_back(measure.unit);
    for (const auto unit : logbook::unitNames())
        if (unit != usual && unit != measure.unit && logbook::convert(1, unit, measure.unit))
            units.emplace_back(unit);
    return units;
}

namespace {

using Standing = MeasureJudgement::Standing;

// By what the edition says of it; the value is in its unit, and told in the one that was typed.
MeasureJudgement byLimits(const words::Words& words, const AskedMeasure& measure, double value,
                          const std::string& typedUnit) {
    const auto outside = [&](const std::optional<double>& limit, bool over) {
        return limit && (over ? value > *limit : value < *limit) &&
               !logbook::sameMeasure(value, *limit);
    };
    const auto stands =
        measure.breach == rules::Breach::Fail ? Standing::Fails : Standing::DoesNotCount;
    for (const bool over : {false, true}) {
        const auto& limit = over ? measure.max : measure.min;
        if (outside(limit, over))
            return {stands,
                    words::outsideSentence(words, {over, value, *limit, measure.unit,
                                                   measure.breach, typedUnit}),
                    value};
    }
    if (measure.noLimitForGroup)
        return {Standing::DoesNotCount, words::capitalized(measure.limits) + ".", value};
    return {Standing::Within, "", value};
}

}  // namespace

MeasureJudgement judge(const words::Words& words, const AskedMeasure& measure, double value,
                       std::string_view unit) {
    if (!std::isfinite(value))
        return {Standing::NotANumber,
                words.say("bedside.not_a_number", {{"measure", measure.label}}), 0};
    const auto converted =
        unit == measure.unit ? std::optional(value) : logbook::convert(value, unit, measure.unit);
    if (!converted)
        return {Standing::OtherDimension,
                words.say("bedside.other_dimension", {{"measure", measure.label},
                                                      {"unit", std::string(unit)},
                                                      {"wanted", measure.unit}}),
                0};
    const std::string typedUnit(unit);
    auto judged = byLimits(words, measure, *converted, typedUnit);
    const auto impossible = words::impossibleSentence(
        words, measure.possible, {measure.label, *converted, measure.unit, typedUnit});
    if (impossible.empty()) return judged;
    judged.isImpossible = true;
    if (judged.standing == Standing::Within) judged.standing = Standing::Impossible;
    judged.sentence = judged.sentence.empty() ? impossible : impossible + " " + judged.sentence;
    return judged;
}

std::optional<double> typedNumber(std::string_view text) {
    const auto blank = " \t";
    const auto begin = text.find_first_not_of(blank);
    if (begin == std::string_view::npos) return std::nullopt;
    std::string digits(text.substr(begin, text.find_last_not_of(blank) - begin + 1));
    if (digits.starts_with('+')) digits.erase(0, 1);
    if (const auto comma = digits.find(','); comma != std::string::npos) digits[comma] = '.';
    if (digits.find_first_not_of("0123456789.-") != std::string::npos) return std::nullopt;
    double value = 0;
    const auto* end = digits.data() + digits.size();
    const auto read = std::from_chars(digits.data(), end, value);
    if (read.ec != std::errc{} || read.ptr != end) return std::nullopt;
    return value;
}

}  // namespace report
