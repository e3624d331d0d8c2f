// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The muster: so many units for a group, by so many people.
#pragma once

#include "desktop/fleet/forecast_sheet.h"

namespace desktop {

class MusterSheet : public ForecastSheet {
    Q_OBJECT
public:
    explicit MusterSheet(ForecastTools tools);

protected:
    [[nodiscard]] Answer question() const override;

private:
    int m_group = 0;  // of the board's groups
    int m_units = 1;
    int m_people = 2;
};

}  // namespace desktop
