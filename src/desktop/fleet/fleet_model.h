// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The units of a fleet as rows of a table. Knows no widget and makes no text.
#pragma once

#include "desktop/fleet/fleet_rows.h"

#include <QAbstractTableModel>

namespace desktop {

class FleetModel : public QAbstractTableModel {
    Q_OBJECT
public:
    static constexpr int SortRole = Qt::UserRole + 1;     // what a column is sorted by
    static constexpr int VerdictRole = Qt::UserRole + 2;  // as int

    using QAbstractTableModel::QAbstractTableModel;

    // Rows that are there already stay where they are, whatever else comes, goes or changes.
    void show(const SharedFleetTable& table);
    [[nodiscard]] const FleetRow& rowAt(int row) const {
        return m_rows[static_cast<std::size_t>(row)];
    }
    [[nodiscard]] int rowOf(const QString& serial) const;  // -1: not there

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] int columnCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    [[nodiscard]] QVariant headerData(int section, Qt::Orientation orientation,
                                      int role) const override;

private:
    void removeGone(const std::vector<FleetRow>& rows);
    void insertNew(const std::vector<FleetRow>& rows);
    void takeChanged(const std::vector<FleetRow>& rows);

    std::vector<FleetRow> m_rows;  // by serial
};

}  // namespace desktop
