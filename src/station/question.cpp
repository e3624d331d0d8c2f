// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Yes or no; see question.h.
#include "station/question.h"

#include <algorithm>
#include <sstream>
#include <string>

namespace station {

bool saysYes(const Surroundings& surroundings, std::string_view question,
             const words::Gaps& gaps) {
    auto* terminal = surroundings.terminal;
    if (terminal == nullptr || !terminal->isThere()) {
        return false;
    }
    auto answer = terminal->ask(surroundings.words.say(question, gaps));
    if (!answer) {
        return false;
    }
    std::ranges::transform(*answer, answer->begin(), [](char letter) {
        return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
    });
    // The answers that mean yes, with commas between; the first letter of the first does too.
    std::istringstream meaningYes(surroundings.words.say("question.yes"));
    std::string yes;
    for (bool first = true; std::getline(meaningYes >> std::ws, yes, ','); first = false) {
        if (*answer == yes || (first && *answer == yes.substr(0, 1))) {
            return true;
        }
    }
    return false;
}

}  // namespace station
