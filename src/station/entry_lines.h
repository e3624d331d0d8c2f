// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What entries say, told before they are kept: to whoever has to put their name to them. Writes
// nothing, and asks nothing of the log.
#pragma once

#include "station/entry.h"
#include "station/standing.h"

#include <string>
#include <vector>

namespace station {

// A line each, in order, as the history will have it: "Use ended"; of one that is not for now with
// its time, "Use ended, 13:20". None for what is no record.
[[nodiscard]] std::vector<std::string> entryLines(const Surroundings& surroundings,
                                                  const Standing& standing,
                                                  const std::vector<Entry>& entries);

}  // namespace station
