// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Since when it is not known where a unit is, because a use began of which nobody said where: the
// place that was recorded before may be that of the store. Knows no words.
#pragma once

#include "report/part_kinds.h"

namespace report {

// None where the place was said since, or no use began without one. `log` holds what was recorded
// on the unit.
[[nodiscard]] std::optional<logbook::Instant> placeUnsaidSince(const rules::Log& log,
                                                               const KnownBy& known,
                                                               const std::string& device);

}  // namespace report
