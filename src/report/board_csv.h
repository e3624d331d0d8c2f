// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The board as a table for a spreadsheet.
#pragma once

#include "report/board_places.h"

#include <string>

namespace report {

// A line for each unit, by serial, as people read the board, under its titles. Each line says
// besides at what time it is so, what the log lacks or is in doubt about, and the short caution,
// since lines get copied by themselves.
[[nodiscard]] std::string toCsv(const PlacedBoard& placed, const words::Words& words);

}  // namespace report
