// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// An end of use for a time after which the log has more of the same use: parts that were changed,
// checks, a pause. Asked about before it is kept; nothing is forbidden.
#pragma once

#include "station/entry.h"
#include "station/standing.h"

#include <string>
#include <vector>

namespace station {

// What is asked, line by line: the time, the later entries, and what becomes of them. Empty where
// no entry ends a use in the past, or nothing of that use is later. The standing is of the unit on
// which they are.
[[nodiscard]] std::vector<std::string> laterInUse(const Surroundings& surroundings,
                                                  const WholeStanding& standing,
                                                  const std::vector<Entry>& entries);

}  // namespace station
