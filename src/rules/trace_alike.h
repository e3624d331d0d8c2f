// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Keys in the log that are spelled almost like the one traced: a recall must not miss a lot because
// somebody typed a small letter or a blank.
#pragma once

#include "rules/trace.h"

#include <string>
#include <string_view>
#include <vector>

namespace rules {

// Lots, serials or loads in records that take part, other than the key itself, that are the same
// but for small and capital letters (a to z), blanks, hyphens and underscores; sorted. None for a
// notice.
[[nodiscard]] std::vector<std::string> alikeKeys(const Log& log, const TraceQuestion& question);

// Whether a trace by the serial `wanted` looks at a part with this one: it is the same, the same
// but for the number of the article before it, or alike.
[[nodiscard]] bool isSerialOf(std::string_view serial, const std::string& wanted);

}  // namespace rules
