// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Names of locales to the languages that are built in; see languages.h.
#include "words/languages.h"

#include "words/embedded.h"

#include <algorithm>

namespace words {

std::vector<std::string> builtInLanguages() {
    std::vector<std::string> codes;
    for (const auto& each : embeddedLanguages()) codes.emplace_back(each.language);
    std::sort(codes.begin(), codes.end());
    return codes;
}

const Words& wordsFor(const std::vector<std::string>& wanted) {
    const auto& english = *Words::builtIn();
    for (const auto& name : wanted) {
        const auto code = name.substr(0, name.find_first_of("_.@-"));
        if (code == "C" || code == "POSIX") return english;
        if (const auto* words = Words::builtIn(code)) return *words;
    }
    return english;
}

}  // namespace words
