// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is told of entries once they are kept: for when one is kept if that is not now, what of a
// correction does not count, and how the units stand.
#pragma once

#include "station/log_at_hand.h"

#include <string>
#include <vector>

namespace station {

// `log` is the log before the record, as far as it is needed for it. Nothing is told of a unit that
// was never enrolled, or where no edition is in force.
[[nodiscard]] std::vector<std::string> entryMeaning(const Surroundings& surroundings,
                                                    const LogAtHand& log,
                                                    const logbook::Record& record);

struct CorrectionMeaning {
    std::vector<std::string> warnings;  // checks entered anew that do not count
    std::vector<std::string> standing;  // of each unit concerned, by serial
};

// `log` is the log before the records, which are written together.
[[nodiscard]] CorrectionMeaning correctionMeaning(const Surroundings& surroundings,
                                                  const LogAtHand& log,
                                                  const std::vector<logbook::Record>& records);

// Which units would stand worse by the records, were they written now: ready and no longer so, or
// on a patient with more against them. A sentence each, by serial. Preconditions: as above, and at
// least one record.
[[nodiscard]] std::vector<std::string> worseBy(const Surroundings& surroundings,
                                               const LogAtHand& log,
                                               const std::vector<logbook::Record>& records);

}  // namespace station
