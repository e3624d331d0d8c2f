// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The words that steps may use, by what they are about. Each leaves the records that such an act
// leaves and changes what the demo's own people believe; none asks whether a unit is ready.
#pragma once

#include "station/demo_script.h"

#include <map>
#include <string_view>

namespace station::demo {

using Verbs = std::map<std::string_view, Verb>;

[[nodiscard]] const Verbs& deviceVerbs();  // the unit, its use, its holds and faults
[[nodiscard]] const Verbs& partVerbs();    // parts and checks
[[nodiscard]] const Verbs& paperVerbs();   // what is for people, and the department's own

}  // namespace station::demo
