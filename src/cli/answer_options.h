// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the commands that ask the log share: reading the time, the knowledge and the group asked
// for, and remarks on the clock.
#pragma once

#include "cli/command.h"
#include "logbook/json.h"
#include "station/answers.h"

#include <string>
#include <vector>

namespace cli {

[[nodiscard]] station::Result<station::Asked> askedOf(const Call& call,
                                                      const words::Words& words);

// As it is printed: indented, with a line end.
[[nodiscard]] std::string jsonText(const logbook::json::Value& value);

// Names the records that were written down after the time asked; at most ten of them.
[[nodiscard]] std::vector<std::string> laterRemarks(const station::Standing& standing,
                                                    const words::Words& words);

}  // namespace cli
