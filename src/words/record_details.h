// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// All that the body of an entry states, field by field in words, for whoever opens it. What stands
// about it (who, when, on which form) is told elsewhere.
#pragma once

#include "logbook/record.h"
#include "words/context.h"

#include <string>
#include <utility>
#include <vector>

namespace words {

// A label and what it is: "Lot", "C-4471".
using Detail = std::pair<std::string, std::string>;

// Of the kinds that are about a unit; of the others nothing.
[[nodiscard]] std::vector<Detail> recordDetails(const Context& context,
                                                const logbook::Record& record);

// What a waiver permits: "leak test due".
[[nodiscard]] std::string waivedFinding(const Context& context,
                                        const logbook::body::Waive& waive);

// "FS-9, lot C-4471, Brookvale FS-A, expires 22 Oct 2027"; "" if nothing of that is stated.
[[nodiscard]] std::string statedPart(const Context& context, const logbook::StatedPart& part);

}  // namespace words
