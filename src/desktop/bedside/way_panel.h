// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What leads this unit to ready, step by step, each logged by one press.
#pragma once

#include "desktop/bedside/unit_panel.h"

namespace desktop {

class WayPanel : public UnitPanel {
    Q_OBJECT
public:
    explicit WayPanel(PanelTools tools, QWidget* parent = nullptr);
    void show(const SharedUnitView& unit) override;

private:
    SharedUnitView m_unit;
};

}  // namespace desktop
