// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Plans of many tasks: proved up to twenty, beyond that good, allowed and honest about it.
#include "rules/plan_reference.h"
#include "rules/plan_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

std::string number(int value) { return (value < 10 ? "0" : "") + std::to_string(value); }

// Used parts that take long to reprocess, missing ones, and checks after some of each: an uneven
// lot, in which no order is the obvious one.
LogBuilder logOfMany(int parts, int checks) {
    std::string sections;
    for (int part = 0; part < parts; ++part) {
        const std::string key = "p" + number(part);
        sections += "[positions." + key + "]\n";
        if (part % 2 == 0) {
            const int attended = 60 + part * 97 % 200;
            sections += "reuse = \"reusable\"\nreprocess_takes = \"PT" +
                        std::to_string(1400 + part * 613 % 1900) +
                        "S\"\nreprocess_attended = \"PT" + std::to_string(attended) + "S\"\n";
        } else {
            sections += "required = true\ntakes = \"PT" + std::to_string(40 + part * 83 % 230) +
                        "S\"\n";
        }
    }
    for (int check = 0; check < checks; ++check) {
        sections += "[checks.c" + number(check) + "]\ntakes = \"PT" +
                    std::to_string(300 + check * 367 % 600) + "S\"\nattended = \"PT" +
                    std::to_string(20 + check * 131 % 280) + "S\"\nvoided_by = [";
        for (int part = 0; part < parts; ++part) {
            if ((part * 5 + check * 7 + part * check) % 3 != 0) continue;
            sections += "{ event = \"fit p" + number(part) + "\" }, { event = \"reprocess p" +
                        number(part) + "\" }, ";
        }
        sections += "]\n";
    }
    LogBuilder log = logWith(book(sections));
    for (int part = 0; part < parts; part += 2) log.on(device).fit("p" + number(part));
    log.on(device).soil();
    return log;
}

// By the second model: the tasks are those, their order is allowed and each starts as early as it
// can.
void checkAllowed(const LogBuilder& log, const rules::Plan& plan) {
    const auto state = stateOf(log, asked("10:00"));
    const plan_reference::Question question{state, deviceOf(state), plan.from, "adult"};
    const auto tasks = tasksOf(question);
    const auto problem = problemOf(question, tasks);
    REQUIRE(problem.steps.size() == plan.tasks.size());
    std::vector<std::size_t> order;
    Instant finish = plan.from;
    for (const auto& task : plan.tasks) {
        for (std::size_t index = 0; index < problem.steps.size(); ++index) {
            const auto& step = problem.steps[index];
            if (step.kind == task.kind && step.name == task.subject) order.push_back(index);
        }
        finish = std::max(finish, task.finish);
    }
    const auto starts = startsOf(problem, order);
    REQUIRE(starts);
    for (std::size_t index = 0; index < plan.tasks.size(); ++index) {
        CHECK(plan.tasks[index].start == (*starts)[index]);
    }
    CHECK(plan.readyAt == finish);
}

}  // namespace

TEST_CASE("a plan of twenty tasks is proved the best", "[unit]") {
    const auto log = logOfMany(12, 8);
    const auto plan = planned(log);
    CHECK(plan.tasks.size() == rules::exactTasks);
    CHECK(plan.exact);
    CHECK(plan.bound == plan.readyAt);
    checkAllowed(log, plan);
}

TEST_CASE("beyond that the best found is told as such", "[unit]") {
    const auto log = logOfMany(20, 13);
    const auto plan = planned(log);
    CHECK(plan.tasks.size() == 33);
    CHECK_FALSE(plan.exact);
    CHECK(plan.bound < *plan.readyAt);
    CHECK(plan.bound > plan.from);
    checkAllowed(log, plan);
}

TEST_CASE("more tasks than a word has bits", "[unit]") {
    const auto log = logOfMany(40, 30);
    const auto plan = planned(log);
    CHECK(plan.tasks.size() == 70);
    CHECK(plan.bound <= *plan.readyAt);
    checkAllowed(log, plan);
}

TEST_CASE("tasks that are alike come in order of name", "[unit]") {
    std::string sections;
    for (int part = 0; part < 18; ++part) {
        sections += "[positions.p" + number(part) + "]\nrequired = true\n";
    }
    const auto plan = planned(logWith(book(sections + "[checks.leak]\ntakes = \"PT2M\"\n")));
    CHECK(plan.exact);
    CHECK(offset(plan, *plan.readyAt) == "1200");
    for (int part = 0; part < 18; ++part) {
        CHECK(plan.tasks[static_cast<std::size_t>(part)].subject == "p" + number(part));
    }
}
