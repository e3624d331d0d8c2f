// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is refused at entry though the format allows it: it would have no effect, or not the one
// that was meant. Records that come from elsewhere are never asked this.
#pragma once

#include "station/log_at_hand.h"
#include "station/problem.h"
#include "station/surroundings.h"

#include <string>
#include <vector>

namespace station {

// Of who writes, what a record does not tell.
struct WriterStanding {
    const rules::State* people = nullptr;  // persons and edition as of `asOf`; null: no edition
    logbook::Instant asOf{};               // later than `entered`: the clock was set back
    bool formCounts = false;               // the record's form stands for the signatures on it
    const rules::State* state = nullptr;   // of the log at the record's `at`, where that is at hand
};

// `record` is complete, but need not be the next of its station; the log holds what is needed for
// it. The warnings about it, if it may be written. By a clock that was set back nobody may write
// what they may not write now, and a form that does not count stands for nobody's role.
[[nodiscard]] Result<std::vector<std::string>> checkEntry(const Surroundings& surroundings,
                                                          const LogAtHand& log,
                                                          const logbook::Record& record,
                                                          const WriterStanding& writer);

}  // namespace station
