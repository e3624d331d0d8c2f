// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Units of which entries are later than the clock: what the log says of them now is not all that it
// holds, and is not told as ready.
#pragma once

#include "report/provenance.h"

namespace report {

// Whether nothing is wrong with the entries, and what puts units in doubt is such a clock.
[[nodiscard]] bool isDoubtByClock(const Provenance& provenance);

}  // namespace report
