// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The muster: so many units ready for a group as soon as so many people can make it, who does what
// in which order, and what one more person would gain. A forecast, as a plan is: it is made anew
// after each step, and no verdict is ever taken from it.
#pragma once

#include "rules/plan.h"

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace rules {

struct MusterQuestion {
    Instant at{};
    std::string group;                // one that the edition names
    std::size_t units = 1;            // wanted; at least 1
    std::size_t people = 1;           // at least 1
    std::set<std::string> leftOut{};  // never counted, whatever their records say
};

struct MusterStep {
    std::size_t person = 1;  // from 1 to the number of people
    Task task;
};

struct MusterUnit {
    std::string device;
    Instant readyAt{};
    std::vector<MusterStep> steps;        // in the order they are begun; none: it is ready already
    std::vector<std::string> runsOut;     // findings that come up by the muster's finish; sorted
    std::optional<std::string> readyFor;  // another group, for which it is ready as it stands
};

// A unit that cannot be made ready.
struct MusterRest {
    std::string device;
    std::vector<std::string> blockers;  // as of a plan; none: it was left out
};

struct Muster {
    MusterQuestion question;
    std::vector<MusterUnit> units;  // by (ready, name); fewer than wanted only if no more can be
    std::vector<MusterRest> rest;   // if they are fewer: all others but retired ones, by name
    Instant finish{};               // when the last of `units` is ready; the instant asked for none
    bool exact = true;              // no earlier finish is possible
    Instant bound{};                // so many cannot be ready earlier
    Instant finishOfOneMore{};      // with one person more; never later

    [[nodiscard]] bool isEnough() const { return units.size() == question.units; }
};

// Every unit whose plan for the group has no blockers takes part; work on one unit does not bear on
// another's. The finish is the least that was found; among those schedules the one whose units are
// ready earliest one by one, then the one that takes the least work. State as for assess().
[[nodiscard]] Muster muster(const State& state, const MusterQuestion& question);

}  // namespace rules
