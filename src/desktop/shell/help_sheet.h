// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The keys, how the window looks, which logbook is open, what this program is and what it is not.
#pragma once

#include "desktop/shell/desk.h"
#include "desktop/shell/sheet.h"

namespace desktop {

class HelpSheet : public Sheet {
    Q_OBJECT
public:
    explicit HelpSheet(DeskTools tools, QWidget* parent = nullptr);

Q_SIGNALS:
    // The window is to look so from now on; it is not stored.
    void appearanceWanted(int textPercent, bool isDark);

private:
    void addKeys();
    void addLook();
    void addAbout();

    DeskTools m_tools;
};

}  // namespace desktop
