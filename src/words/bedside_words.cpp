// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Words of the Bedside desk; see bedside_words.h.
#include "words/bedside_words.h"

#include "rules/possible_values.h"
#include "words/ground.h"

namespace words {

std::string passedAsserting(const Words& words, const std::vector<std::string>& conditions) {
    if (conditions.empty()) return words.say("bedside.passed");
    std::vector<std::string> inside;
    for (const auto& condition : conditions) inside.push_back(words.inside(condition));
    return words.say("bedside.passed_so", {{"conditions", words.all(inside)}});
}

std::string limitsText(const Words& words, const std::optional<double>& min,
                       const std::optional<double>& max, const std::string& unit) {
    if (min && max)
        return words.say("bedside.between", {{"least", quantity(words, *min, unit)},
                                             {"most", quantity(words, *max, unit)}});
    if (max) return words.say("bedside.at_most", {{"limit", quantity(words, *max, unit)}});
    if (min) return words.say("bedside.at_least", {{"limit", quantity(words, *min, unit)}});
    return "";
}

namespace {

double inUnit(double value, const std::string& unit, const std::string& wanted) {
    return unit == wanted ? value : logbook::convert(value, unit, wanted).value_or(value);
}

}  // namespace

std::string outsideSentence(const Words& words, const ValueOutside& outside) {
    const auto typed = [&outside](double value) {
        return inUnit(value, outside.unit, outside.typedUnit);
    };
    const auto both =
        compared(words, {outside.over, typed(outside.value), typed(outside.limit), false},
                 outside.typedUnit);
    const Gaps gaps{{"value", both.value}, {"limit", both.limit}};
    if (outside.breach == rules::Breach::Fail)
        return words.say(outside.over ? "bedside.over_fails" : "bedside.under_fails", gaps);
    return words.say(outside.over ? "bedside.over_discounts" : "bedside.under_discounts", gaps);
}

std::string impossibleSentence(const Words& words, const logbook::Bounds& bounds,
                               const MeasuredValue& measured) {
    const auto beyond = rules::beyond(bounds, measured.value);
    if (beyond == rules::Beyond::Nothing) return "";
    const bool isLess = beyond == rules::Beyond::Least;
    const double bound = isLess ? *bounds.least : *bounds.most;
    const auto told = [&](double value) {
        return quantity(words, inUnit(value, measured.unit, measured.typedUnit),
                        measured.typedUnit);
    };
    const Gaps gaps{{"measure", measured.label},
                    {"value", told(measured.value)},
                    {"bound", told(bound)}};
    return words.say(isLess ? "bedside.impossibly_low" : "bedside.impossibly_high", gaps);
}

std::string startsAt(const Words& words, const Times& times, logbook::Instant instant) {
    if (instant <= times.asked()) return words.say("bedside.now");
    return words.say("bedside.starts_at", {{"time", times.time(wholeMinute(instant))},
                                           {"wait", wait(words, instant - times.asked())}});
}

}  // namespace words
