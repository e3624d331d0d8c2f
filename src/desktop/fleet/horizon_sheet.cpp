// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking ahead; see horizon_sheet.h.
#include "desktop/fleet/horizon_sheet.h"

#include "desktop/shell/unrecorded.h"

#include "report/horizon.h"

#include <array>

namespace desktop {

namespace {

// A shift that is short or long, a day, a weekend.
constexpr std::array offeredHours{8, 12, 24, 72};

}  // namespace

HorizonSheet::HorizonSheet(ForecastTools tools)
    : ForecastSheet(tr("Look ahead"), std::move(tools)) {
    QStringList labels;
    for (const int hours : offeredHours) labels << tr("%1 h").arg(hours);
    addChoices(tr("How far"), labels, &m_span);
}

ForecastSheet::Answer HorizonSheet::question() const {
    const logbook::Duration ahead{offeredHours[static_cast<std::size_t>(m_span)] * 3'600'000LL};
    return [fleet = tools().fleet, &words = tools().words, ahead] {
        const auto& board = fleet->board;
        return report::outlineOf(report::makeHorizon(stateWithout(*fleet), board.lookup,
                                                     {board.asked, ahead}, briefly(board)),
                                 words);
    };
}

}  // namespace desktop
