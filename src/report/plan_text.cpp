// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The way to ready as text: who it is, then each step with its clock time, or what stands in the
// way and who can lift it.
#include "report/blockers.h"
#include "report/plan.h"
#include "report/steps.h"
#include "words/finding_words.h"
#include "words/lifters.h"
#include "words/record_words.h"

#include <algorithm>

namespace report {

namespace {

using words::Context;

std::string stepsText(const Context& context, const rules::Plan& plan, std::size_t width) {
    if (plan.tasks.empty()) return "";
    return "\n" + context.words.say("plan.steps") + "\n" +
           stepsTable(context, {plan.tasks, plan.from}).text(width, 2);
}

// A hold that says what not to do comes first, then what else stands.
std::vector<std::string> blockersInOrder(const Context& context, const rules::Plan& plan) {
    auto blockers = plan.blockers;
    std::stable_sort(blockers.begin(), blockers.end(), [&](const auto& a, const auto& b) {
        return words::isSheetHold(context, a) > words::isSheetHold(context, b);
    });
    return blockers;
}

std::string blockersText(const Context& context, const WayToReady& way, std::size_t width) {
    std::string text = "\n" + context.words.say("plan.blockers") + "\n";
    for (const auto& blocker : blockersInOrder(context, way.plan)) {
        text += wrapped(blockerText(context, way.board.rows.front().assessment, blocker), width, 2);
        const auto lifters = words::lifters(context, blocker);
        if (!lifters.empty()) text += wrapped(lifters, width, 6);
    }
    return text;
}

std::string notProved(const Context& context, const rules::Plan& plan) {
    const auto& words = context.words;
    auto text = words.say("plan.not_proved", {{"count", std::to_string(plan.tasks.size())},
                                              {"most", std::to_string(rules::exactTasks)}});
    if (plan.bound >= *plan.readyAt) return text;
    return text + " " +
           words.say("plan.none_before",
                     {{"time", context.times().time(plan.bound)},
                      {"gain", words::wait(words, *plan.readyAt - plan.bound)}});
}

std::string runsOutText(const Context& context, const WayToReady& way, std::size_t width) {
    if (way.plan.runsOut.empty()) return "";
    std::string text = "\n" + wrapped(context.words.say("plan.runs_out"), width);
    for (const auto& finding : way.plan.runsOut) {
        const auto found = findingNamed(way.board.rows.front().assessment, finding);
        text += wrapped(words::capitalized(words::brief(context, found)), width, 2);
    }
    return text;
}

}  // namespace

std::string toText(const WayToReady& way, const words::Words& words, const TextOptions& options) {
    const auto width = usableWidth(options);
    const auto context = way.context(words);
    const auto& plan = way.plan;
    const words::Gaps gaps{{"device", plan.device},
                           {"group", plan.group ? words::groupLabel(context, *plan.group) : ""},
                           {"time", context.times().time(plan.from)}};
    std::string text =
        wrapped(words.say(plan.group ? "plan.title_for" : "plan.title", gaps), width) + "\n";
    for (const auto& line : headLines(context, way.board.provenance, way.board.groupAsked))
        text += wrapped(line, width);
    if (plan.readyAt) {
        text += stepsText(context, plan, width);
        const auto done = plan.runsOut.empty()
                              ? words::readyLine(context, *plan.readyAt)
                              : words.say("plan.done_not_ready",
                                          {{"time", context.times().time(*plan.readyAt)}});
        text += "\n" + wrapped(done, width);
        if (!plan.exact) text += wrapped(notProved(context, plan), width);
        text += runsOutText(context, way, width);
    } else {
        text += blockersText(context, way, width);
    }
    return text + "\n" + wrapped(words.say("caution.full"), width);
}

}  // namespace report
