// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The rows; see history_model.h.
#include "desktop/bedside/history_model.h"

#include "desktop/shell/text.h"
#include "words/words.h"

#include <algorithm>
#include <utility>

namespace desktop {

namespace {

bool isSame(const report::HistoryLine& one, const report::HistoryLine& other) {
    return one.record == other.record && one.struck == other.struck &&
           one.inBatch == other.inBatch && one.strike == other.strike &&
           one.uncounted == other.uncounted;
}

QString whenOf(const report::HistoryLine& line) {
    return shownText(line.day) + QLatin1Char(' ') + shownText(line.clock);
}

QString whoOf(const report::HistoryLine& line) {
    return line.entered.empty() ? shownText(line.who)
                                : shownText(line.who) + QStringLiteral(", ") +
                                      shownText(line.entered);
}

QString allOf(const report::HistoryLine& line) {
    auto text = whenOf(line) + QStringLiteral(". ") + shownText(line.says) +
                QStringLiteral(". ") + whoOf(line) + QLatin1Char('.');
    if (!line.uncounted.empty())
        text += QLatin1Char(' ') + shownText(words::capitalized(line.uncounted)) + QLatin1Char('.');
    if (line.struck) text += QLatin1Char(' ') + shownText(line.strike) + QLatin1Char('.');
    return text;
}

}  // namespace

void HistoryModel::show(std::shared_ptr<const report::History> history) {
    if (m_history && std::ranges::equal(m_history->lines, history->lines, isSame)) return;
    beginResetModel();
    m_history = std::move(history);
    choose();
    endResetModel();
}

void HistoryModel::showSort(std::optional<report::EntrySort> sort) {
    beginResetModel();
    m_sort = sort;
    choose();
    endResetModel();
}

void HistoryModel::choose() {
    m_rows.clear();
    if (!m_history) return;
    for (std::size_t i = 0; i < m_history->lines.size(); ++i)
        if (!m_sort || m_history->lines[i].sort == *m_sort) m_rows.push_back(i);
}

const report::HistoryLine& HistoryModel::lineAt(int row) const {
    return m_history->lines[m_rows[static_cast<std::size_t>(row)]];
}

int HistoryModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

QVariant HistoryModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) return {};
    const auto& line = lineAt(index.row());
    switch (role) {
        case Qt::DisplayRole: return allOf(line);
        case SaysRole: return shownText(line.says);
        case WhenRole: return whenOf(line);
        case WhoRole: return whoOf(line);
        case UncountedRole: return shownText(line.uncounted);
        case StrikeRole: return line.struck ? shownText(line.strike) : QString();
        default: return {};
    }
}

}  // namespace desktop
