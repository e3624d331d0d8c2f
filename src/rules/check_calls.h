// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// How often checks are called for: the work that a rulebook makes, whoever did it or not.
#pragma once

#include "rules/log.h"

#include <vector>

namespace rules {

// The instants, sorted, at which a check of an enrolled unit came to be owed: it fell due, failed,
// ran out or began to apply, by what was recorded before `end`. What is owed at a start of use that
// counts is taken as done by then, so that a check which the log's people did not know is called
// for as often as they would have met it. Precondition: the log has an edition.
[[nodiscard]] std::vector<Instant> checkCalls(const Log& log, Instant end, Instant knownAt);

}  // namespace rules
