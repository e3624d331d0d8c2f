// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The clock beside a fleet; see clock_sentence.h.
#include "desktop/shell/clock_sentence.h"

#include "desktop/shell/text.h"
#include "words/context.h"

#include <QCoreApplication>

namespace desktop {

QString laterSentence(const FleetView& fleet, const words::Words& words) {
    const auto& later = fleet.standing->later;
    if (later.empty()) return {};
    const words::Context context{words, fleet.board.state, nullptr, fleet.board.asked, {}, {}};
    return QCoreApplication::translate(
               "desktop::FleetView",
               "This computer's clock says %1. Entries with a later time: %2, the first of them "
               "%3. One of the clocks is wrong; until it is put right, units with such entries "
               "are not shown as ready.")
        .arg(shownText(context.times().dated(fleet.board.asked)))
        .arg(later.size())
        .arg(shownText(toText(later.front().name)));
}

QString askedText(const FleetView& fleet, const words::Words& words, logbook::Instant now) {
    const words::Context context{words, fleet.board.state, nullptr, now, {}, {}};
    return shownText(fleet.standing->later.empty() ? context.times().time(fleet.board.asked)
                                                   : context.times().dated(fleet.board.asked));
}

}  // namespace desktop
