// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking back at one device: what was so at an instant, what could be known of it at another, and
// what was entered or struck through since.
#pragma once

#include "rules/assess.h"
#include "rules/log.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace rules {

struct LookBackQuestion {
    std::string device;
    Instant at{};
    Instant knownAt = unlimited;
    std::optional<std::string> group;
};

struct LookBack {
    State knownState, actualState;
    std::optional<Assessment> known;    // none: not enrolled by what was known then
    std::optional<Assessment> actual;   // by all that is known now; none: not enrolled
    std::vector<std::size_t> evidence;  // records that a finding rests on, or that made a check
                                        // current, by either; in order

    // Records up to the instant that can bear on the device: its own, the department's, evidence on
    // other devices, and what a part with a serial that stood in it went through in others before,
    // by either; but signatures, and strikes, which are told with what they strike.
    std::vector<std::size_t> enteredSince;
    std::vector<std::size_t> struckSince;
};

// Precondition: an edition is known at the instant.
[[nodiscard]] LookBack lookBack(const Log& log, const LookBackQuestion& question);

}  // namespace rules
