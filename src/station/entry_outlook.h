// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What would become of entries, told before they are kept: why one would not count, or change
// nothing. Writes nothing, and does not ask who may write it.
#pragma once

#include "station/entry.h"
#include "station/standing.h"

#include <string>
#include <vector>

namespace station {

// What of an attempt is asked for only later, and is no reason yet.
struct StillToCome {
    bool values = false;
    bool second = false;
};

// The entries of one press, one after another, on the unit as it stood when each happened. A
// sentence for each that would not count, with all its reasons and what to do about them, or that
// would change nothing; none where all would count, as far as is known. Nothing is told of what
// must never wait, nor of what is refused anyway. Folds the log for what lies in the past.
[[nodiscard]] std::vector<std::string> whyUncounted(const Surroundings& surroundings,
                                                    const WholeStanding& standing,
                                                    const std::vector<Entry>& entries,
                                                    const StillToCome& toCome = {});

}  // namespace station
