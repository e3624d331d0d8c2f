// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Not there, or not to be read; see not_found.h.
#include "station/not_found.h"

#include "station/standing.h"

#include <utility>

namespace station {

Problem unknownDevice(const Surroundings& surroundings, const LogbookFacts& facts,
                      const std::string& device) {
    auto doubts = doubtsOf(surroundings, facts);
    if (doubts.empty()) {
        return problemOf(surroundings.words, "trouble.unknown_device", {{"device", device}});
    }
    auto problem = problemOf(surroundings.words, "trouble.unknown_device_damaged",
                             {{"device", device}}, Problem::Weight::Logbook);
    problem.details = std::move(doubts);
    return problem;
}

Problem asFarAsRead(const Surroundings& surroundings, const LogbookFacts& facts,
                    Problem problem) {
    auto doubts = doubtsOf(surroundings, facts);
    if (!doubts.empty()) {
        doubts.push_back(surroundings.words.say("verify.may_be_unread"));
        problem.details = std::move(doubts);
        problem.weight = Problem::Weight::Logbook;
    }
    return problem;
}

}  // namespace station
