// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What stands against a part, told while it is being stated, on a patient too: whether it is asked
// about is for others to say. Writes nothing and reads no file.
#pragma once

#include "station/bedside.h"
#include "station/standing.h"

#include <string>

namespace station {

// The findings about the part in that position of the context's unit, as sentences in a row; with
// `notices` also the notices about it that do not block.
enum class PartFindings { Blocking, BlockingAndNotices };
[[nodiscard]] std::string findingsOn(const words::Context& context, const std::string& position,
                                     PartFindings which);

// What a removal, or a fit of a part that stands in another unit, makes of the unit from which the
// part is taken; "" where that does not stand worse by it, or nothing is taken. The states are
// those just before the record and just after it, each of the whole unit.
[[nodiscard]] std::string takenFrom(const words::Words& words, const logbook::Record& record,
                                    const rules::State& before, const rules::State& after);

// The findings about the part, and all notices, if it were fitted on the unit now, and what becomes
// of the unit from which it is taken; "" where there are none, or the part cannot be fitted as it
// is stated.
[[nodiscard]] std::string partOutlook(const Surroundings& surroundings, const Standing& now,
                                      const std::string& device, const StatedPart& part);

}  // namespace station
