// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The muster; see muster_sheet.h.
#include "desktop/fleet/muster_sheet.h"

#include "desktop/shell/text.h"
#include "desktop/shell/unrecorded.h"
#include "report/muster.h"
#include "station/answers.h"

#include <algorithm>

namespace desktop {

MusterSheet::MusterSheet(ForecastTools tools) : ForecastSheet(tr("Muster"), std::move(tools)) {
    const auto& board = this->tools().fleet->board;
    const auto context = board.context(this->tools().words);
    // The group that lacks most, and as many units as its par asks for.
    int most = 0;
    QStringList labels;
    for (const auto& group : board.groups) {
        const int lacking = group.par.value_or(0) - group.ready;
        if (lacking > most) {
            most = lacking;
            m_group = static_cast<int>(labels.size());
        }
        labels << shownText(words::groupLabel(context, group.group));
    }
    m_units = std::max(1, board.groups[static_cast<std::size_t>(m_group)].par.value_or(1));
    constexpr int bound{station::mostMustered};
    addChoices(tr("Group"), labels, &m_group);
    addNumber(tr("Ready units"), &m_units, bound);
    addNumber(tr("People"), &m_people, bound);
}

ForecastSheet::Answer MusterSheet::question() const {
    return [fleet = tools().fleet, &words = tools().words, group = m_group, units = m_units,
            people = m_people] {
        const auto& board = fleet->board;
        const report::MusterQuestion asked{board.asked,
                                           board.groups[static_cast<std::size_t>(group)].group,
                                           static_cast<std::size_t>(units),
                                           static_cast<std::size_t>(people)};
        return report::outlineOf(
            report::makeMuster(stateWithout(*fleet), board.lookup, asked, briefly(board)), words);
    };
}

}  // namespace desktop
