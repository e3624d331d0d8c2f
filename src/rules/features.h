// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The features of a device that mean something under a policy edition.
#pragma once

#include "rules/rulebook.h"

#include <string>
#include <vector>

namespace rules {

// Those that a condition of the edition asks for, and those that it gives a label; sorted.
[[nodiscard]] std::vector<std::string> featuresOf(const Rulebook& rulebook);

}  // namespace rules
