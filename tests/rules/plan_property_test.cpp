// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Plans on random set-ups against a second model that tries every order: the same tasks, the same
// times, the same blockers.
#include "rules/plan_random.h"
#include "rules/plan_reference.h"
#include "rules/plan_world.h"

#include <catch2/catch.hpp>

#include <iostream>

using namespace support;

namespace {

constexpr std::uint32_t firstSeed = 20260302;
constexpr int setUps = 10'000;
constexpr std::size_t mostTasks = 7;

// How many of the set-ups had what the comparison is about.
struct Tally {
    int plans = 0, waits = 0, unattended = 0, closing = 0, samePart = 0, choices = 0, groups = 0,
        chains = 0, unorderable = 0, otherwiseBlocked = 0, seven = 0;

    void count(const rules::Plan& plan, const plan_reference::Tasks& tasks,
               const plan_reference::Problem& problem) {
        ++plans;
        const auto any = [&plan](auto holds) {
            return std::any_of(plan.tasks.begin(), plan.tasks.end(), holds);
        };
        waits += any([](const auto& task) { return task.notBefore == task.start; });
        unattended += any([](const auto& task) { return task.attended < task.finish; });
        closing += any([](const auto& task) { return task.closing; });
        samePart += any([](const auto& task) { return task.samePart; });
        choices += !tasks.removedForChoice.empty();
        groups += tasks.group;
        seven += plan.tasks.size() == mostTasks;
        chains += std::any_of(problem.waits.begin(), problem.waits.end(), [&](const auto& wait) {
            return problem.steps[wait.first].kind == rules::TaskKind::Check &&
                   problem.steps[wait.then].kind == rules::TaskKind::Check;
        });
    }

    bool isComplete() const {
        for (const int each : {plans, waits, unattended, closing, samePart, choices, groups, chains,
                               unorderable, otherwiseBlocked, seven}) {
            if (each == 0) return false;
        }
        return true;
    }
};

std::ostream& operator<<(std::ostream& out, const Tally& tally) {
    return out << tally.plans << " plans, with waits " << tally.waits << ", unattended tasks "
               << tally.unattended << ", closing fits " << tally.closing << " (of the same part "
               << tally.samePart << "), choices " << tally.choices << ", a change of group "
               << tally.groups << ", checks after checks " << tally.chains << ", seven tasks "
               << tally.seven << "; no order " << tally.unorderable << ", otherwise blocked "
               << tally.otherwiseBlocked;
}

std::vector<std::string> sorted(const std::set<std::string>& texts) {
    return {texts.begin(), texts.end()};
}

std::vector<std::string> closingFits(const plan_reference::Tasks& tasks) {
    std::vector<std::string> texts;
    for (const auto& position : tasks.closing) texts.push_back("closing_fit " + position);
    if (texts.empty()) texts.emplace_back("order");
    return texts;
}

// Whether it was small enough to be compared.
bool compare(const RandomSetUp& setUp, Tally& tally) {
    const Instant at = when("10:00");
    const auto state = stateOf(setUp.log(), {.at = at});
    const plan_reference::Question question{state, deviceOf(state), at, setUp.group()};
    const auto tasks = tasksOf(question);
    if (tasks.count() > mostTasks) return false;
    const auto plan = rules::plan(state, question.device, at, setUp.group());
    const auto blockers = blockersOf(question, tasks);
    if (!blockers.empty()) {
        CHECK(plan.blockers == sorted(blockers));
        CHECK_FALSE(plan.readyAt);
        ++tally.otherwiseBlocked;
        return true;
    }
    const auto problem = problemOf(question, tasks);
    const auto best = bestOf(problem);
    if (!best) {
        CHECK(plan.blockers == closingFits(tasks));
        CHECK_FALSE(plan.readyAt);
        ++tally.unorderable;
        return true;
    }
    CHECK(blockers == std::set(plan.blockers.begin(), plan.blockers.end()));
    CHECK(plan_reference::toText(plan.tasks) == plan_reference::toText(problem, *best));
    CHECK(plan.readyAt == best->finish);
    CHECK(plan.exact);
    CHECK(plan.bound == best->finish);
    for (const auto& task : plan.tasks) {
        CHECK(task.closing == (task.kind == rules::TaskKind::Fit &&
                               tasks.closing.contains(task.subject)));
        CHECK(task.samePart == (task.closing && !tasks.newParts.contains(task.subject)));
    }
    tally.count(plan, tasks, problem);
    return true;
}

}  // namespace

TEST_CASE("a plan is the best of all orders", "[property]") {
    std::cout << "plans against all orders, seeds from " << firstSeed << std::endl;
    Tally tally;
    std::uint32_t seed = firstSeed;
    for (int compared = 0; compared < setUps; ++seed) {
        const RandomSetUp setUp(seed);
        INFO("seed " << seed << ", group " << setUp.group() << "\n" << setUp.rulebook());
        compared += compare(setUp, tally);
    }
    std::cout << tally << std::endl;
    CHECK(tally.isComplete());
}
