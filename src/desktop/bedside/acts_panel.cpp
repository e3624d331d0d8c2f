// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The panel; see acts_panel.h.
#include "desktop/bedside/acts_panel.h"

namespace desktop {

ActsPanel::ActsPanel(PanelTools tools, QWidget* parent) : UnitPanel(tools, parent) {}

void ActsPanel::show(const SharedUnitView& unit) {
    m_unit = unit;
}

}  // namespace desktop
