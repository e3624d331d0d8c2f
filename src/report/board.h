// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The board: every unit at one instant, as a model, as text for people and as JSON.
#pragma once

#include "logbook/json.h"
#include "report/layout.h"
#include "report/provenance.h"
#include "rules/assess.h"

#include <optional>
#include <string>
#include <vector>

namespace report {

struct BoardRow {
    rules::Assessment assessment;
    bool inDoubt = false;  // its records do not fit the log's seal: `ready` is told as not ready
};

struct GroupCount {
    std::string group;
    int ready = 0;
    std::optional<int> par;
};

struct Board {
    Instant asked{};
    std::optional<std::string> groupAsked;
    rules::State state;
    words::RecordLookup lookup;
    Provenance provenance;
    std::vector<BoardRow> rows;      // by serial; retired units too
    std::vector<GroupCount> groups;  // by key; only the group asked for, if there is one
    words::RecordLookup confirmations{};  // for sentences about entries; may be empty

    // For sentences about the unit of a row. The board must outlive it.
    [[nodiscard]] words::Context context(const words::Words& words, const BoardRow& row) const;
    [[nodiscard]] words::Context context(const words::Words& words) const;
};

struct BoardQuestion {
    Instant asked{};
    std::optional<std::string> group;  // none: each unit's selected one
};

// `state` is that at the instant asked, its rulebook set; `lookup` finds the records it rests on.
[[nodiscard]] Board makeBoard(rules::State state, words::RecordLookup lookup,
                              const BoardQuestion& question, Provenance provenance);

[[nodiscard]] std::string toText(const Board& board, const words::Words& words,
                                 const TextOptions& options = {});

// A row as text, as the columns of a table; `missing` also says what a ready unit has to remark,
// and what stands against going on with one that is in use, the gravest first.
struct BoardLine {
    std::string serial, name, model, place, group, verdict, until, missing;
    // Of a unit in use, out of service or not, what of that is no check: "repair; fault: fan worn".
    std::string againstUse;
    bool operator==(const BoardLine&) const = default;
};

// In the order of the board's rows.
[[nodiscard]] std::vector<BoardLine> boardLines(const Board& board, const words::Words& words);

// What the lines leave out: the checks for which most of the ready units wait until the start of
// use, as a sentence; empty for none.
[[nodiscard]] std::string atEachStart(const Board& board, const words::Words& words);

// The array that `board --json` prints. A unit in doubt has `"in_doubt": true` besides.
[[nodiscard]] logbook::json::Value toJson(const Board& board);

// One of its objects.
[[nodiscard]] logbook::json::Object toJson(const BoardRow& row);

}  // namespace report
