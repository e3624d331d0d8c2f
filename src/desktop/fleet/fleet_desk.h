// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The desk of the charge therapist: all units at once.
#pragma once

#include "desktop/shell/desk.h"

class QTableView;

namespace desktop {

class FleetModel;

class FleetDesk : public Desk {
    Q_OBJECT
public:
    explicit FleetDesk(DeskTools tools, QWidget* parent = nullptr);

private:
    FleetModel* m_model = nullptr;
    QTableView* m_table = nullptr;
};

}  // namespace desktop
