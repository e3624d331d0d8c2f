// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One unit at one instant, and why: every finding with the record it rests on, its checks, set-up,
// services, holds, permitted deviations and last entries; as a model, as text and as JSON.
#pragma once

#include "report/board.h"

#include <optional>
#include <string>
#include <vector>

namespace report {

struct RecentEntry {
    logbook::Record record;
    bool struck = false;
};

struct Explain {
    Board board;                           // of this unit alone
    std::vector<RecentEntry> recent;       // its last entries, latest first
    std::vector<logbook::Record> resting;  // those its findings rest on, in reading order
    std::optional<Instant> placeUnsaidSince{};  // since when nobody said where it is

    [[nodiscard]] const BoardRow& row() const { return board.rows.front(); }
    [[nodiscard]] words::Context context(const words::Words& words) const {
        return board.context(words, row());
    }
};

// What only the records of the unit tell, not the state of it.
struct OfRecords {
    std::vector<RecentEntry> recent;  // its last entries, latest first
    words::RecordLookup confirmations{};
    std::optional<Instant> placeUnsaidSince{};
};

struct ExplainQuestion {
    std::string device;
    Instant asked{};
    std::optional<std::string> group;  // none: the selected one
};

// None if the unit was never enrolled by then.
[[nodiscard]] std::optional<Explain> makeExplain(rules::State state, words::RecordLookup lookup,
                                                 const ExplainQuestion& question,
                                                 Provenance provenance, OfRecords records);

// As known then; an entry that was confirmed after the instant asked is told as confirmed.
[[nodiscard]] OfRecords ofRecords(const rules::Log& log, const ExplainQuestion& question,
                                  Instant knownAt);

// The last `count` records on the unit up to `asked` that are known, latest first; those that are
// struck through stay readable.
[[nodiscard]] std::vector<RecentEntry> recentRecords(const rules::Log& log,
                                                     const ExplainQuestion& question,
                                                     Instant knownAt, std::size_t count = 12);

[[nodiscard]] std::string toText(const Explain& explain, const words::Words& words,
                                 const TextOptions& options = {});

// The unit's object of the board, with `records`: name and content of those named in it and of the
// last entries, in reading order, with `struck` where it is struck through.
[[nodiscard]] logbook::json::Value toJson(const Explain& explain);

}  // namespace report
