// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The plan from its parts: tasks, blockers, order, and what runs out before it is done.
#include "rules/plan.h"

#include "rules/plan_order.h"
#include "rules/plan_tasks.h"

#include <algorithm>
#include <array>
#include <set>

namespace rules {
namespace {

// Steps of the search for orders of more tasks than are proved; about two seconds.
constexpr std::uint64_t searchSteps = 400'000;

State carriedOut(const PlanQuestion& question, const TaskSet& tasks, const Plan& plan) {
    const auto when = [&plan](TaskKind kind, const std::string& subject) {
        for (const Task& task : plan.tasks) {
            if (task.kind == kind && task.subject == subject) return task.finish;
        }
        return plan.from;
    };
    return carryOut(question, tasks, when).finished;
}

}  // namespace

std::vector<std::string> findingsToCome(const PlanQuestion& question, const TaskSet& tasks,
                                        const Plan& plan) {
    const State finished = carriedOut(question, tasks, plan);
    const Device& device = *finished.device(question.device);
    const auto now = assess(finished, device, {question.at, question.group, false, false});
    const auto then = assess(finished, device, {*plan.readyAt, question.group, false, false});
    std::set<std::string> out;
    for (const Finding& finding : then.findings) {
        const std::string text = toText(finding);
        const auto before =
            std::find_if(now.findings.begin(), now.findings.end(),
                         [&](const Finding& other) { return toText(other) == text; });
        const bool isNew = before == now.findings.end();
        if (isNew || (before->waivedUntil && !finding.waivedUntil)) out.insert(text);
    }
    return {out.begin(), out.end()};
}

std::vector<std::string> orderBlockers(const TaskSet& tasks) {
    std::vector<std::string> blockers;
    for (const auto& position : tasks.closing) blockers.push_back("closing_fit " + position);
    if (blockers.empty()) blockers.emplace_back("order");
    return blockers;
}

std::string_view name(TaskKind kind) {
    constexpr std::array<std::string_view, 5> names{"group", "remove", "reprocess", "fit", "check"};
    return names.at(static_cast<std::size_t>(kind));
}

std::string toText(const Task& task) {
    return std::string(name(task.kind)) + ' ' + task.subject;
}

Plan plan(const State& state, const Device& device, Instant at,
          const std::optional<std::string>& group) {
    return planAhead(state, device, {at, at}, group);
}

Plan planAhead(const State& state, const Device& device, const PlanTimes& times,
               const std::optional<std::string>& group) {
    Plan plan;
    plan.device = device.serial;
    plan.from = plan.bound = times.from;
    if (device.retired) {
        plan.blockers = {"retired"};
        return plan;
    }
    plan.group = group ? group : device.group();
    const State own = state.excerpt({device.serial});
    const PlanQuestion lacking{own, device.serial, times.lacking, plan.group};
    const TaskSet tasks = findTasks(lacking);
    plan.blockers = blockersAfter(lacking, tasks);
    if (!plan.blockers.empty()) return plan;
    const PlanQuestion question{own, device.serial, times.from, plan.group};
    const Sequencing sequencing = sequencingOf(question, tasks);
    if (!sequencing.orderable) {
        plan.blockers = orderBlockers(tasks);
        return plan;
    }
    Sequence sequence = bestSequence(sequencing, searchSteps);
    plan.tasks = std::move(sequence.tasks);
    plan.readyAt = sequence.finish;
    plan.exact = sequence.exact;
    plan.bound = sequence.bound;
    plan.runsOut = findingsToCome(question, tasks, plan);
    return plan;
}

State stateAfter(const State& state, const Plan& plan, Instant lacking) {
    const TaskSet tasks = findTasks({state, plan.device, lacking, plan.group});
    return carriedOut({state, plan.device, plan.from, plan.group}, tasks, plan);
}

}  // namespace rules
