// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is fitted in each position, and how that is changed.
#pragma once

#include "desktop/bedside/unit_panel.h"

namespace desktop {

class SetupPanel : public UnitPanel {
    Q_OBJECT
public:
    explicit SetupPanel(PanelTools tools, QWidget* parent = nullptr);
    void show(const SharedUnitView& unit) override;

private:
    SharedUnitView m_unit;
};

}  // namespace desktop
