// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The words of a call by the description of a command, or what is wrong with them.
#pragma once

#include "cli/call.h"
#include "cli/description.h"
#include "station/problem.h"

#include <string>
#include <string_view>
#include <vector>

namespace cli {

// `arguments` come after the name of the command. With --help among them nothing else is asked for.
[[nodiscard]] station::Result<Call> parse(const Description& description,
                                          const std::vector<std::string>& arguments,
                                          const words::Words& words);

// The candidate that is most like the word; empty if none is like it.
[[nodiscard]] std::string nearest(std::string_view word,
                                  const std::vector<std::string_view>& candidates);

}  // namespace cli
