// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Points in time, exact durations and calendar intervals, with the one text form each has in
// records and rulebooks. Knows no clock and no time zone.
#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace logbook {

// An exact span of time in milliseconds; a day is 24 h.
struct Duration {
    std::int64_t ms = 0;
    auto operator<=>(const Duration&) const = default;
};

// A point in time: milliseconds since 1970-01-01T00:00:00Z, without leap seconds.
struct Instant {
    std::int64_t ms = 0;
    auto operator<=>(const Instant&) const = default;
};

constexpr Instant operator+(Instant instant, Duration duration) {
    return {instant.ms + duration.ms};
}
constexpr Instant operator-(Instant instant, Duration duration) {
    return {instant.ms - duration.ms};
}
constexpr Duration operator-(Instant later, Instant earlier) {
    return {later.ms - earlier.ms};
}

// A whole number of calendar months ("P12M"; "P1Y" is 12), not negative.
struct CalendarInterval {
    int months = 0;
    auto operator<=>(const CalendarInterval&) const = default;
};

// RFC 3339 in UTC, "2026-03-02T14:00:00Z" or with exactly three decimals; capital T and Z, years
// 1900 to 9999, no leap second. Nothing for any other text.
[[nodiscard]] std::optional<Instant> parseInstant(std::string_view text);

// The shortest form that parseInstant reads: milliseconds only if they are not zero.
[[nodiscard]] std::string toText(Instant instant);

// ISO 8601 "PnW" or "PnDTnHnMnS" with whole numbers, not negative, at most 1000 years; at least
// one figure, and one after a T. Nothing for any other text, months and years among them.
[[nodiscard]] std::optional<Duration> parseDuration(std::string_view text);

// "PnM" or "PnY", at most 1000 years.
[[nodiscard]] std::optional<CalendarInterval> parseCalendarInterval(std::string_view text);

}  // namespace logbook
