// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Everything else that a therapist enters about a unit: its use, faults, holds, services, notes.
// What makes no sense on the unit as it is now is shown as such, and says why when it is pressed.
#pragma once

#include "desktop/bedside/acts/act_list.h"
#include "desktop/bedside/sheet_panel.h"

#include <vector>

class QVBoxLayout;

namespace desktop {

class WrappedButton;

class ActsPanel : public SheetPanel {
    Q_OBJECT
public:
    explicit ActsPanel(PanelTools tools, QWidget* parent = nullptr);
    void show(const SharedUnitView& unit) override;
    // Asks what came of that service.
    void recordService(const std::string& service);

private:
    void addGroup(const ActGroup& group, QVBoxLayout* layout);
    void press(ActKind kind);
    void startNow();

    struct Shown {
        ActKind kind;
        WrappedButton* button;
    };
    SharedUnitView m_unit;
    std::vector<Shown> m_shown;
};

}  // namespace desktop
