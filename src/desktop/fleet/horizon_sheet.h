// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking ahead: what lapses by then, and the least work that keeps par.
#pragma once

#include "desktop/fleet/forecast_sheet.h"

namespace desktop {

class HorizonSheet : public ForecastSheet {
    Q_OBJECT
public:
    explicit HorizonSheet(ForecastTools tools);

protected:
    [[nodiscard]] Answer question() const override;

private:
    int m_span = 1;  // of those offered
};

}  // namespace desktop
