// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The entries on one unit, and a look back to any instant.
#pragma once

#include "desktop/bedside/unit_panel.h"

namespace desktop {

class HistoryPanel : public UnitPanel {
    Q_OBJECT
public:
    explicit HistoryPanel(PanelTools tools, QWidget* parent = nullptr);
    void show(const SharedUnitView& unit) override;

private:
    SharedUnitView m_unit;
};

}  // namespace desktop
