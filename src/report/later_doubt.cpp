// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Doubts by the clock; see later_doubt.h.
#include "report/later_doubt.h"

#include <algorithm>

namespace report {

void putInDoubt(Board& board, const std::set<std::string>& devices) {
    board.provenance.devicesInDoubt.insert(devices.begin(), devices.end());
    for (auto& row : board.rows) {
        auto& found = row.assessment;
        if (!devices.contains(found.device)) continue;
        row.inDoubt = true;
        if (found.verdict != rules::Verdict::Ready) continue;
        for (auto& group : board.groups)
            if (found.group == group.group) --group.ready;
        found.verdict = rules::Verdict::NotReady;
        found.readyUntil.reset();
    }
}

bool isDoubtByClock(const Provenance& provenance) {
    return provenance.problems.empty() && !provenance.devicesInDoubt.empty();
}

}  // namespace report
