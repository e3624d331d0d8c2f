// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What of a log a trace by serial looks at, without reading all of it: where the part was depends
// on the records of the units that it was ever in and on those of the department, and on no others.
#pragma once

#include "station/standing.h"

#include <functional>
#include <string>
#include <string_view>

namespace station {

// Whether the canonical JSON of a record states an attribute of that name that may be one of those
// wanted. One that has to be written with a backslash counts as such; to look at a record too many
// does no harm.
[[nodiscard]] bool mayState(std::string_view attribute, std::string_view content,
                            const std::function<bool(std::string_view)>& isWanted);

// The same of a serial.
[[nodiscard]] bool mayStateSerial(std::string_view content,
                                  const std::function<bool(std::string_view)>& isWanted);

// As wholeStanding(), but that its log is that of the units into which a part with that serial, or
// one spelled almost alike, was ever fitted. A trace by that serial is that of the whole log.
[[nodiscard]] Result<WholeStanding> standingForSerial(const Surroundings& surroundings,
                                                      const LogbookFile& file, const Asked& asked,
                                                      const std::string& serial);

}  // namespace station
