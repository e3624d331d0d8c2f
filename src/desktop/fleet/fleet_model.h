// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The units of a fleet as rows of a table. Knows no widget.
#pragma once

#include "desktop/shell/fleet_view.h"

#include <QAbstractTableModel>

namespace desktop {

class FleetModel : public QAbstractTableModel {
    Q_OBJECT
public:
    enum Column { Unit, Name, Model, Place, Group, Verdict, Until, Missing, ColumnCount };

    using QAbstractTableModel::QAbstractTableModel;

    void show(SharedFleetView fleet);
    [[nodiscard]] QString serialAt(int row) const;

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;

private:
    SharedFleetView m_fleet;
};

}  // namespace desktop
