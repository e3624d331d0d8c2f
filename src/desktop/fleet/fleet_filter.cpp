// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The chosen rows; see fleet_filter.h.
#include "desktop/fleet/fleet_filter.h"

#include <algorithm>

namespace desktop {

FleetFilter::FleetFilter(FleetModel* model, QObject* parent)
    : QSortFilterProxyModel(parent), m_model(model) {
    setSortRole(FleetModel::SortRole);
    setSourceModel(model);
    sort(FleetRow::Verdict);
}

void FleetFilter::findWords(const QString& typed) {
    m_words = typed.toLower().split(QLatin1Char(' '), Qt::SkipEmptyParts);
    invalidateFilter();
}

void FleetFilter::showVerdict(std::optional<rules::Verdict> verdict) {
    m_verdict = verdict;
    invalidateFilter();
}

void FleetFilter::showGroup(const QString& key) {
    m_group = key;
    invalidateFilter();
}

const FleetRow& FleetFilter::rowAt(const QModelIndex& index) const {
    return m_model->rowAt(mapToSource(index).row());
}

QModelIndex FleetFilter::indexOf(const QString& serial) const {
    const int row = m_model->rowOf(serial);
    return row < 0 ? QModelIndex() : mapFromSource(m_model->index(row, 0));
}

bool FleetFilter::filterAcceptsRow(int row, const QModelIndex& parent) const {
    if (parent.isValid()) return false;
    const auto& unit = m_model->rowAt(row);
    const bool isInUse = unit.isInUse && m_verdict == rules::Verdict::InUse;
    if (m_verdict && unit.verdict != *m_verdict && !isInUse) return false;
    if (!m_group.isEmpty() && unit.group != m_group) return false;
    return std::all_of(m_words.begin(), m_words.end(),
                       [&](const QString& word) { return unit.folded.contains(word); });
}

}  // namespace desktop
