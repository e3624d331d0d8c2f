// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which positions of a device a finding is about, for whoever shows the set-up.
#pragma once

#include "rules/assess.h"

#include <string>
#include <vector>

namespace rules {

// Of a part finding its position; of a choice that is missing all of its positions; of a conflict,
// or a choice with too many, those that are occupied; of a notice those whose part it matches.
// Empty for other findings. State, device and instant as for assess().
[[nodiscard]] std::vector<std::string> positionsOf(const Finding& finding, const State& state,
                                                   const Device& device, Instant at);

}  // namespace rules
