// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Units that were started in an emergency which is not in the log: wherever the fleet is shown they
// are not ready, and it is said why. Changes what is shown and nothing of the log.
#pragma once

#include "desktop/shell/fleet_view.h"

#include <map>
#include <string>

namespace desktop {

// The fleet as it was read, with these units put in doubt; itself where there are none.
[[nodiscard]] SharedFleetView withUnrecorded(const SharedFleetView& read,
                                             const std::map<std::string, logbook::Instant>& units,
                                             const words::Words& words);

// What the log tells of the units but these: for forecasts, which count on no patient's ventilator.
[[nodiscard]] rules::State stateWithout(const FleetView& fleet);
// That they are left out of it; "" where there are none.
[[nodiscard]] QString leftOutSentence(const FleetView& fleet, const words::Words& words);

// "not recorded: emergency start 04:31".
[[nodiscard]] QString unrecordedText(const FleetView& fleet, const words::Words& words,
                                     logbook::Instant at);

// Of such a unit: whether it is ready is not known, and no way leads there.
void tellUnrecorded(report::Bedside& bedside, const FleetView& fleet, const words::Words& words);

}  // namespace desktop
