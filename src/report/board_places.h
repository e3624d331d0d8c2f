// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The board with the places that nobody said: where a use began of which only the place before is
// known, that one is not told as where the unit is.
#pragma once

#include "report/board.h"

#include <map>
#include <string>
#include <vector>

namespace report {

// By unit: since when, as placeUnsaidSince() tells it.
using PlacesUnsaid = std::map<std::string, Instant>;

// Both must outlive what is made of them.
struct PlacedBoard {
    const Board& board;
    const PlacesUnsaid& unsaid;
};

// As those of a board by itself, which knows of no such place.
[[nodiscard]] std::string toText(const PlacedBoard& placed, const words::Words& words,
                                 const TextOptions& options = {});
[[nodiscard]] std::vector<BoardLine> boardLines(const PlacedBoard& placed,
                                                const words::Words& words);

}  // namespace report
