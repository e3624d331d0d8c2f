// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Units that have entries later than the clock, by a standing of now. What is asked for an instant
// of its own tells what is known of that.
#pragma once

#include "station/standing.h"

#include <set>
#include <string>
#include <vector>

namespace station {

// Now, where the clock shows that: as state_reading.h, of a log that is at hand.
[[nodiscard]] logbook::Instant nowFor(const rules::Log& log, logbook::Instant clock,
                                      logbook::Instant knownAt);
// Those entered after it, and by `knownAt`.
[[nodiscard]] std::vector<LaterRecord> laterThan(logbook::Instant now, logbook::Instant knownAt,
                                                 const rules::Log& log);

// An entry about the whole department bears on every unit; on none one that was struck through,
// that is for people (`note`, `review`, `sign`), or about a person, no strike, and nothing that its
// writer may not write.
[[nodiscard]] std::set<std::string> unitsWithLater(const Standing& standing);
[[nodiscard]] std::set<std::string> unitsWithLater(const rules::State& state,
                                                   const std::vector<LaterRecord>& later,
                                                   const words::RecordLookup& lookup);

}  // namespace station
