// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which of the built-in languages is spoken. Knows neither a computer's settings nor a call: what
// is wanted is given.
#pragma once

#include "words/words.h"

#include <string>
#include <vector>

namespace words {

// The codes of the languages that are built in, sorted: "en", "es".
[[nodiscard]] std::vector<std::string> builtInLanguages();

// The sentences of the first language named that is built in, English if none is. Names as
// computers write them: "es", "es_MX.UTF-8", "es-419"; "C" and "POSIX" mean English. A region is
// not looked at.
[[nodiscard]] const Words& wordsFor(const std::vector<std::string>& wanted);

}  // namespace words
