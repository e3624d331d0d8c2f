// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sheet of a hold on the screen, and from there to a file or a printer.
#pragma once

#include "desktop/bedside/unit_panel.h"
#include "desktop/shell/sheet.h"
#include "print/paper.h"

class QLabel;
class QLineEdit;

namespace desktop {

class WrappedButton;

class HoldView : public Sheet {
    Q_OBJECT
public:
    // The hold of that place among the unit's sheets.
    HoldView(DeskTools tools, SharedUnitView unit, std::size_t hold, QWidget* parent = nullptr);

private:
    void addLines();
    void addFoot();
    void offerPrinter(const std::string& printer);
    void savePdf();
    void printOn(const std::string& printer);
    void tell(const QString& text);
    [[nodiscard]] std::string reason() const;
    [[nodiscard]] print::Paper paper() const;

    DeskTools m_tools;
    SharedUnitView m_unit;
    const report::HoldSheet& m_hold;
    QLineEdit* m_file = nullptr;
    QLabel* m_told = nullptr;
    WrappedButton* m_save = nullptr;
    WrappedButton* m_print = nullptr;  // sleeps until a printer is found
};

}  // namespace desktop
