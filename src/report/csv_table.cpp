// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Writing RFC 4180, formulas made harmless; see csv_table.h.
#include "report/csv_table.h"

#include <algorithm>
#include <array>

namespace report {

namespace {

// U+FF1D, U+FF0B, U+FF0D and U+FF20, which some spreadsheets take for the narrow ones.
constexpr std::array<std::string_view, 4> fullWidth{"\xEF\xBC\x9D", "\xEF\xBC\x8B",
                                                    "\xEF\xBC\x8D", "\xEF\xBC\xA0"};

bool isTakenForFormula(std::string_view text) {
    using namespace std::string_view_literals;
    const auto begin = text.find_first_not_of(' ');
    if (begin == std::string_view::npos) return false;
    text.remove_prefix(begin);
    return "=+-@\t\r\n\0"sv.find(text.front()) != std::string_view::npos ||
           std::ranges::any_of(fullWidth,
                               [text](std::string_view sign) { return text.starts_with(sign); });
}

}  // namespace

// In quotation marks always, so that nothing inside begins a cell.
void CsvTable::text(std::string_view text) {
    separate();
    m_bytes += '"';
    if (isTakenForFormula(text)) m_bytes += '\'';
    for (const char letter : text) {
        if (letter == '"') m_bytes += '"';
        m_bytes += letter;
    }
    m_bytes += '"';
}

void CsvTable::number(std::string_view number) {
    separate();
    m_bytes += number;
}

void CsvTable::endRow() {
    m_bytes += "\r\n";
    m_rowBegun = false;
}

void CsvTable::separate() {
    if (m_rowBegun) m_bytes += ',';
    m_rowBegun = true;
}

}  // namespace report
