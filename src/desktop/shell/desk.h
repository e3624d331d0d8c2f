// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One of the desks that lie side by side in the window.
#pragma once

#include "desktop/shell/workplace.h"

#include <QWidget>

namespace desktop {

class SheetStack;

// What every desk is given; all outlive it.
struct DeskTools {
    Workplace& workplace;
    SheetStack& sheets;
};

class Desk : public QWidget {
    Q_OBJECT
public:
    explicit Desk(DeskTools tools, QWidget* parent = nullptr) : QWidget(parent), m_tools(tools) {}

    // A code was scanned, or typed into the field for it, while this desk is in front. Whether it
    // is taken.
    virtual bool takeScan(const QString& text) {
        Q_UNUSED(text);
        return false;
    }
    // The same for one that was typed, which is less certain to be what was meant.
    virtual bool takeTyped(const QString& text) { return takeScan(text); }
    // Back to what the desk shows first.
    virtual void goHome() {}

    // Puts the focus where work goes on; whether there is such a place.
    virtual bool focusWork() { return false; }

Q_SIGNALS:
    // The unit of that serial is wanted at the bedside desk.
    void unitWanted(const QString& serial);

protected:
    [[nodiscard]] Workplace& workplace() const { return m_tools.workplace; }
    [[nodiscard]] SheetStack& sheets() const { return m_tools.sheets; }
    [[nodiscard]] const DeskTools& tools() const { return m_tools; }

private:
    DeskTools m_tools;
};

}  // namespace desktop
