// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Units that have entries later than the clock, by a standing of now. What is asked for an instant
// of its own tells what is known of that.
#pragma once

#include "station/standing.h"

#include <set>
#include <string>

namespace station {

// An entry about the whole department bears on every unit; one about a person, or a signature, on
// none.
[[nodiscard]] std::set<std::string> unitsWithLater(const Standing& standing);

}  // namespace station
