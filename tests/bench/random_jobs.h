// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Random work on one unit, to be put in order: reprocessing, parts to fit, checks after them with
// waits. The same seed gives the same work on every computer.
#pragma once

#include "rules/plan_order.h"

#include <cstdint>

namespace bench {

[[nodiscard]] rules::Sequencing randomJobs(std::uint32_t seed, int count);

}  // namespace bench
