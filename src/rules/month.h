// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The month: its starts of use, each judged by what was recorded before it, its anomalies, and how
// long the units were ready, in use, and on their way back to ready.
#pragma once

#include "rules/assess.h"
#include "rules/log.h"
#include "rules/timeline.h"

#include <array>
#include <optional>
#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace rules {

enum class StartClass { Compliant, CompliantLate, CompliantWaived, Emergency, Noncompliant };

[[nodiscard]] std::string_view name(StartClass startClass);  // "compliant_late"

struct StartException {
    std::size_t record = 0;  // index in the log
    StartClass startClass{};
    bool usedOnHold = false;
    bool unenrolled = false;        // the device was not enrolled then
    bool late = false;              // the start itself was entered too late
    Duration lateEntryAfter{};      // the time allowed, by the edition in force at the start
    std::vector<Finding> findings;  // those that made it so, sorted
};

struct MonthAnomaly {
    std::size_t record = 0;
    AnomalyCode code{};
};

struct Interval {
    double low = 0, high = 0;
};

// The Wilson score interval of `successes` of `trials` > 0, z = 1.959963984540054
// (E. B. Wilson, J Am Stat Assoc 1927;22:209-212), clamped to [0, 1].
[[nodiscard]] Interval wilson95(int successes, int trials);

struct MonthQuestion {
    std::chrono::year_month month{};
    std::optional<Instant> at;  // none: 1 ms after the latest `entered` known
    Instant knownAt = unlimited;
    const Zone* zone = nullptr;  // in which it is told; none: that of the last edition known
};

struct MonthAnswer {
    std::chrono::year_month month{};
    Instant from{}, to{};
    std::array<int, 5> starts{};  // by StartClass
    std::vector<StartException> exceptions;
    std::vector<MonthAnomaly> anomalies;
    std::vector<DeviceTime> devices;
    std::vector<GroupTime> groups;
    std::vector<Turnaround> turnarounds;
    State end;  // after the records before `to`

    [[nodiscard]] int allStarts() const;
    [[nodiscard]] int compliantStarts() const;
};

// An error if no edition is known.
[[nodiscard]] tl::expected<MonthAnswer, LogFault> month(const Log& log,
                                                        const MonthQuestion& question);

}  // namespace rules
