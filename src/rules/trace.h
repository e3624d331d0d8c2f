// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Tracing parts through the log by lot, serial, reprocess load or notice: every unit, place and
// period they were in, before and after, and where they are now.
#pragma once

#include "rules/log.h"

#include <optional>
#include <string>
#include <vector>

namespace rules {

enum class TraceBy { Lot, Serial, Load, Notice };

struct TraceQuestion {
    TraceBy by{};
    std::string key;  // a serial is also found by what follows the blank after its GTIN
    Instant at{};
    Instant knownAt = unlimited;
};

// A span of time; no end: it goes on at the instant asked.
struct TracePeriod {
    Instant from{};
    std::optional<Instant> to;
};

struct TracePlace {
    std::string location;
    Instant since{};
};

// One part in one position of one device, from its fit to its removal. For a notice that names no
// part: the device itself, while it was matched; `position` is "".
struct TraceStay {
    std::string device;
    std::string position;
    PartAttributes part;
    RecordRef fit;
    TracePeriod period;
    std::optional<RecordRef> ended;  // the record that ended it
    std::vector<TracePlace> places;  // of the device during the stay, in order
    std::vector<TracePeriod> uses;   // on a patient during the stay
    std::optional<bool> afterLoad;   // of a load: after it, up to the next reprocessing
};

// A reprocessing of a traced part.
struct TraceReprocess {
    RecordRef record;
    PartKey part;        // serial "" where it has none
    std::string device;  // in which it stood; "" if in none
    std::string load;
};

struct Trace {
    std::vector<TraceStay> stays;             // in order of the fits
    std::vector<TraceReprocess> reprocesses;  // in order
};

// Precondition: the log has an edition.
[[nodiscard]] Trace trace(const Log& log, const TraceQuestion& question);

}  // namespace rules
