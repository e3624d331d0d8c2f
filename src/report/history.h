// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The entries on one unit as lines to read: what, when, by whom, and what was made of them since.
// Plain data, in words already; refers to nothing. Knows no screen.
#pragma once

#include "rules/log.h"
#include "words/context.h"

#include <optional>
#include <string>
#include <vector>

namespace report {

// By which a person looks for an entry.
enum class EntrySort { Check, SetUp, Use, Trouble, Other };

[[nodiscard]] EntrySort sortOf(logbook::Kind kind);

struct HistoryLine {
    logbook::RecordName record;
    logbook::Instant at{};
    EntrySort sort{};
    std::string day;      // "28 Nov 2026"
    std::string clock;    // "08:30", in a night in which it comes twice "01:30 (first, CDT)"
    std::string says;     // "Leak test: failed; leak 180 mL/min"
    std::string who;      // who did it, by name
    std::string entered;  // "entered 40 min later"; "" if it was at once
    std::string uncounted;  // of an attempt at a check: "does not count: …"; "" where it counts
    bool struck = false;
    std::string strike;   // "struck through by Mara Toller, 28 Nov 09:10: wrong unit"
    std::optional<std::string> batch;
    int inBatch = 1;      // entries of its batch on this unit that stand, itself included

    // All that stands in the record, a label and a text each, for who opens it.
    std::vector<std::pair<std::string, std::string>> details;
};

struct HistoryQuestion {
    std::string device;
    logbook::Instant asked{};
    logbook::Instant knownAt{};
    std::size_t most = 400;  // lines, of the latest entries
};

struct History {
    std::vector<HistoryLine> lines;  // latest first
    std::size_t older = 0;           // entries that were left out
};

// The context is about the unit.
[[nodiscard]] History makeHistory(const words::Context& context, const rules::Log& log,
                                  const HistoryQuestion& question);

}  // namespace report
