// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A code that nothing in this logbook is known by: it may be a unit that is to be enrolled. The
// next code that is scanned takes its place.
#pragma once

#include "desktop/shell/sheet.h"
#include "station/bedside.h"

namespace desktop {

class UnknownCodeSheet : public Sheet {
    Q_OBJECT
public:
    // With a unit open it may be on a part as well.
    UnknownCodeSheet(const station::Found& found, bool isUnitOpen, QWidget* parent = nullptr);

    bool takeScan(const QString& text) override;

Q_SIGNALS:
    // The sheet is gone by then.
    void enrolmentWanted(const QString& serial);
    void codeRead(const QString& text);
};

}  // namespace desktop
