// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The log of some units and of the department, without reading all of it: for answers that look at
// the records of no other unit.
#pragma once

#include "station/standing.h"

#include <functional>
#include <memory>
#include <set>
#include <string>

namespace station {

using Devices = std::set<std::string, std::less<>>;  // serials; the department is ""

// Whether what was gathered has each record on which the states of these units rest: where not, the
// index that leads to the records of a unit lacks it. `has` may say so of another's record.
[[nodiscard]] bool hasWhatRestsOn(const rules::State& state, const Devices& devices,
                                  const std::function<bool(const logbook::RecordName&)>& has);

// With the facts of the standing and of its moment: what came in after it is not there. Null where
// only the whole log will do: none of them has a record, something in the log cannot be read, or no
// index leads to what their states rest on.
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
