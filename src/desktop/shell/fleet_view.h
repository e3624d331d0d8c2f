// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every unit at one instant as the screens show it: made beside the thread that paints, and never
// changed after that.
#pragma once

#include "report/board.h"
#include "station/answers.h"

#include <QString>
#include <memory>
#include <string>
#include <vector>

namespace desktop {

struct FleetView {
    // What it was made from; everything else refers to it.
    std::shared_ptr<const station::WholeStanding> standing;
    report::Board board;
    std::vector<report::BoardLine> lines;  // of the board's rows, in their order
    logbook::Instant readAt{};             // by the clock
};

// The log is read again every quarter of a minute: an older view is one that cannot be.
inline constexpr logbook::Duration agesAfter{60'000};

// That it could not be read again for so long; "" while it is not old.
[[nodiscard]] QString ageSentence(const FleetView& fleet, const words::Words& words,
                                  logbook::Instant now);

using SharedFleetView = std::shared_ptr<const FleetView>;

[[nodiscard]] station::Result<SharedFleetView> readFleet(const station::Surroundings& surroundings,
                                                         const station::LogbookFile& file);

}  // namespace desktop
