// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A panel whose entries are made on sheets over it: while one is there something is being entered,
// and a code that it cannot take is the desk's.
#pragma once

#include "desktop/bedside/unit_panel.h"
#include "desktop/shell/sheet.h"

#include <QPointer>

namespace desktop {

class SheetPanel : public UnitPanel {
    Q_OBJECT
public:
    using UnitPanel::UnitPanel;

    [[nodiscard]] bool isOpen() const override { return m_open && m_open->isVisible(); }
    void giveUp() override {
        if (isOpen()) m_open->callOff();
    }

protected:
    template <class Kind>
    void put(Kind* sheet) {
        m_open = sheet;
        connect(sheet, &Kind::codeRead, this, &UnitPanel::codeRead);
        sheets().put(sheet);
    }

private:
    QPointer<Sheet> m_open;
};

}  // namespace desktop
