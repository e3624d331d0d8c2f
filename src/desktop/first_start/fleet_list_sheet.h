// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What would come of a fleet list: every line that is refused, with its reasons, before anything is
// written.
#pragma once

#include "desktop/shell/sheet.h"
#include "station/fleet_list.h"

namespace desktop {

class FleetListSheet : public Sheet {
    Q_OBJECT
public:
    explicit FleetListSheet(const station::FleetPreview& preview, QWidget* parent = nullptr);

Q_SIGNALS:
    void taken();  // the good units are wanted
    void namesNoPatient();  // looked at, and so of all of its labels and places

private:
    void addLine(const QString& text, bool isStrong);
};

}  // namespace desktop
