// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What was taken out of a unit while its use is paused: it goes back to the same patient. Knows no
// words.
#pragma once

#include "report/part_kinds.h"

#include <map>
#include <string>

namespace report {

// By position that is empty now: the part that was taken out of it since the pause began, if it
// stands in no other unit. Nothing of a unit whose use is not paused. `log` holds what was recorded
// on the unit.
[[nodiscard]] std::map<std::string, TakenOut> takenOutInPause(const rules::Log& log,
                                                              const rules::State& state,
                                                              const KnownBy& known,
                                                              const std::string& device);

}  // namespace report
