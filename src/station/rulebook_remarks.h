// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is odd about a rulebook that can be used, for a person who chooses one: by the labels of its
// checks and parts, without keys, and where in its text it is.
#pragma once

#include "rules/rulebook_reader.h"
#include "words/words.h"

#include <string>
#include <vector>

namespace station {

// "Oxygen sensor calibration: this check stays valid for more than 30 days. Shorten it … (Line 214,
// column 1.)". A remark without a place has none.
[[nodiscard]] std::vector<std::string> remarksInWords(
    const words::Words& words, const rules::Rulebook& rulebook,
    const std::vector<rules::RulebookRemark>& remarks);

}  // namespace station
