// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The shortest way to ready for one device and one person: which tasks, in which order, by when.
// A forecast: it is made anew after each step, and no verdict is ever taken from it.
#pragma once

#include "rules/assess.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rules {

enum class TaskKind { Group, Remove, Reprocess, Fit, Check };  // in the order that breaks ties

[[nodiscard]] std::string_view name(TaskKind kind);  // "fit"

struct Task {
    TaskKind kind{};
    std::string subject;    // group, position or check
    bool closing = false;   // a fit that waits for the checks its part would be in line of
    bool samePart = false;  // a closing fit of the part that was taken out for a check
    Instant start{};
    Instant attended{};  // until when the person is busy with it
    Instant finish{};
    std::optional<Instant>
        notBefore;  // a check's, as far as it stood in the way of an earlier start
};

[[nodiscard]] std::string toText(const Task& task);  // "fit circuit"

struct Plan {
    std::string device;
    std::optional<std::string> group;
    Instant from{};
    std::optional<Instant> readyAt;     // none: there is no plan
    std::vector<Task> tasks;            // in the order the person starts them
    std::vector<std::string> blockers;  // sorted, as "finding subject"
    std::vector<std::string> runsOut;   // sorted
    bool exact = true;                  // false: the best found; none can be ready before `bound`
    Instant bound{};
};

// The number of tasks up to which the plan is proved to be the best.
inline constexpr std::size_t exactTasks = 20;

// `device` is one of `state.devices`; `group` none: the selected one. State and instant as for
// assess().
[[nodiscard]] Plan plan(const State& state, const Device& device, Instant at,
                        const std::optional<std::string>& group);

// When a plan begins, and what it is to put right: all that is lacking by then.
struct PlanTimes {
    Instant from{};
    Instant lacking{};
};

// The same, begun at `from`, of what the device lacks at `lacking`, which may be later.
[[nodiscard]] Plan planAhead(const State& state, const Device& device, const PlanTimes& times,
                             const std::optional<std::string>& group);

// The state once that plan is carried out. `state` and `lacking` are those it was made from; it has
// a `readyAt`.
[[nodiscard]] State stateAfter(const State& state, const Plan& plan, Instant lacking);

}  // namespace rules
