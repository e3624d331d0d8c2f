// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Going back through what was recorded of one unit, the last entry first.
#pragma once

#include "report/part_kinds.h"
#include "rules/log.h"

#include <cstddef>
#include <cstdint>

namespace report {

// Calls `take` with each record of the unit by that number that takes part as it is known, until it
// returns false.
template <class Take>
void walkBack(const rules::Log& log, std::uint32_t number, const KnownBy& known, Take take) {
    for (std::size_t index = log.records().size(); index-- > 0;) {
        const auto& record = log.records()[index];
        const bool counts = log.deviceNumber(index) == number && record.at <= known.at &&
                            log.takesPart(index, known.knownAt);
        if (counts && !take(record)) return;
    }
}

}  // namespace report
