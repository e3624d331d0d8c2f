// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The log of some units and of the department, without reading all of it: for answers that look at
// the records of no other unit.
#pragma once

#include "station/standing.h"

#include <memory>
#include <set>
#include <string>

namespace station {

using Devices = std::set<std::string, std::less<>>;  // serials; the department is ""

// With the facts of the standing and of its moment: what came in after it is not there. Null where
// only the whole log will do: none of them has a record, or something in the log cannot be read.
[[nodiscard]] Result<std::shared_ptr<const WholeLog>> logOfUnits(const Surroundings& surroundings,
                                                                 const store::Logbook& logbook,
                                                                 const Standing& standing,
                                                                 const Devices& devices);

// The standing beside the log of that unit and of the department, or the whole log if need be.
// What it looks up it finds there, or else as the standing does.
[[nodiscard]] Result<WholeStanding> withLogOf(const Surroundings& surroundings,
                                              const LogbookFile& file, const Standing& standing,
                                              const std::string& device);

}  // namespace station
