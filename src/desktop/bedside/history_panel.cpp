// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The panel; see history_panel.h.
#include "desktop/bedside/history_panel.h"

namespace desktop {

HistoryPanel::HistoryPanel(PanelTools tools, QWidget* parent) : UnitPanel(tools, parent) {}

void HistoryPanel::show(const SharedUnitView& unit) {
    m_unit = unit;
}

}  // namespace desktop
