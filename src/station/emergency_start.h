// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Emergency starts that were pressed and have to come into the log whatever happens: tried as often
// as need be, and kept once. Knows neither who presses nor where a start waits meanwhile.
#pragma once

#include "station/entry.h"

#include <string>
#include <vector>

namespace station {

// One press on one unit. Each entry has its time, and the same writer.
struct PressedStart {
    std::vector<Entry> entries;
    logbook::Instant pressed{};  // by the clock
    // Of which log, as logMark; "": it is not known, and that of the file will do.
    std::string log{};
};

[[nodiscard]] bool isEmergencyStart(const Entry& entry);

// What tells that log from any other, whatever is added to it: its station and the seal of that
// station's first record. "" where there is none yet, or it cannot be read.
[[nodiscard]] std::string logMark(const Surroundings& surroundings, const LogbookFile& file);

struct StartKept {
    std::vector<Written> written;
    // It stood there already: an attempt was told as failed that had taken effect. Then nothing is
    // written, and these are the records.
    std::vector<logbook::RecordName> there{};
};

// Refused as writeTogether, and where another log stands there. It stands there already where the
// same start of that unit, by the same person and for the same time, was entered since the press:
// looked for in what is under the lock, so that two that try at once keep one.
[[nodiscard]] Result<StartKept> keepStart(const Surroundings& surroundings,
                                          const LogbookFile& file, const PressedStart& start);

}  // namespace station
