// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A draft edition against the one in force: what its adoption would do to the units now, and what
// the past months would have looked like under it. Writes nothing anywhere.
#pragma once

#include "rules/month.h"

#include <array>
#include <memory>
#include <string>
#include <vector>

namespace rules {

// A unit whose verdict would change at the adoption.
struct Flip {
    std::string device;
    Verdict now{};
    Verdict then{};
    std::vector<Finding> blocksNow;   // what blocks now, and would not then
    std::vector<Finding> blocksThen;  // what would block then, and does not now
};

// One month as it reads under one edition.
struct MonthUnder {
    std::array<int, 5> starts{};  // by StartClass
    std::vector<GroupTime> groups;
    int checksCalled = 0;  // see check_calls.h
};

struct MonthCompared {
    std::chrono::year_month month{};
    Instant from{}, to{};  // by the zone of the edition in force, under both
    MonthUnder now;        // under the edition in force, all along
    MonthUnder then;       // under the draft
};

// Keys that the draft names and the edition in force does not: no record is about them.
struct NamedAnew {
    std::vector<std::string> checks, positions, services;
};

// Keys that the edition in force names and the draft does not: under it they are left out.
struct NamedNoMore {
    std::vector<std::string> groups, checks, positions, services;
    std::vector<std::string> units;  // not retired, whose selected group is one of those; by serial
};

struct WhatIf {
    NamedAnew anew;
    NamedNoMore noMore;
    std::vector<Flip> flips;            // by device
    std::vector<MonthCompared> months;  // oldest first; the last one may be cut off at the instant
    int monthsBefore = 0;               // left out: they ended before the first record
    State now, then;                    // at the instant; `then` with the draft adopted
};

struct WhatIfQuestion {
    Instant at{};
    Instant knownAt = unlimited;
    int months = 12;  // at least 1
};

// Both replays take the whole log as if its only edition had been in force all along, so that they
// differ in nothing but the edition. Precondition: an edition is in force at the instant.
[[nodiscard]] WhatIf whatIf(const Log& log, const std::shared_ptr<const Rulebook>& draft,
                            const WhatIfQuestion& question);

}  // namespace rules
