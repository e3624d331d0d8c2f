// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The fleet desk; see fleet_desk.h.
#include "desktop/fleet/fleet_desk.h"

#include "desktop/fleet/fleet_model.h"

#include <QHeaderView>
#include <QTableView>
#include <QVBoxLayout>

namespace desktop {

FleetDesk::FleetDesk(DeskTools tools, QWidget* parent) : Desk(tools, parent) {
    m_model = new FleetModel(this);
    m_table = new QTableView;
    m_table->setModel(m_model);
    m_table->setAccessibleName(tr("All units"));
    m_table->setSelectionBehavior(QAbstractItemView::SelectRows);
    m_table->verticalHeader()->hide();
    auto* layout = new QVBoxLayout(this);
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_table);
    connect(&workplace(), &Workplace::fleetChanged, this,
            [this] { m_model->show(workplace().fleet()); });
    connect(m_table, &QTableView::activated, this, [this](const QModelIndex& index) {
        Q_EMIT unitWanted(m_model->serialAt(index.row()));
    });
}

}  // namespace desktop
