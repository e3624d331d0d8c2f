// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Downtime forms as text: blanks are written on by hand, so each is wide and on a line of its own.
#include "report/downtime_forms.h"

#include <map>

namespace report {

namespace {

using words::Context;

std::string blank(std::size_t columns) {
    return std::string(columns, '_');
}

// "Unit, serial: ______", the blank as wide as the line lets it be; on a line of its own below a
// label that leaves it too little.
std::string field(const std::string& label, std::size_t width, std::size_t indent = 0) {
    constexpr std::size_t least = 12;
    const std::string start = std::string(indent, ' ') + label + ": ";
    if (start.size() + least <= width) return start + blank(width - start.size()) + "\n";
    return wrapped(label + ":", width, indent) + std::string(indent, ' ') +
           blank(width - indent) + "\n";
}

std::string limitText(const Context& context, std::string_view key, const rules::Limit& limit) {
    const auto& words = context.words;
    if (limit.forAll) return words.say(key, {{"value", words::number(words, *limit.forAll)}});
    std::map<double, std::vector<std::string>> groups;
    for (const auto& [group, value] : limit.byGroup)
        groups[value].push_back(words::groupLabel(context, group));
    std::string text;
    for (const auto& [value, labels] : groups) {
        const auto one = words.say("forms.for_group", {{"group", words.all(labels)},
                                                       {"value", words::number(words, value)}});
        text += (text.empty() ? "" : ", ") + one;
    }
    return words.say(key, {{"value", text}});
}

// "Leak, mL/min; at most 200".
std::string measureText(const Context& context, const rules::Check& check,
                        const rules::MeasureRule& measure) {
    std::vector<std::string> limits;
    if (measure.min) limits.push_back(limitText(context, "forms.at_least", *measure.min));
    if (measure.max) limits.push_back(limitText(context, "forms.at_most", *measure.max));
    std::string text = words::measureLabel(context, check.key, measure.key);
    if (measure.unit != "1") text += ", " + measure.unit;
    for (const auto& limit : limits) text += "; " + limit;
    return text;
}

std::string checkText(const Context& context, const rules::Check& check, std::size_t width) {
    const auto& words = context.words;
    std::string text = "\n";
    text += wrapped(words::checkLabel(context, check.key), width);
    text += wrapped(words.say("forms.outcome", {{"time", blank(6)}}), width, 2);
    std::vector<std::string> conditions;
    for (const auto& condition : check.needs)
        conditions.push_back(words::conditionLabel(context, condition));
    if (!conditions.empty())
        text += wrapped(words.say("forms.conditions", {{"conditions", words.all(conditions)}}),
                        width, 2);
    for (const auto& measure : check.measures)
        text += field(measureText(context, check, measure), width, 2);
    if (check.needsSecond) text += field(words.say("forms.second"), width, 2);
    return text;
}

std::string head(const Context& context, const std::string& number, std::size_t width) {
    const auto& words = context.words;
    std::string text =
        wrapped(words.say("forms.title", {{"number", number},
                                          {"edition", context.state.rulebook->edition}}),
                width);
    text += wrapped(words.say("forms.no_patient"), width) + "\n";
    for (const auto* key : {"forms.unit", "forms.place", "forms.date", "forms.done_by"})
        text += field(words.say(key), width);
    return text;
}

std::string events(const Context& context, std::size_t width) {
    const auto& words = context.words;
    std::string text = "\n" + wrapped(words.say("forms.events"), width);
    for (const auto* key : {"forms.use_start", "forms.use_end", "forms.pause", "forms.resume",
                            "forms.group", "forms.trouble"})
        text += field(words.say(key), width, 2);
    return text;
}

std::string parts(const Context& context, std::size_t width) {
    const auto& words = context.words;
    if (context.state.rulebook->positions.empty()) return "";
    std::string text = "\n" + wrapped(words.say("forms.parts"), width);
    for (const auto& position : context.state.rulebook->positions)
        text += field(words::positionLabel(context, position.key), width, 2);
    return text;
}

std::string formText(const Context& context, const std::string& number, std::size_t width) {
    std::string text = head(context, number, width) + events(context, width) +
                       parts(context, width);
    text += "\n" + wrapped(context.words.say("forms.checks"), width);
    for (const auto& check : context.state.rulebook->checks)
        text += checkText(context, check, width);
    text += "\n" + wrapped(context.words.say("forms.enter", {{"number", number}}), width);
    return text + "\n" + wrapped(context.words.say("caution.full"), width);
}

}  // namespace

std::string toText(const DowntimeForms& forms, const words::Words& words,
                   const TextOptions& options) {
    const auto width = usableWidth(options);
    const auto context = forms.board.context(words);
    std::string text = toText(forms.board, words, options);
    for (const auto& number : forms.numbers) text += "\f" + formText(context, number, width);
    return text;
}

}  // namespace report
