// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The tasks of a plan as a sequencing problem: durations, what is finished before what, waits.
// For plan.cpp and its neighbours only.
#pragma once

#include "rules/plan_tasks.h"

#include <cstdint>
#include <vector>

namespace rules {

// A wait that counts from the finish of a task, if that comes before.
struct Lag {
    std::size_t task = 0;
    Duration wait{};
};

struct Job {
    Task task;
    Duration takes{};
    Duration attended{};
    bool alone = false;                     // a check: no other check, fit or remove meanwhile
    bool meansHandsOff = false;             // a fit or remove: not while a check is under way
    std::optional<Instant> release;         // not before, from what stands now
    std::vector<std::size_t> predecessors;  // finished before this starts
    std::vector<Lag> lags;
};

struct Sequencing {
    Instant from{};
    std::vector<Job> jobs;  // sorted by (kind, name)
    bool orderable = true;  // false: no order satisfies the constraints
};

[[nodiscard]] Sequencing sequencingOf(const PlanQuestion& question, const TaskSet& tasks);

// The blockers where these tasks cannot be put in order.
[[nodiscard]] std::vector<std::string> orderBlockers(const TaskSet& tasks);

struct Sequence {
    std::vector<Task> tasks;  // in the order the person starts them, with their times
    Instant finish{};
    bool exact = true;
    Instant bound{};  // no order finishes earlier
};

// The best order: the least finish; among those the first by (start, kind, name), task by task.
// Exact for up to `exactTasks`; beyond that the best found within `nodes` steps.
[[nodiscard]] Sequence bestSequence(const Sequencing& sequencing, std::uint64_t nodes);

}  // namespace rules
