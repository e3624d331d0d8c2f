// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Calendar days: reading, writing, and adding months. Knows no time zone.
#include "logbook/day.h"

#include "logbook/digits.h"

#include <fmt/format.h>

namespace logbook {

std::optional<Day> parseDay(std::string_view text) {
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') {
        return std::nullopt;
    }
    FiguresAt figures(text);
    const int year = figures.four(0);
    const auto month = static_cast<unsigned>(figures.two(5));
    const auto day = static_cast<unsigned>(figures.two(8));
    if (!figures.areAll() || year < 1900) {
        return std::nullopt;
    }
    const std::chrono::year_month_day date{std::chrono::year(year), std::chrono::month(month),
                                           std::chrono::day(day)};
    if (!date.ok()) {
        return std::nullopt;
    }
    return Day(date);
}

std::string toText(Day day) {
    const std::chrono::year_month_day date(day);
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

Day plus(Day day, CalendarInterval interval) {
    const std::chrono::year_month_day date(day);
    const auto month = date.year() / date.month() + std::chrono::months(interval.months);
    const auto last = month / std::chrono::last;
    return date.day() > last.day() ? Day(last) : Day(month / date.day());
}

}  // namespace logbook
