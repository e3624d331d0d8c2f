// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is asked about before an entry is kept for ever: a clock that cannot be believed, and texts
// that look as if they named a patient. Nothing that must not wait is asked about.
#pragma once

#include "station/entry.h"
#include "station/open.h"

#include <string>
#include <vector>

namespace station {

struct Settled {
    logbook::json::Object body;         // of the entry, as it may be kept
    std::vector<std::string> warnings;  // what was doubted, where nobody was asked
};

// `waits` is false for what is never delayed: it is written with a warning, and of a text that
// looks as if it named a patient the warning alone is kept. Refused: what the person at the
// terminal does not stand by; without a terminal, such a text unless `entry.namesNoPatient`.
[[nodiscard]] Result<Settled> settleDoubts(const Surroundings& surroundings,
                                           const store::Logbook& logbook, const WholeLog& log,
                                           const Entry& entry, bool waits);

}  // namespace station
