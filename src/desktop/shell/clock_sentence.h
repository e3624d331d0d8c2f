// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is said of the clock beside a fleet: as of when it is, and that entries are later than that.
#pragma once

#include "desktop/shell/fleet_view.h"

namespace desktop {

// That entries have a later time than the clock, and what becomes of their units; "" if none has.
[[nodiscard]] QString laterSentence(const FleetView& fleet, const words::Words& words);

// As of when it is, seen from now: with the day where that is another, or where the clock is in
// doubt.
[[nodiscard]] QString askedText(const FleetView& fleet, const words::Words& words,
                                logbook::Instant now);

}  // namespace desktop
