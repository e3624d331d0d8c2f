// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The rows; see fleet_model.h.
#include "desktop/fleet/fleet_model.h"

#include "desktop/shell/text.h"

namespace desktop {

namespace {

const std::string& textAt(const report::BoardLine& line, int column) {
    switch (column) {
        case FleetModel::Unit: return line.serial;
        case FleetModel::Name: return line.name;
        case FleetModel::Model: return line.model;
        case FleetModel::Place: return line.place;
        case FleetModel::Group: return line.group;
        case FleetModel::Verdict: return line.verdict;
        case FleetModel::Until: return line.until;
        default: return line.missing;
    }
}

}  // namespace

void FleetModel::show(SharedFleetView fleet) {
    beginResetModel();
    m_fleet = std::move(fleet);
    endResetModel();
}

QString FleetModel::serialAt(int row) const {
    return shownText(m_fleet->board.rows[static_cast<std::size_t>(row)].assessment.device);
}

int FleetModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() || !m_fleet ? 0 : static_cast<int>(m_fleet->lines.size());
}

int FleetModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : ColumnCount;
}

QVariant FleetModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || role != Qt::DisplayRole) return {};
    const auto row = static_cast<std::size_t>(index.row());
    return shownText(textAt(m_fleet->lines[row], index.column()));
}

QVariant FleetModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) return {};
    switch (section) {
        case Unit: return tr("Unit");
        case Name: return tr("Asset");
        case Model: return tr("Model");
        case Place: return tr("Place");
        case Group: return tr("Group");
        case Verdict: return tr("Verdict");
        case Until: return tr("Until or since");
        default: return tr("What is missing");
    }
}

}  // namespace desktop
