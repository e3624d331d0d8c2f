// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What an answer rests on and how far it can be relied on: as known when, which stations were heard
// until when, when the log was last verified, what is in doubt. Given by whoever knows the file.
#pragma once

#include "rules/log.h"
#include "words/context.h"

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace report {

using logbook::Duration;
using logbook::Instant;

struct StationHeard {
    std::string station;
    std::optional<Instant> heard;  // the latest of its entries here; none: no entries
    std::int64_t cameLater = 0;    // of its entries known then, those that came in here after that
};

struct Verified {
    Instant at{};
    std::map<std::string, std::int64_t> upTo;  // by station: the last record that was verified
    bool isHowFarKnown = true;                 // not where the note of that came to harm
};

// The last record of a station and its hash, as hex.
struct ChainHead {
    std::string station;
    std::int64_t seq = 0;
    std::string hash;
};

struct Provenance {
    Instant knownAt = rules::unlimited;
    std::vector<StationHeard> stations;
    Duration staleAfter{12 * 3'600'000LL};
    std::optional<Verified> verified;      // none: never
    std::vector<std::string> problems;     // sentences, shown across the head
    std::set<std::string> devicesInDoubt;  // never shown as ready
    std::vector<ChainHead> heads;
};

// Of the records known then, each station's latest `entered`.
[[nodiscard]] std::vector<StationHeard> stationsHeard(const rules::Log& log, Instant knownAt);

// A lookup in the log, which must outlive it.
[[nodiscard]] words::RecordLookup lookupIn(const rules::Log& log);

// Who adopted the edition in force, as its record says: "" where it says nothing.
struct Adopter {
    std::string department;
    std::string facility;
};
[[nodiscard]] Adopter adopterOf(const rules::State& state, const words::RecordLookup& lookup);

// The lines at the head of an answer about an instant: problems and stale stations first, then
// department, edition, the instant, as known when, stations, verification.
[[nodiscard]] std::vector<std::string> headLines(const words::Context& context,
                                                 const Provenance& provenance,
                                                 const std::optional<std::string>& groupAsked);

// "Station icu-1: entries until 02:25 …" for each; stale ones are told by staleLines.
[[nodiscard]] std::vector<std::string> heardLines(const words::Context& context,
                                                  const Provenance& provenance);

// Of each station that was last heard longer ago than `staleAfter`, that and what it means.
[[nodiscard]] std::vector<std::string> staleLines(const words::Context& context,
                                                  const Provenance& provenance);

}  // namespace report
