// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which of several units that go by the same code is meant.
#pragma once

#include "desktop/shell/fleet_view.h"
#include "desktop/shell/sheet.h"
#include "station/bedside.h"

namespace desktop {

class UnitChoiceSheet : public Sheet {
    Q_OBJECT
public:
    UnitChoiceSheet(const station::Found& found, const FleetView& fleet,
                    QWidget* parent = nullptr);

    bool takeScan(const QString& text) override;

Q_SIGNALS:
    void chosen(const QString& serial);
    void codeRead(const QString& text);
};

}  // namespace desktop
