// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The languages that are built into the program: every file of data/words.
#pragma once

#include <string_view>
#include <vector>

namespace words {

struct EmbeddedLanguage {
    std::string_view language;  // "en"
    std::string_view toml;
};

[[nodiscard]] const std::vector<EmbeddedLanguage>& embeddedLanguages();

}  // namespace words
