// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Tracing parts through the log by lot, serial, reprocess load or notice: every unit, place and
// period they were in, before and after, and where they are now.
#pragma once

#include "rules/log.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rules {

enum class TraceBy { Lot, Serial, Load, Notice };

[[nodiscard]] std::string_view name(TraceBy by);  // "lot"

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

// Of a stay, a span in which the unit stood in one place and was on one patient, or on none.
struct TraceSpan {
    TracePeriod period;
    std::string location;          // "" where it is not known
    std::optional<RecordRef> use;  // the start of the use; none: no patient
    bool paused = false;           // of a use: the patient was disconnected for a while
};

// Where a stay lies, seen from a reprocess load.
enum class LoadSide {
    Earlier,  // before another reprocessing that came before the load
    Before,
    Through,  // the part went through the load without leaving the unit
    Since,
    Later,  // after the part was reprocessed anew
};

[[nodiscard]] std::string_view name(LoadSide side);  // "since"

// One part in one position of one unit, from its fit to its removal. For a notice that names no
// part: the unit itself, while it was concerned; `position` is "".
struct TraceStay {
    std::string device;
    std::string position;
    PartAttributes part;
    RecordRef fit;  // of a unit: the record from which it was concerned
    TracePeriod period;
    std::optional<RecordRef> ended;  // the record that ended it
    std::vector<TraceSpan> spans;    // in order, without a gap
    bool statedElsewhere = false;    // only another fit of the same part states what was asked for
    std::optional<LoadSide> side;    // of a load
    std::optional<RecordRef> done;   // of a notice: it was carried out on the unit since
};

// A reprocessing of a traced part.
struct TraceReprocess {
    RecordRef record;
    PartKey part;                     // serial "" where it has none
    std::string device;               // in which it stood; "" if in none
    std::optional<std::size_t> stay;  // likewise; an index in the trace
    std::string load;                 // "" where none is named
    bool counted = false;             // it made the part clean by the rules
};

// A part with a serial, as it is at the instant asked.
struct TracePart {
    PartKey key;
    std::optional<std::size_t> standsIn;  // the stay that goes on
    std::optional<std::size_t> lastStay;  // none: never fitted
    PartLife life;
};

struct Trace {
    TraceQuestion question;
    std::optional<KnownNotice> notice;        // as it reads at the instant; none: not known
    std::vector<TraceStay> stays;             // in order of the fits
    std::vector<TraceReprocess> reprocesses;  // in order
    std::vector<TracePart> parts;             // by key
    State end;                                // at the instant

    [[nodiscard]] bool isEmpty() const { return stays.empty() && reprocesses.empty(); }
};

// Whether the serial of a part is the one asked for: with or without the number of its article.
[[nodiscard]] bool isSerial(std::string_view serial, std::string_view wanted);

// A part is found with its whole past and future, once one of its fits states what was asked for.
// Precondition: the log has an edition.
[[nodiscard]] Trace trace(const Log& log, const TraceQuestion& question);

}  // namespace rules
