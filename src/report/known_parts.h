// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the log tells of parts by what is on them, whichever unit they are in or meant for: where
// they stand, and which notices concern them. Knows no screen.
#pragma once

#include "words/context.h"

#include <string>
#include <string_view>
#include <vector>

namespace report {

// What is on a part, by which it was asked for.
enum class PartMark { Serial, Lot, Model };

// Where one stands.
struct FittedPlace {
    std::string device;
    std::string label;  // of the position, "Flow sensor"
};

// By unit and position; retired units have none.
[[nodiscard]] std::vector<FittedPlace> placesOf(const words::Context& context, PartMark mark,
                                                std::string_view text);

// The notices that concern one with that on it, or name it so, each with what to do: those that
// stop use first. None that is cancelled.
[[nodiscard]] std::vector<std::string> noticesOn(const words::Context& context, PartMark mark,
                                                 std::string_view text);

}  // namespace report
