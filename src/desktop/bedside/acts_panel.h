// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Everything else that a therapist enters about a unit: its use, faults, holds, services, notes.
#pragma once

#include "desktop/bedside/unit_panel.h"

namespace desktop {

class ActsPanel : public UnitPanel {
    Q_OBJECT
public:
    explicit ActsPanel(PanelTools tools, QWidget* parent = nullptr);
    void show(const SharedUnitView& unit) override;

private:
    SharedUnitView m_unit;
};

}  // namespace desktop
