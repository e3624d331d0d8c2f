// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Tasks as a timeline that a person follows: when each begins, how long it takes, what runs on its
// own, and every wait as a line of its own. Knows no search.
#pragma once

#include "report/layout.h"
#include "rules/plan.h"
#include "words/context.h"

#include <string>
#include <vector>

namespace report {

struct Steps {
    const std::vector<rules::Task>& tasks;  // in the order a person starts them
    logbook::Instant from{};                // the person is free from then on
};

// Empty without tasks. The context is about the unit as it stands before them.
[[nodiscard]] Table stepsTable(const words::Context& context, const Steps& steps);

// For which of the checks among them a part in that position must not be in line, in a sentence; ""
// if for none.
[[nodiscard]] std::string takenOutFor(const words::Context& context, const Steps& steps,
                                      const std::string& position);

// Of one of the tasks, each a clause: how long it takes, what runs on its own, what it waits for.
[[nodiscard]] std::vector<std::string> stepRemarks(const words::Context& context,
                                                   const Steps& steps, const rules::Task& task);

// Whether the unit has to be switched on before: it is off, or not known to be on, and a check
// waits for that.
[[nodiscard]] bool mustSwitchOn(const words::Context& context, const Steps& steps);

}  // namespace report
