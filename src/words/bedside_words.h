// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Words of the Bedside desk that no report has: what a press asserts, limits, and a value outside
// them.
#pragma once

#include "logbook/unit.h"
#include "words/context.h"

#include <optional>
#include <string>
#include <vector>

namespace words {

// For a button: "Passed, on mains power and gas supply connected". Labels as they stand in a table.
[[nodiscard]] std::string passedAsserting(const Words& words,
                                          const std::vector<std::string>& conditions);

// "at most 200 mL/min", "22 % to 40 %"; "" without limits.
[[nodiscard]] std::string limitsText(const Words& words, const std::optional<double>& min,
                                     const std::optional<double>& max, const std::string& unit);

// All in the unit of the policy edition; told in the one in which it was typed.
struct ValueOutside {
    bool over = false;
    double value = 0;
    double limit = 0;
    std::string unit;
    rules::Breach breach = rules::Breach::Fail;
    std::string typedUnit;  // of the same dimension
};

// What is so and what follows: "210 mL/min is over the limit of 200. The check has failed."
[[nodiscard]] std::string outsideSentence(const Words& words, const ValueOutside& outside);

// A value in the unit that the bounds are in; told in the one in which it was typed.
struct MeasuredValue {
    std::string label;  // "Leak", as it stands in a table
    double value = 0;
    std::string unit;
    std::string typedUnit;  // of the same dimension
};

// "Leak cannot be -5 mL/min: it is never less than 0 mL/min."; "" where the value is possible.
[[nodiscard]] std::string impossibleSentence(const Words& words, const logbook::Bounds& bounds,
                                             const MeasuredValue& measured);

// "14:25, in 12 min", of an instant after the one that `times` is seen from; else "now".
[[nodiscard]] std::string startsAt(const Words& words, const Times& times,
                                   logbook::Instant instant);

}  // namespace words
