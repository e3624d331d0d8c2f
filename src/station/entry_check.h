// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is refused at entry though the format allows it: it would have no effect, or not the one
// that was meant. Records that come from elsewhere are never asked this.
#pragma once

#include "station/problem.h"
#include "station/surroundings.h"

#include <string>
#include <vector>

namespace station {

// `record` is complete, but need not be the next of its station. The warnings about it, if it may
// be written.
[[nodiscard]] Result<std::vector<std::string>> checkEntry(const Surroundings& surroundings,
                                                          const rules::Log& log,
                                                          const logbook::Record& record);

}  // namespace station
