// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The panel; see setup_panel.h.
#include "desktop/bedside/setup_panel.h"

namespace desktop {

SetupPanel::SetupPanel(PanelTools tools, QWidget* parent) : UnitPanel(tools, parent) {}

void SetupPanel::show(const SharedUnitView& unit) {
    m_unit = unit;
}

}  // namespace desktop
