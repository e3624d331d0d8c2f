// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A table as comma-separated values for a spreadsheet: RFC 4180, in UTF-8. Knows no report.
#pragma once

#include <string>
#include <string_view>

namespace report {

// What spreadsheets take for a formula is made harmless, as OWASP advises: a text that begins with
// "=", "+", "-" or "@", with their full-width forms, a tab, a line end or a zero byte, blanks
// before it or not, gets an apostrophe before it. A number is left as it is.
class CsvTable {
public:
    // A cell at the end of the row that is being written; each row has as many as the first.
    void text(std::string_view text);
    void number(std::string_view number);  // as in "-0.3", the point for decimals; may be empty
    void endRow();

    // Lines end with CRLF, the last one too.
    [[nodiscard]] const std::string& bytes() const { return m_bytes; }

private:
    void separate();

    std::string m_bytes;
    bool m_rowBegun = false;
};

}  // namespace report
