// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Wrapping and columns. Knows nothing of what stands in them.
#include "report/layout.h"

#include "words/shown.h"

#include <algorithm>
#include <numeric>

namespace report {

namespace {

constexpr std::size_t gap = 2;
constexpr std::size_t leastWidth = 60;
constexpr std::size_t leastColumn = 6;
constexpr std::size_t leastFirst = 12;
constexpr std::size_t leastLast = 28;

std::vector<std::string> linesOf(const std::string& text, std::size_t width) {
    std::vector<std::string> lines(1);
    std::size_t used = 0;
    std::size_t at = 0;
    while (at < text.size()) {
        const auto end = std::min(text.find(' ', at), text.size());
        std::string word = text.substr(at, end - at);
        at = end + 1;
        if (used > 0 && used + 1 + words::columns(word) > width) {
            lines.emplace_back();
            used = 0;
        }
        while (words::columns(word) > width) {
            const auto part = words::firstColumns(word, width);
            if (part.empty()) break;
            lines.back() = part;
            lines.emplace_back();
            word.erase(0, part.size());
        }
        if (used > 0) lines.back() += ' ';
        lines.back() += word;
        used = words::columns(lines.back());
    }
    return lines;
}

void pad(std::string& line, std::size_t width) {
    const auto used = words::columns(line);
    if (used < width) line.append(width - used, ' ');
}

void trimRight(std::string& line) {
    line.erase(line.find_last_not_of(' ') + 1);
}

std::string rowText(const std::vector<std::string>& cells, const std::vector<std::size_t>& widths,
                    std::size_t indent) {
    std::vector<std::vector<std::string>> columns;
    std::size_t height = 1;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        columns.push_back(linesOf(cells[i], std::max<std::size_t>(widths[i], 1)));
        height = std::max(height, columns.back().size());
    }
    std::string text;
    for (std::size_t row = 0; row < height; ++row) {
        std::string line(indent, ' ');
        std::size_t end = indent;
        for (std::size_t i = 0; i < columns.size(); ++i) {
            if (row < columns[i].size()) line += columns[i][row];
            end += widths[i] + gap;
            if (i + 1 < columns.size()) pad(line, end);
        }
        trimRight(line);
        text += line + "\n";
    }
    return text;
}

}  // namespace

std::size_t usableWidth(const TextOptions& options) {
    return std::max(options.width, leastWidth);
}

std::string wrapped(const std::string& text, std::size_t width, std::size_t indent) {
    std::string all;
    for (const auto& line : linesOf(text, width - indent))
        all += std::string(indent, ' ') + line + "\n";
    return all;
}

Table::Table(std::vector<std::string> titles) : m_titles(std::move(titles)) {}

void Table::add(std::vector<std::string> cells) {
    cells.resize(m_titles.size());
    m_rows.push_back(std::move(cells));
}

std::vector<std::size_t> Table::naturalWidths() const {
    std::vector<std::size_t> widths;
    for (const auto& title : m_titles) widths.push_back(words::columns(title));
    for (const auto& row : m_rows)
        for (std::size_t i = 0; i < row.size(); ++i)
            widths[i] = std::max(widths[i], words::columns(row[i]));
    return widths;
}

std::string Table::text(const std::vector<std::size_t>& widths, std::size_t indent) const {
    return rowText(m_titles, widths, indent) + rows(widths, indent);
}

std::string Table::text(std::size_t width, std::size_t indent) const {
    return text(fitted(naturalWidths(), width - indent), indent);
}

std::string Table::rows(const std::vector<std::size_t>& widths, std::size_t indent) const {
    std::string all;
    for (const auto& row : m_rows) all += rowText(row, widths, indent);
    return all;
}

std::vector<std::size_t> fitted(std::vector<std::size_t> widths, std::size_t width) {
    if (widths.empty()) return widths;
    const auto last = widths.end() - 1;
    const auto wanted = std::min(*last, std::min(leastLast, width / 4));
    const auto others = [&] {
        return std::accumulate(widths.begin(), last, std::size_t{0}) + gap * (widths.size() - 1);
    };
    // The first column says what a row is about and is broken last.
    const auto leastOf = [&](auto column) {
        return column == widths.begin() ? leastFirst : leastColumn;
    };
    while (others() + wanted > width) {
        auto widest = last;
        for (auto column = widths.begin(); column != last; ++column)
            if (*column > leastOf(column) && (widest == last || *column > *widest)) widest = column;
        if (widest == last) break;
        --*widest;
    }
    const auto used = others();
    *last = std::min(*last, width > used + leastColumn ? width - used : leastColumn);
    return widths;
}

}  // namespace report
