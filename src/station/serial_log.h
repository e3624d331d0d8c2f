// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What of a log a trace by serial looks at, without reading all of it: where the part was depends
// on the records of the units that it was ever in and on those of the department, and on no others.
#pragma once

#include "station/standing.h"

#include <string>

namespace station {

// As wholeStanding(), but that its log is that of the units into which a part with that serial, or
// one spelled almost alike, was ever fitted. A trace by that serial is that of the whole log.
[[nodiscard]] Result<WholeStanding> standingForSerial(const Surroundings& surroundings,
                                                      const LogbookFile& file, const Asked& asked,
                                                      const std::string& serial);

}  // namespace station
