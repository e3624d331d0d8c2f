// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Values in an entry that nothing measured can be, by what their unit measures: an oxygen
// concentration of 300 %, a negative flow. Kept if the person stands by them; never in silence.
#pragma once

#include "rules/state.h"
#include "station/entry.h"

#include <string>
#include <vector>

namespace station {

// A sentence each; by the edition in that state, which may know better what it measures. Nothing of
// an entry that is no check, or whose measures are malformed.
[[nodiscard]] std::vector<std::string> impossibleValues(const words::Words& words,
                                                        const rules::State& state,
                                                        const Entry& entry);

}  // namespace station
