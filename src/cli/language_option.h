// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The one option that belongs to no command: in which language the program answers.
#pragma once

#include "station/problem.h"

#include <string>
#include <vector>

namespace cli {

// A call without the option, and the sentences it asks for.
struct SpokenCall {
    std::vector<std::string> arguments;
    const words::Words* words = nullptr;  // never null; built in, or what was spoken before
};

// "--language es" or "--language=es" may stand before or after the command, but not behind "--".
// Without it the words given are spoken. A problem, in these words, if it is given twice or names
// no language that is built in.
[[nodiscard]] station::Result<SpokenCall> takeLanguage(const std::vector<std::string>& arguments,
                                                       const words::Words& otherwise);

}  // namespace cli
