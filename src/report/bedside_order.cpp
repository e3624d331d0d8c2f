// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The order of a change; see bedside_order.h.
#include "report/bedside_order.h"

#include "report/gravity.h"
#include "rules/evaluate.h"

#include <algorithm>
#include <set>
#include <vector>

namespace report {

namespace {

using rules::Check;
using rules::CheckStatus;
using words::Context;

// The new part is like the one before, as a plan has it, and no check has seen it.
bool isMadeDueBy(const Context& context, const Check& check, const std::string& position) {
    const rules::Event fit{rules::EventKind::Fit, position};
    const auto isSo = [&](const rules::Condition& condition, rules::Unknown unknown) {
        return rules::holds(condition, *context.device, *context.state.rulebook, unknown);
    };
    return std::ranges::any_of(check.voidedBy, [&](const rules::VoidedBy& entry) {
        return rules::matches(entry.event, fit) &&
               entry.only != rules::Only::DifferentAttribute &&
               (!entry.when || isSo(*entry.when, rules::Unknown::Holds)) &&
               (!entry.unless || !isSo(*entry.unless, rules::Unknown::HoldsNot));
    });
}

// With those that have to be current before them and are not.
std::set<std::string> checksAfter(const Context& context, const rules::Assessment& found,
                                  const std::string& position) {
    const auto& rulebook = *context.state.rulebook;
    const auto isExempt = [&](const std::string& key) {
        const auto status = found.checks.find(key);
        return status == found.checks.end() || status->second == CheckStatus::Exempt;
    };
    std::vector<std::string> open;
    for (const auto& check : rulebook.checks)
        if (check.blocks == rules::Blocks::Yes && !isExempt(check.key) &&
            isMadeDueBy(context, check, position))
            open.push_back(check.key);
    std::set<std::string> checks;
    while (!open.empty()) {
        const auto key = open.back();
        open.pop_back();
        if (!checks.insert(key).second) continue;
        for (const auto& before : rulebook.check(key)->after)
            if (!isExempt(before) && found.checks.at(before) != CheckStatus::Current)
                open.push_back(before);
    }
    return checks;
}

}  // namespace

ChangeOrder changeInOrder(const Context& context, const rules::Assessment& found,
                          const std::string& position) {
    const auto checks = checksAfter(context, found, position);
    if (checks.empty()) return {};
    const auto& rulebook = *context.state.rulebook;
    const bool isPaused = found.paused;
    const bool isInterrupted = isPaused || std::ranges::any_of(checks, [&](const auto& key) {
        return !rulebook.check(key)->duringUse;
    });
    std::vector<std::string> steps;
    if (isInterrupted && !isPaused) steps.push_back(context.words.say("bedside.order_pause"));
    const auto label = context.words.inside(words::positionLabel(context, position));
    const auto change = context.words.say(
        context.fitted(position) ? "bedside.order_change" : "bedside.order_fit",
        {{"position", label}});
    steps.push_back(change);
    for (const auto& key : checksInOrder(rulebook))
        if (checks.contains(key))
            steps.push_back(context.words.inside(words::checkLabel(context, key)));
    if (isInterrupted) steps.push_back(context.words.say("bedside.order_resume"));
    return {context.words.say("bedside.order", {{"steps", context.words.all(steps)}}),
            isInterrupted && !isPaused ? words::capitalized(change) : ""};
}

}  // namespace report
