// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reasons why an attempt at a check does not count that others than the judging have to tell apart:
// those that whoever carries the check out may still supply.
#pragma once

#include <string>
#include <string_view>

namespace rules {

inline constexpr std::string_view measureMissing = "measure_missing";
inline constexpr std::string_view unverified = "unverified";

// "measure_missing leak"
[[nodiscard]] inline std::string measureMissingReason(std::string_view measure) {
    return std::string(measureMissing) + " " + std::string(measure);
}

// A required value was not stated.
[[nodiscard]] inline bool lacksMeasure(std::string_view reason) {
    return reason.starts_with(measureMissing) && reason.substr(measureMissing.size(), 1) == " ";
}

// No second person has verified it.
[[nodiscard]] inline bool lacksSecond(std::string_view reason) {
    return reason == unverified;
}

}  // namespace rules
