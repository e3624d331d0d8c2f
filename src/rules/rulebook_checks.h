// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The [checks] of a rulebook's text. Knows no check by name.
#pragma once

#include "rules/condition_reader.h"
#include "rules/rulebook.h"

#include <vector>

namespace rules {

// By key. What could not be read keeps its default.
[[nodiscard]] std::vector<Check> readCheckSection(const Field& section, Reading& reading);

}  // namespace rules
