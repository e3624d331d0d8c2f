// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Text for terminals and plain files: lines that wrap, tables whose cells wrap, nothing cut off.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace report {

struct TextOptions {
    std::size_t width = 100;  // columns; at least 60 is used
};

[[nodiscard]] std::size_t usableWidth(const TextOptions& options);

// Words as many as fit a line, each line indented; a word that is too long is broken. Ends with a
// line feed.
[[nodiscard]] std::string wrapped(const std::string& text, std::size_t width,
                                  std::size_t indent = 0);

// A table without rules: two blanks between columns, the last column takes what is left. If that is
// too little, the widest of the others give way.
class Table {
public:
    explicit Table(std::vector<std::string> titles);

    // As many cells as titles.
    void add(std::vector<std::string> cells);
    [[nodiscard]] bool isEmpty() const { return m_rows.empty(); }
    [[nodiscard]] const std::vector<std::string>& titles() const { return m_titles; }
    [[nodiscard]] const std::vector<std::vector<std::string>>& cells() const { return m_rows; }

    // The widths that its columns need.
    [[nodiscard]] std::vector<std::size_t> naturalWidths() const;
    // With widths from `fitted`, so that several tables can stand below each other.
    [[nodiscard]] std::string text(const std::vector<std::size_t>& widths,
                                   std::size_t indent = 0) const;
    [[nodiscard]] std::string text(std::size_t width, std::size_t indent = 0) const;
    // The same without the titles.
    [[nodiscard]] std::string rows(const std::vector<std::size_t>& widths,
                                   std::size_t indent = 0) const;

private:
    std::vector<std::string> m_titles;
    std::vector<std::vector<std::string>> m_rows;
};

// The widths made to fit `width` columns, gaps included.
[[nodiscard]] std::vector<std::size_t> fitted(std::vector<std::size_t> widths, std::size_t width);

}  // namespace report
