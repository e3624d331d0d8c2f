// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A draft edition against the one in force: what its adoption would do to the units now, and what
// the past months would have looked like under it. Writes nothing anywhere.
#pragma once

#include "rules/month.h"

#include <memory>
#include <string>
#include <vector>

namespace rules {

// A unit whose verdict would change at the adoption.
struct Flip {
    std::string device;
    Verdict now{};
    Verdict then{};
    std::vector<Finding> findings;  // that would block then
};

// One month as it reads under one edition.
struct MonthUnder {
    std::array<int, 5> starts{};  // by StartClass
    std::vector<GroupTime> groups;
    int checksCalled = 0;  // times that a check which stood fell due, failed or ran out
};

struct MonthCompared {
    std::chrono::year_month month{};
    Instant from{}, to{};
    MonthUnder now;   // under the edition in force, all month
    MonthUnder then;  // under the draft
};

struct WhatIf {
    std::vector<Flip> flips;
    std::vector<MonthCompared> months;  // oldest first; the last one may be cut off at the instant
};

struct WhatIfQuestion {
    Instant at{};
    Instant knownAt = unlimited;
    int months = 12;
};

// Both replays take the whole log as if its only edition had been in force all along, so that they
// differ in nothing but the edition. Precondition: an edition is in force at the instant.
[[nodiscard]] WhatIf whatIf(const Log& log, const std::shared_ptr<const Rulebook>& draft,
                            const WhatIfQuestion& question);

}  // namespace rules
