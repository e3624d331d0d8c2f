// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which sentences the program says, and which gaps it fills in each: what every language must have.
// Knows no language.
#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

namespace words {

// "finding.lapsed.says" and the gaps the program fills there: check, when, duration.
using SentenceKeys = std::map<std::string, std::vector<std::string>, std::less<>>;

[[nodiscard]] const SentenceKeys& sentenceKeys();

}  // namespace words
