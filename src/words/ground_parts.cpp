// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Findings about fitted parts, in words.
#include "words/ground.h"

#include <algorithm>

namespace words {

namespace {

using rules::Finding;
using rules::FindingCode;

std::string positionInside(const Context& context, std::string_view key) {
    return context.words.inside(positionLabel(context, key));
}

// The labels of a choice's positions, or of those of them that are occupied.
std::string choicePositions(const Context& context, const rules::Choice& choice, bool occupied) {
    std::vector<std::string> labels;
    for (const auto& position : choice.positions)
        if (!occupied || !context.device || context.fitted(position))
            labels.push_back(positionInside(context, position));
    return occupied ? context.words.all(labels) : context.words.anyOf(labels);
}

const rules::Named* ruleOf(const Context& context, const Finding& finding) {
    const auto& rulebook = *context.state.rulebook;
    if (const auto* choice = rulebook.choice(finding.subject)) return choice;
    if (finding.code == FindingCode::Conflict) return rulebook.conflict(finding.subject);
    return rulebook.position(finding.subject);
}

Sentence missingGround(const Context& context, const Finding& finding) {
    const auto* choice = context.state.rulebook->choice(finding.subject);
    if (!choice)
        return context.words.sentence("finding.missing",
                                      {{"position", positionInside(context, finding.subject)}});
    return context.words.sentence(
        "finding.missing_choice",
        {{"choice", context.words.inside(choiceLabel(context, finding.subject))},
         {"positions", choicePositions(context, *choice, false)}});
}

Sentence conflictGround(const Context& context, const Finding& finding) {
    const auto* choice = context.state.rulebook->choice(finding.subject);
    if (choice)
        return context.words.sentence("finding.conflict_choice",
                                      {{"positions", choicePositions(context, *choice, true)}});
    return context.words.sentence("finding.conflict",
                                  {{"conflict", conflictLabel(context, finding.subject)}});
}

Sentence mismatchGround(const Context& context, const Finding& finding) {
    Gaps gaps{{"position", positionInside(context, finding.subject)}};
    gaps["group"] =
        context.group ? groupLabel(context, *context.group) : context.words.say("plain.unknown");
    const auto* part = context.fitted(finding.subject);
    const bool stated = part && part->attributes.groups && !part->attributes.groups->empty();
    if (!stated) return context.words.sentence("finding.mismatch_unstated", gaps);
    std::vector<std::string> groups;
    for (const auto& group : *part->attributes.groups) groups.push_back(groupLabel(context, group));
    gaps["groups"] = context.words.all(groups);
    return context.words.sentence("finding.mismatch", gaps);
}

Sentence expiredGround(const Context& context, const Finding& finding) {
    Gaps gaps{{"position", positionInside(context, finding.subject)}};
    const auto action = context.words.say("finding.expired.do", gaps);
    const auto* part = context.fitted(finding.subject);
    if (!part || !part->attributes.expires)
        return {context.words.say("finding.expired_plain.says", gaps), action};
    gaps["day"] = context.times().day(*part->attributes.expires);
    return {context.words.say("finding.expired.says", gaps), action};
}

Sentence wornGround(const Context& context, const Finding& finding) {
    Gaps gaps{{"position", positionInside(context, finding.subject)}};
    const auto action = context.words.say("finding.worn_out.do", gaps);
    const auto* part = context.fitted(finding.subject);
    const auto* rule = context.state.rulebook->position(finding.subject);
    if (!part || !rule || !rule->maxReprocess)
        return {context.words.say("finding.worn_out_plain.says", gaps), action};
    gaps["count"] = std::to_string(context.state.life(*part, finding.subject).cycles);
    gaps["limit"] = std::to_string(*rule->maxReprocess);
    return {context.words.say("finding.worn_out.says", gaps), action};
}

// Whether the part was soiled without ever being on a patient.
bool soiledOnly(const Context& context, const Finding& finding) {
    const auto* part = context.fitted(finding.subject);
    return part && !context.state.life(*part, finding.subject).firstUse;
}

Sentence usedGround(const Context& context, const Finding& finding) {
    const auto* rule = context.state.rulebook->position(finding.subject);
    const auto level = rule ? rule->reprocessLevel : logbook::Level::Low;
    const Gaps gaps{{"position", positionInside(context, finding.subject)},
                    {"level", context.words.say("level." + std::string(logbook::name(level)))}};
    const std::string key =
        finding.code == FindingCode::Spent ? "finding.spent" : "finding.unprocessed";
    const auto says = key + (soiledOnly(context, finding) ? "_soiled.says" : ".says");
    return {context.words.say(says, gaps), context.words.say(key + ".do", gaps)};
}

Sentence changeDueGround(const Context& context, const Finding& finding) {
    const auto time =
        finding.since ? context.times().time(*finding.since) : context.words.say("plain.unknown");
    return context.words.sentence(
        "finding.change_due",
        {{"position", positionInside(context, finding.subject)}, {"time", time}});
}

Sentence plainGround(const Context& context, const Finding& finding) {
    switch (finding.code) {
        case FindingCode::Missing: return missingGround(context, finding);
        case FindingCode::Conflict: return conflictGround(context, finding);
        case FindingCode::Mismatch: return mismatchGround(context, finding);
        case FindingCode::Expired: return expiredGround(context, finding);
        case FindingCode::WornOut: return wornGround(context, finding);
        case FindingCode::ChangeDue: return changeDueGround(context, finding);
        default: return usedGround(context, finding);
    }
}

}  // namespace

// A position's advice is about it, whatever was found: it cannot stand for what to do about this
// finding, only after it. That of a choice or a conflict is about just that.
Sentence partGround(const Context& context, const Finding& finding) {
    auto ground = plainGround(context, finding);
    const auto* position = context.state.rulebook->position(finding.subject);
    if (!position || ruleOf(context, finding) != position) {
        ground.action = advisedOr(context, ruleOf(context, finding), std::move(ground.action));
        return ground;
    }
    const auto advice = adviceOf(context, position);
    if (!advice.empty()) ground.action += " " + advice;
    return ground;
}

}  // namespace words
