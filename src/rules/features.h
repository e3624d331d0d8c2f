// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What means something under a policy edition: the features of a device, and what a part is like.
#pragma once

#include "rules/rulebook.h"

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace rules {

// Those that a condition of the edition asks for, and those that it gives a label; sorted.
[[nodiscard]] std::vector<std::string> featuresOf(const Rulebook& rulebook);

// The attributes that conditions of the edition ask of a part in that position, each with the
// values that they look for; sorted.
using LookedForValues = std::map<std::string, std::set<std::string>>;
[[nodiscard]] LookedForValues attributesOf(const Rulebook& rulebook, std::string_view position);

}  // namespace rules
