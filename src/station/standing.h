// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The state at the time asked, which most answers need and nothing else of the log; and the log
// beside it, for those that look at its records.
#pragma once

#include "report/provenance.h"
#include "station/open.h"

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace station {

struct Asked {
    std::optional<logbook::Instant> at{};       // board and unit: now, this second included
    std::optional<logbook::Instant> knownAt{};  // none: all that is in the logbook
    std::optional<std::string> group{};         // one the edition names; none: the selected one
};

// A record written down after the time asked, where that is the clock's: one of the clocks is
// wrong.
struct LaterRecord {
    logbook::RecordName name;
    logbook::Instant entered{};
    bool isStruck = false;
};

struct Standing {
    LogbookFacts facts;
    std::vector<report::StationHeard> heard;  // known then
    rules::State state;
    logbook::Instant at{};
    logbook::Instant knownAt{};  // rules::unlimited unless it was asked
    std::optional<std::string> group;
    std::vector<LaterRecord> later;
    words::RecordLookup lookup;  // keeps what it looks in
    std::int64_t folded = 0;     // how many records were folded for it
};

// A log beside its state.
struct WholeStanding : Standing {
    std::shared_ptr<const WholeLog> log;
};

// Folded as it is read, some records at a time; no log is kept. Problems: no edition known, a group
// that the edition does not name.
[[nodiscard]] Result<Standing> standing(const Surroundings& surroundings, const LogbookFile& file,
                                        const Asked& asked);

// The same with the log.
[[nodiscard]] Result<WholeStanding> wholeStanding(const Surroundings& surroundings,
                                                  const LogbookFile& file, const Asked& asked);

// What an answer rests on, and which units are in doubt: all where verify last found something or a
// record cannot be read, since nobody knows what it said; else those with entries after the clock.
[[nodiscard]] report::Provenance provenanceOf(const Surroundings& surroundings,
                                              const Standing& standing);
[[nodiscard]] report::Provenance provenanceOf(const Surroundings& surroundings,
                                              const WholeLog& log, logbook::Instant knownAt);

// What of the log cannot be read or relied on, a sentence each; none where all is well.
[[nodiscard]] std::vector<std::string> doubtsOf(const Surroundings& surroundings,
                                                const LogbookFacts& facts);

// An edition is known; one that cannot be read is not told as one that was never adopted.
[[nodiscard]] Result<void> requireReadable(const Surroundings& surroundings, const WholeLog& log,
                                           logbook::Instant at, logbook::Instant knownAt);

}  // namespace station
