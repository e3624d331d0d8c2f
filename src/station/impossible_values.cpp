// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Impossible values; see impossible_values.h.
#include "station/impossible_values.h"

#include "rules/possible_values.h"
#include "words/bedside_words.h"

namespace station {

namespace {

const logbook::json::Value* member(const logbook::json::Object& object, std::string_view name) {
    for (const auto& [key, value] : object) {
        if (key == name) {
            return &value;
        }
    }
    return nullptr;
}

const std::string* textOf(const logbook::json::Value* value) {
    return value == nullptr ? nullptr : value->string();
}

// By the rule that its check has for it, in the unit that was stated.
std::string sentenceOf(const words::Context& context, const rules::Check& check,
                       const std::string& key, const logbook::json::Value& measure) {
    const auto* rule = rules::findMeasure(check, key);
    const auto* value = measure.find("value");
    const auto* unit = textOf(measure.find("unit"));
    const auto* number = value == nullptr ? nullptr : value->number();
    if (rule == nullptr || number == nullptr || unit == nullptr) {
        return "";
    }
    const auto converted = logbook::convert(*number, *unit, rule->unit);
    if (!converted) {
        return "";
    }
    return words::impossibleSentence(
        context.words, rules::possibleValues(*rule),
        {words::measureLabel(context, check.key, key), *converted, rule->unit, *unit});
}

}  // namespace

std::vector<std::string> impossibleValues(const words::Words& words, const rules::State& state,
                                          const Entry& entry) {
    const auto* key = textOf(member(entry.body, "check"));
    const auto* measures = member(entry.body, "measures");
    if (entry.kind != "check" || key == nullptr || measures == nullptr ||
        measures->object() == nullptr) {
        return {};
    }
    const auto* check = state.rulebook->check(*key);
    if (check == nullptr) {
        return {};
    }
    const words::Context context{words, state, state.device(entry.device), {}, {}, {}};
    std::vector<std::string> sentences;
    for (const auto& [name, measure] : *measures->object()) {
        if (auto sentence = sentenceOf(context, *check, name, measure); !sentence.empty()) {
            sentences.push_back(std::move(sentence));
        }
    }
    return sentences;
}

}  // namespace station
