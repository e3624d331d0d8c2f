// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The limits of measures: reading them, and whether they fit together and reach every group. Knows
// no measure by name.
#pragma once

#include "rules/condition_reader.h"
#include "rules/rulebook.h"

#include <string>
#include <vector>

namespace rules {

// `min` and `max`. WrongType, BadNumber, UnknownGroup, MinOverMax.
void readLimits(TableReader& table, MeasureRule& measure, Reading& reading);

// Groups that a limit by group leaves out although `appliesWhen` allows them, sorted; none of a
// limit for all.
[[nodiscard]] std::vector<std::string> groupsLeftOut(const Limit& limit,
                                                     const Condition& appliesWhen,
                                                     const NamesGiven::Keys& groups);

// LimitLacksGroup for every group that the limits of a required measure leave out.
void refuseLackingLimits(TableReader& table, const MeasureRule& measure,
                         const Condition& appliesWhen, Reading& reading);

// Whether a condition allows a group: it names none, or this one.
[[nodiscard]] bool allowsGroup(const Condition& condition, const std::string& group);

}  // namespace rules
