// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Tasks as a timeline that a person follows: when each begins, how long it takes, what runs on its
// own, and every wait as a line of its own. Knows no search.
#pragma once

#include "report/layout.h"
#include "rules/plan.h"
#include "words/context.h"

#include <vector>

namespace report {

struct Steps {
    const std::vector<rules::Task>& tasks;  // in the order a person starts them
    logbook::Instant from{};                // the person is free from then on
};

// Empty without tasks. The context is about the unit as it stands before them.
[[nodiscard]] Table stepsTable(const words::Context& context, const Steps& steps);

}  // namespace report
