// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The lines of the board as comma-separated values.
#include "report/board_csv.h"

#include "report/csv_table.h"

#include <cstddef>

namespace report {

namespace {

// Until when a unit is ready, or since when it is in use, in UTC; empty for neither.
std::string instantOf(const BoardRow& row, const words::Context& context) {
    const auto& found = row.assessment;
    if (found.verdict == rules::Verdict::Ready && found.readyUntil)
        return logbook::toText(*found.readyUntil);
    const auto& use = context.device->use;
    return found.inUse && use ? logbook::toText(use->start.at) : "";
}

// For how many whole minutes it stays ready; empty where that has no end, or it is not ready.
std::string minutesLeft(const BoardRow& row, Instant asked) {
    const auto& found = row.assessment;
    if (row.inDoubt || found.verdict != rules::Verdict::Ready || !found.readyUntil) return "";
    return std::to_string((*found.readyUntil - asked).ms / 60'000);
}

// The caution, and before it what stands across the head of a board.
std::string cautionOf(const Board& board, const words::Words& words) {
    const auto context = board.context(words);
    std::string text;
    for (const auto& problem : board.provenance.problems)
        text += words.say("board.problem", {{"problem", problem}}) + " ";
    for (const auto& line : staleLines(context, board.provenance)) text += line + " ";
    return text + words.say("caution.short");
}

}  // namespace

std::string toCsv(const PlacedBoard& placed, const words::Words& words) {
    const auto& board = placed.board;
    CsvTable table;
    for (const auto* title :
         {"board.unit", "board.name", "board.model", "board.place", "board.group", "board.verdict",
          "board.until_or_since", "board.in_utc", "board.minutes_left", "board.missing_or_remarks",
          "board.so_at", "board.caution"})
        table.text(words.say(title));
    table.endRow();
    const auto asked = board.context(words).times().full(board.asked);
    const auto caution = cautionOf(board, words);
    const auto lines = boardLines(placed, words);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const auto& line = lines[i];
        const auto& row = board.rows[i];
        for (const auto& text : {line.serial, line.name, line.model, line.place, line.group,
                                 line.verdict, line.until,
                                 instantOf(row, board.context(words, row))})
            table.text(text);
        table.number(minutesLeft(row, board.asked));
        for (const auto& text : {line.missing, asked, caution}) table.text(text);
        table.endRow();
    }
    return table.bytes();
}

}  // namespace report
