// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The fleet; see fleet_view.h.
#include "desktop/shell/fleet_view.h"

#include "desktop/shell/text.h"
#include "words/times.h"

#include <QCoreApplication>
#include <QThreadPool>
#include <utility>

namespace desktop {

QString ageSentence(const FleetView& fleet, const words::Words& words, logbook::Instant now) {
    const auto span = now - fleet.readAt;
    if (span < agesAfter) return {};
    const words::Context context{words, fleet.board.state, nullptr, now, {}, {}};
    return QCoreApplication::translate(
               "desktop::FleetView",
               "As of %1. The logbook could not be read for %2: what was entered since is not "
               "shown.")
        .arg(shownText(context.times().time(fleet.board.asked)),
             shownText(words::duration(words, span)));
}

namespace {

// Where the last that held it lives in the thread that paints, taking a long log apart must not
// keep that from painting.
void dispose(FleetView* view) {
    QThreadPool::globalInstance()->start([view] { delete view; });
}

}  // namespace

station::Result<SharedFleetView> readFleet(const station::Surroundings& surroundings,
                                           const station::LogbookFile& file) {
    auto standing = station::wholeStanding(surroundings, file, {});
    if (!standing) return tl::unexpected(standing.error());
    const std::shared_ptr<FleetView> view(new FleetView, &dispose);
    view->readAt = surroundings.clock.now();
    view->standing = std::make_shared<const station::WholeStanding>(std::move(*standing));
    view->board = station::board(surroundings, *view->standing);
    view->lines = report::boardLines(view->board, surroundings.words);
    return view;
}

}  // namespace desktop
