// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Of which units on a patient nobody said where they are, for a board.
#pragma once

#include "report/board_places.h"
#include "station/standing.h"

namespace station {

struct FoundUnsaid {
    report::PlacesUnsaid places;
    bool isRead = true;  // false where what was recorded after the starts could not be
};

// Only the records of units are read whose use began without a place. Of one of which they cannot
// be read, the place counts as not said since then.
[[nodiscard]] FoundUnsaid placesUnsaid(const Surroundings& surroundings, const LogbookFile& file,
                                       const Standing& standing);

}  // namespace station
