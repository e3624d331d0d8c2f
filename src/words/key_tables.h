// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The keys of all sentences as tables: a line names what keys begin with, then how each goes on
// and, in brackets, its gaps: "finding.lapsed: says(check when duration) do(check)". For keys.cpp
// only.
#pragma once

#include <string_view>

namespace words {

[[nodiscard]] std::string_view toldKeys();
[[nodiscard]] std::string_view faultKeys();
[[nodiscard]] std::string_view reportKeys();
[[nodiscard]] std::string_view useKeys();
[[nodiscard]] std::string_view traceKeys();
[[nodiscard]] std::string_view peopleKeys();
[[nodiscard]] std::string_view bedsideKeys();
[[nodiscard]] std::string_view fleetKeys();
[[nodiscard]] std::string_view historyKeys();
[[nodiscard]] std::string_view paperKeys();
[[nodiscard]] std::string_view settingsKeys();
[[nodiscard]] std::string_view safeguardKeys();
[[nodiscard]] std::string_view listKeys();
[[nodiscard]] std::string_view snapshotKeys();
[[nodiscard]] std::string_view rescueKeys();

}  // namespace words
