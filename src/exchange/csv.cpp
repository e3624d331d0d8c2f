// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading RFC 4180; see csv.h.
#include "exchange/csv.h"

#include <utility>

namespace exchange {

namespace {

constexpr std::string_view byteOrderMark = "\xEF\xBB\xBF";

bool isBlank(const CsvRow& row) {
    return row.cells.size() == 1 && row.cells.front().empty() && !row.fault;
}

}  // namespace

CsvReader::CsvReader(std::string_view text) : m_text(text) {
    if (m_text.starts_with(byteOrderMark)) {
        m_place = byteOrderMark.size();
    }
}

std::optional<CsvRow> CsvReader::next() {
    while (!atEnd()) {
        CsvRow row{m_line, {}, {}};
        readCell(row);
        while (!atEnd() && m_text[m_place] == ',') {
            ++m_place;
            readCell(row);
        }
        takeLineEnd();
        if (!isBlank(row)) {
            return row;
        }
    }
    return std::nullopt;
}

bool CsvReader::atCellEnd() const {
    const auto rest = m_text.substr(m_place);
    return rest.empty() || rest.front() == ',' || rest.front() == '\n' || rest.starts_with("\r\n");
}

char CsvReader::take() {
    const char letter = m_text[m_place++];
    m_line += letter == '\n' ? 1 : 0;
    return letter;
}

void CsvReader::takeLineEnd() {
    while (!atEnd() && take() != '\n') {
    }
}

void CsvReader::readCell(CsvRow& row) {
    std::string cell;
    const bool isQuoted = !atEnd() && m_text[m_place] == '"';
    if (isQuoted) {
        readQuoted(row, cell);
    }
    while (!atCellEnd()) {
        if (isQuoted || m_text[m_place] == '"') {
            row.fault = CsvFault::StrayQuote;
        }
        cell += take();
    }
    if (row.cells.size() < mostCells) {
        row.cells.push_back(std::move(cell));
    } else {
        row.fault = CsvFault::TooManyCells;
    }
}

void CsvReader::readQuoted(CsvRow& row, std::string& cell) {
    take();
    while (!atEnd()) {
        const char letter = take();
        if (letter != '"') {
            cell += letter;
        } else if (!atEnd() && m_text[m_place] == '"') {
            cell += take();
        } else {
            return;
        }
    }
    row.fault = CsvFault::OpenQuote;
}

}  // namespace exchange
