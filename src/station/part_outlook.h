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

// The findings about the part, and all notices, if it were fitted on the unit now; "" where there
// are none, or the part cannot be fitted as it is stated.
[[nodiscard]] std::string partOutlook(const Surroundings& surroundings, const Standing& now,
                                      const std::string& device, const StatedPart& part);

}  // namespace station
