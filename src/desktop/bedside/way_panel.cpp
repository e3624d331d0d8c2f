// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The panel; see way_panel.h.
#include "desktop/bedside/way_panel.h"

namespace desktop {

WayPanel::WayPanel(PanelTools tools, QWidget* parent) : UnitPanel(tools, parent) {}

void WayPanel::show(const SharedUnitView& unit) {
    m_unit = unit;
}

}  // namespace desktop
