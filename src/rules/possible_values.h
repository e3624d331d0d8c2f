// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which values of a measure can be measured at all. No rule of the trade: what the dimension of its
// unit says, as far as the edition does not know better. Bears on no verdict.
#pragma once

#include "logbook/unit.h"
#include "rules/rulebook.h"

namespace rules {

// In the rule's unit. A bound beyond which the rule itself has a limit is none: what it calls a
// percentage is no share of a whole then.
[[nodiscard]] logbook::Bounds possibleValues(const MeasureRule& rule);

enum class Beyond { Nothing, Least, Most };

// Which bound the value lies beyond.
[[nodiscard]] Beyond beyond(const logbook::Bounds& bounds, double value);

}  // namespace rules
