// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is known of a part, a lot or a model of parts that was scanned with no unit open, or that
// has no position there: the notices that concern it, and the units in which such parts stand. The
// next code that is scanned takes its place.
#pragma once

#include "desktop/shell/fleet_view.h"
#include "desktop/shell/sheet.h"
#include "station/bedside.h"

namespace desktop {

class KnownPartSheet : public Sheet {
    Q_OBJECT
public:
    KnownPartSheet(const station::Found& found, const FleetView& fleet, bool isUnitOpen,
                   QWidget* parent = nullptr);

    bool takeScan(const QString& text) override;

Q_SIGNALS:
    // The sheet is gone by then.
    void unitWanted(const QString& serial);
    void codeRead(const QString& text);

private:
    void addPlaces(const std::vector<report::FittedPlace>& places, const FleetView& fleet);
};

}  // namespace desktop
