// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading a logbook from its first record to its last and folding it on the way: the cold path,
// which rests on nothing that is derived and keeps no record. See standing.h for what comes of it.
#pragma once

#include "station/standing.h"

#include <memory>
#include <mutex>
#include <utility>

namespace station {

// As standing(), but that the group asked for is not looked at.
[[nodiscard]] Result<Standing> readStanding(const Surroundings& surroundings,
                                            const LogbookFile& file, const Asked& asked);

// The instant of a question about now: the clock's. Where that gives whole seconds, a record of the
// second that it tells belongs to now.
[[nodiscard]] Result<logbook::Instant> nowFor(const Surroundings& surroundings,
                                              const store::Logbook& logbook,
                                              const LogbookFacts& facts,
                                              logbook::Instant knownAt);

// A connection that answers look up records by: of the thread that paints, and one beside it.
struct LookedUpLog {
    explicit LookedUpLog(std::shared_ptr<const store::Logbook> in) : logbook(std::move(in)) {}

    std::shared_ptr<const store::Logbook> logbook;
    std::mutex asking{};
};

// Finds records in the file as they are asked for, and keeps those it found. Any thread may ask.
[[nodiscard]] words::RecordLookup lookupIn(std::shared_ptr<LookedUpLog> log);

}  // namespace station
