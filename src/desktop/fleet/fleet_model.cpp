// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The rows; see fleet_model.h.
#include "desktop/fleet/fleet_model.h"

#include <algorithm>

namespace desktop {

namespace {

// The order of serials as the state has it: by their bytes.
bool isBefore(const FleetRow& one, const FleetRow& other) {
    return one.serial.toUtf8() < other.serial.toUtf8();
}

}  // namespace

void FleetModel::show(const SharedFleetTable& table) {
    if (!std::ranges::equal(m_rows, table->rows, {}, &FleetRow::serial, &FleetRow::serial)) {
        removeGone(table->rows);
        insertNew(table->rows);
    }
    takeChanged(table->rows);
}

void FleetModel::removeGone(const std::vector<FleetRow>& rows) {
    for (int last = rowCount() - 1; last >= 0;) {
        const auto isGone = [&](int row) {
            return !std::binary_search(rows.begin(), rows.end(), rowAt(row), &isBefore);
        };
        if (!isGone(last)) {
            --last;
            continue;
        }
        int first = last;
        while (first > 0 && isGone(first - 1)) --first;
        beginRemoveRows({}, first, last);
        m_rows.erase(m_rows.begin() + first, m_rows.begin() + last + 1);
        endRemoveRows();
        last = first - 1;
    }
}

void FleetModel::insertNew(const std::vector<FleetRow>& rows) {
    for (std::size_t at = 0; at < rows.size();) {
        const bool isThere = at < m_rows.size() && m_rows[at].serial == rows[at].serial;
        if (isThere) {
            ++at;
            continue;
        }
        auto end = at + 1;
        while (end < rows.size() &&
               (at >= m_rows.size() || m_rows[at].serial != rows[end].serial))
            ++end;
        beginInsertRows({}, static_cast<int>(at), static_cast<int>(end) - 1);
        const auto begin = static_cast<std::ptrdiff_t>(at);
        m_rows.insert(m_rows.begin() + begin, rows.begin() + begin,
                      rows.begin() + static_cast<std::ptrdiff_t>(end));
        endInsertRows();
        at = end;
    }
}

void FleetModel::takeChanged(const std::vector<FleetRow>& rows) {
    for (std::size_t at = 0; at < rows.size();) {
        auto end = at;
        while (end < rows.size() && m_rows[end] != rows[end]) {
            m_rows[end] = rows[end];
            ++end;
        }
        if (end > at)
            Q_EMIT dataChanged(index(static_cast<int>(at), 0),
                               index(static_cast<int>(end) - 1, FleetRow::ColumnCount - 1));
        at = end + 1;
    }
}

int FleetModel::rowOf(const QString& serial) const {
    const auto found = std::find_if(m_rows.begin(), m_rows.end(),
                                    [&](const FleetRow& row) { return row.serial == serial; });
    return found == m_rows.end() ? -1 : static_cast<int>(found - m_rows.begin());
}

int FleetModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

int FleetModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : FleetRow::ColumnCount;
}

QVariant FleetModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) return {};
    const auto& row = rowAt(index.row());
    const auto column = static_cast<std::size_t>(index.column());
    switch (role) {
        case Qt::DisplayRole: return row.texts[column];
        case SortRole: return row.sortKeys[column];
        case VerdictRole: return static_cast<int>(row.verdict);
        default: return {};
    }
}

QVariant FleetModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal) return {};
    if (role == Qt::TextAlignmentRole) return int{Qt::AlignLeft | Qt::AlignVCenter};
    if (role != Qt::DisplayRole) return {};
    switch (section) {
        case FleetRow::Unit: return tr("Unit");
        case FleetRow::Name: return tr("Asset");
        case FleetRow::Model: return tr("Model");
        case FleetRow::Place: return tr("Place");
        case FleetRow::Group: return tr("Group");
        case FleetRow::Verdict: return tr("Verdict");
        case FleetRow::Until: return tr("Ready until");
        default: return tr("What is missing");
    }
}

}  // namespace desktop
