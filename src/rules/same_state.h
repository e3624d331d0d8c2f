// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whether two states hold the same of a device, of a part, of the department: then whatever is
// folded onto them next has the same outcome. Both states are of one log, in which a record is told
// by its name. For earlier_knowledge.cpp only.
#pragma once

#include "rules/state.h"

namespace rules {

[[nodiscard]] bool same(const Device& one, const Device& other);
[[nodiscard]] bool same(const KnownPart& one, const KnownPart& other);
// The editions and the persons: what bears on the effect of every record.
[[nodiscard]] bool sameAuthority(const State& one, const State& other);
[[nodiscard]] bool sameNotices(const State& one, const State& other);

}  // namespace rules
