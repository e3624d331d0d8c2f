// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What has to be done before a device is ready: the tasks of a plan, the constraints on their
// order, and what would still block after them. For plan.cpp, muster.cpp, change.cpp and their
// neighbours only.
#pragma once

#include "rules/plan.h"

#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace rules {

// The tasks as sets; a position that is closing has its fit in `closing`, not in `fits`.
struct TaskSet {
    bool group = false;
    bool powerOn = false;  // the device counts as switched on, and a check waits for that
    std::set<std::string> reprocess;
    std::set<std::string> removes;   // of a choice: taken out for good
    std::set<std::string> fits;      // of a new part
    std::set<std::string> closing;   // closing fits: of a new part if in `fits`, else of the same
    std::set<std::string> openings;  // removes of those that are occupied
    std::set<std::string> checks;
};

struct PlanQuestion {
    const State& state;
    const std::string& device;
    Instant at{};
    std::optional<std::string> group;
    std::set<std::string> changing{};  // positions that get a new part, whatever is found
    bool mindsParts = true;            // false: what is found of other positions is let be
};

// When a task's record is dated; the instant asked while tasks are being found.
using TaskInstant = std::function<Instant(TaskKind, const std::string&)>;

// The device with tasks carried out, at three moments.
struct CarriedOut {
    State before;    // all but the closing fits and the checks
    State after;     // closing fits too
    State finished;  // checks too
};

[[nodiscard]] CarriedOut carryOut(const PlanQuestion& question, const TaskSet& tasks,
                                  const TaskInstant& when);

[[nodiscard]] TaskSet findTasks(const PlanQuestion& question);

// What blocks after the tasks, sorted, as "finding subject".
[[nodiscard]] std::vector<std::string> blockersAfter(const PlanQuestion& question,
                                                     const TaskSet& tasks);

// Findings that stand at `plan.readyAt` with the plan's tasks carried out and did not at the start,
// and those whose waiver has ended; sorted, as "finding subject".
[[nodiscard]] std::vector<std::string> findingsToCome(const PlanQuestion& question,
                                                      const TaskSet& tasks, const Plan& plan);

// Whether `when` of the `not_with` entries of `check` that name `position` holds with the part in
// it: all tasks done, closing fits and those taken out for checks included.
// (A position is in its way while it is occupied.)
[[nodiscard]] bool forbids(const State& all, const Device& device, const Check& check,
                           const std::string& position);

// Whether `entry`, which names the fit of `position`, voids `check` as far as its `only` goes: the
// part is now in `device`, and `before` is the state from which the last one there is known.
[[nodiscard]] bool fitVoids(const State& before, const Device& device, const Check& check,
                            const VoidedBy& entry, const std::string& position);

}  // namespace rules
