// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Calendar days as days: what an expiry or a commissioning date is. A day has no time zone; which
// instants belong to it is asked of a rules::Zone.
#pragma once

#include "logbook/instant.h"

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace logbook {

using Day = std::chrono::sys_days;

// "YYYY-MM-DD", a day that exists, years 1900 to 9999.
[[nodiscard]] std::optional<Day> parseDay(std::string_view text);
[[nodiscard]] std::string toText(Day day);

// Keeps the day of the month, clamped to the last day of the month reached:
// 31 January and P1M give 28 or 29 February.
[[nodiscard]] Day plus(Day day, CalendarInterval interval);

}  // namespace logbook
