// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The rows of the Bedside desk, in their order. For bedside.cpp only.
#pragma once

#include "report/bedside.h"

#include <vector>

namespace report {

// What the rows are made from. All must outlive the call.
struct RowsAsked {
    const words::Context& context;
    const WayToReady& way;
    const std::map<std::string, TakenOut>& takenOut;
};

[[nodiscard]] std::vector<BedsideRow> makeRows(const RowsAsked& asked);

}  // namespace report
