// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What would become of entries, told before they are kept: why one would not count, or change
// nothing, or what stands against ready with the part that it fits. Writes nothing, and does not
// ask who may write it.
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
    bool isMove = false;  // they stand on another unit already: all are told of, but not what
                          // becomes of a unit from which a part is taken
};

// The entries of one press, one after another, on the unit as it stood when each happened. A
// sentence for each that would not count, with all its reasons and what to do about them, would
// change nothing, fits a part with which the unit is not ready, or takes a part from a unit that is
// then no longer ready; none where all would count, as far as is known. A part that is taken out
// for another to be put in at once is taken from no unit. Nothing is told of what must never wait,
// nor of what is refused anyway. For what lies in the past the state of then is asked of the file,
// as standing() does.
[[nodiscard]] std::vector<std::string> entryOutlook(const Surroundings& surroundings,
                                                    const LogbookFile& file, const Standing& now,
                                                    const std::vector<Entry>& entries,
                                                    const StillToCome& toCome = {});

}  // namespace station
