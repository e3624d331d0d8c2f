// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which attempts at the checks of one device did not count when they were made, and why. Folds what
// bears on that device, and no more of the log.
#pragma once

#include "rules/log.h"

#include <functional>
#include <string>

namespace rules {

struct UncountedAttempt {
    const logbook::Record& record;
    const State& state;                     // just after it; the device alone is to be relied on
    const Discounted* discounted = nullptr;  // null: the attempt had no effect at all
};

struct AttemptsQuestion {
    std::string device;
    Instant at{};
    Instant knownAt{};
};

// Calls `take` with each that takes part, in the reading order. Precondition: firstEdition().
void forEachUncounted(const Log& log, const AttemptsQuestion& question,
                      const std::function<void(const UncountedAttempt&)>& take);

}  // namespace rules
