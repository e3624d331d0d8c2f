// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a change of parts, or a check, takes on a device that is on a patient, once its use is
// paused: not the way to ready, which begins after the use, but no more than this, in order.
#pragma once

#include "rules/plan.h"

#include <set>
#include <string>
#include <vector>

namespace rules {

struct Change {
    std::set<std::string> fits{};    // positions that get another part
    std::set<std::string> checks{};  // to be carried out where they are not current and block
    bool mindsParts = false;         // what is found of other positions is put right, too
};

// In the order in which a person starts them: those fits and checks, the checks that the fits make
// due, what a check is to come after and is not current; and what is in line of a check, taken out
// before it and put in again after it. Empty where no order allows all that. `device` is one of
// `state.devices`.
[[nodiscard]] std::vector<Task> tasksOf(const State& state, const Device& device, Instant at,
                                        const Change& change);

}  // namespace rules
