// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Yes or no; see question.h.
#include "station/question.h"

#include <algorithm>

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
    const auto meaningYes = surroundings.words.listed("question.yes");
    return std::ranges::find(meaningYes, words::smallLetters(*answer)) != meaningYes.end();
}

}  // namespace station
