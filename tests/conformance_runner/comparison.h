// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whether an answer is the one expected: what is expected must be there and the same, further
// fields do not matter, except among the checks of a device and the groups of a month.
#pragma once

#include "conformance_runner/case_file.h"
#include "conformance_runner/program.h"

#include <string>
#include <vector>

namespace conformance {

using Differences = std::vector<std::string>;

// Fields of objects that are expected must be there, lists have the same length and order, instants
// compare as instants, numbers to 1e-6 of their size. `path` begins each line.
[[nodiscard]] Differences differences(const std::string& path, const Value& expected,
                                      const Value& found);

// How much of a month is compared: with Starts only its starts, compliance, interval, exceptions
// and anomalies, and the rest as far as the answer has it.
enum class MonthScope { Whole, Starts };

struct Judgement {
    Differences differences;
    bool partly = false;  // a month whose answer has not all that is expected of it
};

[[nodiscard]] Judgement judge(const Question& question, const Outcome& outcome, MonthScope scope);

}  // namespace conformance
