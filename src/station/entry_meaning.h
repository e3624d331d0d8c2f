// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is told of an entry once it is kept: for when it is kept if that is not now, and how its
// unit stands.
#pragma once

#include "rules/log.h"
#include "station/surroundings.h"

#include <string>
#include <vector>

namespace station {

// `log` is the log before the record. Nothing is told of a unit that was never enrolled, or where
// no edition is in force.
[[nodiscard]] std::vector<std::string> entryMeaning(const Surroundings& surroundings,
                                                    const rules::Log& log,
                                                    const logbook::Record& record);

}  // namespace station
