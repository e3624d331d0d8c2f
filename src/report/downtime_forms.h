// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Blank forms for the time in which no computer is to be had: numbered, one a page, with the checks
// and parts of the edition in force, under the last board. Made ahead of need.
#pragma once

#include "report/board.h"

#include <string>
#include <vector>

namespace report {

struct DowntimeForms {
    const Board& board;                // the last one; its edition says what is on a form
    std::vector<std::string> numbers;  // of the forms, in order
};

// Pages with a form feed between; no line is wider than `options.width`.
[[nodiscard]] std::string toText(const DowntimeForms& forms, const words::Words& words,
                                 const TextOptions& options = {});

}  // namespace report
