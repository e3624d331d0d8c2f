// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Keys in the log that are spelled almost like the one traced: a recall must not miss a lot because
// somebody typed a small letter or a blank.
#pragma once

#include "rules/trace.h"

#include <string>
#include <vector>

namespace rules {

// Lots, serials or loads in records that take part, other than the key itself, that are the same
// but for small and capital letters (a to z), blanks, hyphens and underscores; sorted. None for a
// notice.
[[nodiscard]] std::vector<std::string> alikeKeys(const Log& log, const TraceQuestion& question);

}  // namespace rules
