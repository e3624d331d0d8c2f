// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The fleet; see fleet_view.h.
#include "desktop/shell/fleet_view.h"

#include <utility>

namespace desktop {

station::Result<SharedFleetView> readFleet(const station::Surroundings& surroundings,
                                           const station::LogbookFile& file) {
    auto standing = station::wholeStanding(surroundings, file, {});
    if (!standing) return tl::unexpected(standing.error());
    auto view = std::make_shared<FleetView>();
    view->readAt = surroundings.clock.now();
    view->standing = std::make_shared<const station::WholeStanding>(std::move(*standing));
    view->board = station::board(surroundings, *view->standing);
    view->lines = report::boardLines(view->board, surroundings.words);
    return view;
}

}  // namespace desktop
