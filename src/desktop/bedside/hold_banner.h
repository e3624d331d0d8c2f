// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Across the desk while a hold with a sheet stands on the unit: what it is called, and one press to
// what the sheet says.
#pragma once

#include "desktop/bedside/unit_panel.h"

#include <QWidget>
#include <vector>

class QVBoxLayout;

namespace desktop {

class HoldBanner : public QWidget {
    Q_OBJECT
public:
    explicit HoldBanner(DeskTools tools, QWidget* parent = nullptr);
    using QWidget::show;
    // Hidden where no such hold stands.
    void show(const SharedUnitView& unit);

private:
    void makeButtons(const std::vector<report::HoldSheet>& sheets);

    DeskTools m_tools;
    SharedUnitView m_unit;
    std::vector<std::string> m_shown;  // the holds that have a button, in their order
    QVBoxLayout* m_layout = nullptr;
};

}  // namespace desktop
