// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking ahead: with nothing further recorded, which units stop being ready when, which groups
// fall below their par, and the least work that prevents it.
#pragma once

#include "rules/plan.h"

#include <optional>
#include <string>
#include <vector>

namespace rules {

// A ready unit that stops being ready.
struct Lapse {
    std::string device;
    std::optional<std::string> group;
    Instant at{};
    std::vector<Finding> findings;  // those that block then
};

// Work on one unit that keeps it, or makes it, ready.
struct Remedy {
    std::string device;
    bool renewal = false;  // of a ready unit, before it lapses; else of one that is not ready now
    Duration attended{};   // the time a person is busy with it
    Instant by{};          // a renewal: done before this; else: ready at the earliest
    std::vector<Task> tasks;
};

struct GroupHorizon {
    std::string group;
    int par = 0;
    int ready = 0;                     // at the start
    int least = 0;                     // the lowest number within the horizon
    std::optional<Instant> belowFrom;  // the first instant below par; the start if it is so already
    std::vector<Remedy> remedies;      // enough to keep par, if there are as many; cheapest first
    bool enough = true;                // the remedies bring the group up to par
};

struct Horizon {
    Instant from{}, to{};
    std::vector<Lapse> lapses;         // by (instant, device)
    std::vector<GroupHorizon> groups;  // those with a par, by key
};

// Units count for their selected group. A remedy is the plan of one unit by one person: of a unit
// of the group that is not ready now and is ready before the group falls below par, or of one that
// lapses. Units that are in use, held, or whose plan has blockers are no remedy.
[[nodiscard]] Horizon horizon(const State& state, Instant at, Duration ahead);

}  // namespace rules
