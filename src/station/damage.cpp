// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Problems of damage; see damage.h.
#include "station/damage.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace station {

bool isOfDamage(const Problem& problem) {
    constexpr std::array<std::string_view, 8> codes{
        "trouble.damaged",    "trouble.damaged_throughout",    "trouble.chain_broken",
        "trouble.unreadable", "trouble.unreadable_throughout", "trouble.edition_gone",
        "trouble.not_given",  "trouble.journal_unread"};
    return std::ranges::find(codes, problem.code) != codes.end();
}

bool cannotBeKept(const Problem& problem) {
    return isOfDamage(problem) || problem.code == "trouble.io";
}

bool mayStand(const Problem& problem) {
    return problem.code == "trouble.write_not_confirmed";
}

Problem onPaper(const words::Words& words, Problem problem) {
    if (mayStand(problem)) {
        problem.notice.action = words.say("entry.on_paper_too", {{"do", problem.notice.action}});
        return problem;
    }
    const bool isLasting = cannotBeKept(problem);
    problem.notice.safe = isLasting ? words.say("entry.not_recorded")
                                    : words.say("entry.not_recorded_now",
                                                {{"safe", problem.notice.safe}});
    problem.notice.action =
        isLasting ? words.say("entry.on_paper")
                  : words.say("entry.on_paper_then", {{"do", problem.notice.action}});
    return problem;
}

std::string alsoOnPaper(const words::Words& words) {
    return words.say("entry.edition_unread") + " " +
           words.say("entry.on_paper_too", {{"do", words.say("entry.edition_unread_do")}});
}

}  // namespace station
