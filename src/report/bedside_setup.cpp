// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The set-up of one unit; see bedside_setup.h.
#include "report/bedside_setup.h"

#include "report/part_proposals.h"
#include "rules/evaluate.h"
#include "rules/finding_positions.h"
#include "words/attribute_text.h"
#include "words/finding_words.h"
#include "words/shown.h"

#include <algorithm>
#include <map>

namespace report {

namespace {

using words::Context;

std::string nameOf(const Context& context, const rules::PartAttributes& part) {
    std::string name;
    const auto add = [&name](const std::string& text) {
        name += (name.empty() ? "" : ", ") + text;
    };
    if (!part.serial().empty()) add(words::shown(part.serial()));
    if (!part.text("lot").empty())
        add(context.words.say("explain.part_lot", {{"lot", std::string(part.text("lot"))}}));
    if (!part.text("model").empty()) add(words::shown(part.text("model")));
    return name;
}

std::string groupsOf(const Context& context, const rules::PartAttributes& part) {
    std::vector<std::string> labels;
    if (part.groups)
        for (const auto& group : *part.groups) labels.push_back(words::groupLabel(context, group));
    return context.words.all(labels);
}

std::string lifeOf(const Context& context, const rules::PartLife& life) {
    const auto& words = context.words;
    std::string text = words.say(life.used ? "plain.used" : "explain.not_used");
    if (life.used && life.firstUse)
        text = words.say("bedside.used_since", {{"when", context.times().time(*life.firstUse)}});
    if (life.cycles == 0) return text;
    return words.say("bedside.cycles", {{"life", text}, {"count", std::to_string(life.cycles)}});
}

FittedText fittedText(const Context& context, const std::string& position,
                      const rules::FittedPart& part) {
    const auto& attributes = part.attributes;
    const auto& life = context.state.life(part, position);
    FittedText text;
    text.model = words::shown(attributes.text("model"));
    text.serial = words::shown(attributes.serial());
    text.lot = words::shown(attributes.text("lot"));
    text.name = nameOf(context, attributes);
    if (attributes.expires) text.expires = context.times().day(*attributes.expires);
    text.since = context.times().time(part.fit.at);
    text.fittedAt = part.fit.at;
    text.record = part.fit.name;
    text.groups = groupsOf(context, attributes);
    text.life = lifeOf(context, life);
    text.used = life.used;
    text.reprocessed = life.cycles;
    for (const auto& [key, value] : attributes.texts)
        if (key != "model" && !isOfOnePart(key))
            text.further.emplace_back(words::attributeLabel(context.words, key),
                                      words::attributeText(value));
    return text;
}

// By position, its findings in brief: what is wrong with the part, or that there is none.
using Wrongs = std::map<std::string, std::vector<std::string>, std::less<>>;

Wrongs wrongsOf(const Context& context, const rules::Assessment& found) {
    Wrongs wrongs;
    for (const auto& finding : found.findings) {
        const auto positions =
            rules::positionsOf(finding, context.state, *context.device, context.asked);
        for (const auto& position : positions)
            wrongs[position].push_back(words::brief(context, finding));
    }
    return wrongs;
}

bool isRequired(const Context& context, const rules::Position& position) {
    return position.required ||
           (position.requiredWhen && rules::holds(*position.requiredWhen, *context.device,
                                                  *context.state.rulebook, rules::Unknown::Holds));
}

std::string choiceOf(const Context& context, const std::string& position) {
    for (const auto& choice : context.state.rulebook->choices)
        if (std::find(choice.positions.begin(), choice.positions.end(), position) !=
            choice.positions.end())
            return words::choiceLabel(context, choice.key);
    return "";
}

SetupPosition namedPosition(const Context& context, const rules::Position& rule) {
    SetupPosition position;
    position.key = rule.key;
    position.label = words::positionLabel(context, rule.key);
    position.required = isRequired(context, rule);
    position.choice = choiceOf(context, rule.key);
    position.level = rule.reprocessLevel;
    position.levelText =
        context.words.say("level." + std::string(logbook::name(rule.reprocessLevel)));
    if (const auto* part = context.fitted(rule.key)) {
        position.fitted = fittedText(context, rule.key, *part);
        position.canReprocess =
            rules::reuseOf(part->attributes, rule) == logbook::Reuse::Reusable;
    }
    return position;
}

}  // namespace

std::vector<SetupPosition> makeSetup(const Context& context, const rules::Assessment& found) {
    std::vector<SetupPosition> setup;
    if (!context.device || found.verdict == rules::Verdict::Retired) return setup;
    auto wrongs = wrongsOf(context, found);
    for (const auto& rule : context.state.rulebook->positions) {
        setup.push_back(namedPosition(context, rule));
        setup.back().wrong = wrongs[rule.key];
    }
    std::stable_sort(setup.begin(), setup.end(),
                     [](const auto& a, const auto& b) { return a.label < b.label; });
    for (const auto& [key, part] : context.device->fitted) {
        if (context.state.rulebook->position(key)) continue;
        SetupPosition position;
        position.key = key;
        position.label = words::positionLabel(context, key);
        position.named = false;
        position.fitted = fittedText(context, key, part);
        setup.push_back(std::move(position));
    }
    return setup;
}

}  // namespace report
