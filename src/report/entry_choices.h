// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What of an edition, and of what stands on a unit, an entry may name: codes, findings, ends. Keys
// and instants, for whoever offers them to a person; knows no screen and no words.
#pragma once

#include "rules/assess.h"

#include <set>
#include <string>
#include <vector>

namespace report {

// The alarms that the edition has a label for, and those that make a check due again.
[[nodiscard]] std::set<std::string> alarmCodes(const rules::Rulebook& rulebook);

// Whether a fault of that code stands against ready, where its record does not say.
[[nodiscard]] bool faultBlocks(const rules::Rulebook& rulebook, std::string_view code);

// Those of the findings that may be permitted for a time, in their order.
[[nodiscard]] std::vector<rules::Finding> waivable(const rules::Rulebook& rulebook,
                                                   const std::vector<rules::Finding>& findings);

// Until when: some round numbers of days from then, as far as the edition goes, and the longest
// that it allows. Never empty unless it allows none.
[[nodiscard]] std::vector<logbook::Instant> waiverEnds(const rules::Rulebook& rulebook,
                                                       logbook::Instant at);

}  // namespace report
