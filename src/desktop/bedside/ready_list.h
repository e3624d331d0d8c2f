// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The units that are ready, with their places, while no unit is open: nobody has to sign in to see
// them, and a patient is never kept waiting for it. Writes nothing itself.
#pragma once

#include "desktop/shell/fleet_view.h"

#include <QWidget>
#include <optional>
#include <vector>

class QLabel;
class QVBoxLayout;

namespace desktop {

class ReadyList : public QWidget {
    Q_OBJECT
public:
    explicit ReadyList(QWidget* parent = nullptr);
    using QWidget::show;
    void show(const SharedFleetView& fleet);

Q_SIGNALS:
    void unitWanted(const QString& serial);
    void emergencyWanted(const QString& serial);

private:
    void addUnit(const FleetView& fleet, std::size_t row);

    QLabel* m_head = nullptr;
    QVBoxLayout* m_units = nullptr;
    std::optional<std::vector<report::BoardLine>> m_shown;
};

}  // namespace desktop
