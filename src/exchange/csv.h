// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Comma-separated values as RFC 4180 describes them, row by row. Knows neither columns nor what
// stands in a cell.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace exchange {

enum class CsvFault {
    StrayQuote,    // a quotation mark in a cell that does not begin with one, or text behind a cell
                   // in quotation marks
    OpenQuote,     // a quotation mark that is never closed: the rest of the file is in its cell
    TooManyCells,  // more than mostCells; those are left out
};

inline constexpr std::size_t mostCells = 1000;  // of a row

struct CsvRow {
    std::size_t line = 0;  // on which it begins, from 1
    std::vector<std::string> cells;
    std::optional<CsvFault> fault;  // the last one found; the cells are a guess then
};

// Lines end with LF or CRLF, the last one with or without. A cell in quotation marks may hold
// commas, line ends and, doubled, quotation marks. A byte-order mark before the first cell is
// passed over.
class CsvReader {
public:
    // `text` must outlive it.
    explicit CsvReader(std::string_view text);

    // The next row, blank lines passed over and counted; nothing at the end.
    [[nodiscard]] std::optional<CsvRow> next();

private:
    [[nodiscard]] bool atEnd() const { return m_place == m_text.size(); }
    [[nodiscard]] bool atCellEnd() const;
    char take();
    void takeLineEnd();
    void readCell(CsvRow& row);
    void readQuoted(CsvRow& row, std::string& cell);

    std::string_view m_text;
    std::size_t m_place = 0;
    std::size_t m_line = 1;
};

}  // namespace exchange
