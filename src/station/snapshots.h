// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Keeping the state of a few places of the log in its file, and holding what is kept against the
// records. No answer depends on any of it; only how long an answer takes.
#pragma once

#include "station/open.h"

#include <cstdint>
#include <vector>

namespace station {

// So far behind the last record a state is kept: two hours, a day, a week, a month, a quarter. Each
// serves until something comes in that is later than that.
inline constexpr logbook::Duration snapshotDistances[] = {{2LL * 3'600'000},
                                                          {1LL * 86'400'000},
                                                          {7LL * 86'400'000},
                                                          {30LL * 86'400'000},
                                                          {91LL * 86'400'000}};

// Fewer records than these are folded in a moment: states are kept anew once an answer has to fold
// more, and so many have come in since the last time.
inline constexpr std::int64_t mostFolded = 20'000;
inline constexpr std::int64_t cameInBetween = 2'000;

struct SnapshotsMade {
    std::int64_t folded = 0;  // records, for all of them
    int made = 0;
    int kept = 0;  // now, with those that still held
};

// For after records were written, once whoever wrote them has been told, and after a logbook was
// made from another: as a rule it finds nothing to do. It is left where it cannot be done, for
// nothing depends on it, and in a logbook that is damaged: in which the last verify found
// something, or of which a record cannot be read.
void renewSnapshots(const Surroundings& surroundings, const LogbookFile& file);

// Throws away everything that is derived from the records, and makes it again. Problems: a record
// that cannot be read or does not fit its seal, and then nothing is kept; what is kept stands on
// damaged pages.
[[nodiscard]] Result<SnapshotsMade> rebuild(const Surroundings& surroundings,
                                            const LogbookFile& file);

// Of the states kept, those that are not what the records fold to: their places. `checked` counts
// those that were looked at and that nothing which came in meanwhile has made void. Where a record
// cannot be read, all with a place at or behind it are told.
struct SnapshotCheck {
    int checked = 0;
    std::vector<store::Place> wrong;
};
[[nodiscard]] Result<SnapshotCheck> checkSnapshots(const Surroundings& surroundings,
                                                   const store::Logbook& logbook);

// Throws away those that are wrong; false where the logbook cannot be written.
[[nodiscard]] bool throwAway(const Surroundings& surroundings, store::Logbook& logbook,
                             const SnapshotCheck& check);

}  // namespace station
