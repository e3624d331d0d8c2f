// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// By what a field notice can name the units and parts that it concerns, and what it says besides
// that has no meaning.
#pragma once

#include "logbook/record.h"

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace logbook {

inline constexpr std::array<std::string_view, 7> matchFields{
    "position", "lots", "serials", "part_models", "device_models", "devices", "software"};

// The fields in `match` that are none of them, in the order of the content; none of another kind.
[[nodiscard]] std::vector<std::string> unknownMatchFields(Kind kind, std::string_view content);
// Those of them that list nothing, so that the notice is about no unit and no part.
[[nodiscard]] std::vector<std::string> emptyMatchFields(Kind kind, std::string_view content);

}  // namespace logbook
