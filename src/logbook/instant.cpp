// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Instants and durations: reading and writing their one text form. Knows no clock and no zone.
#include "logbook/instant.h"

#include "logbook/day.h"
#include "logbook/digits.h"

#include <fmt/format.h>

#include <array>

namespace logbook {

namespace {

constexpr std::int64_t secondMs = 1000;
constexpr std::int64_t minuteMs = 60 * secondMs;
constexpr std::int64_t hourMs = 60 * minuteMs;
constexpr std::int64_t dayMs = 24 * hourMs;
constexpr std::int64_t longestYears = 1000;
constexpr std::int64_t longestMs = longestYears * 36525 * dayMs / 100;

// "14:00:00" as milliseconds of the day.
std::optional<std::int64_t> parseTimeOfDay(std::string_view text) {
    if (text[2] != ':' || text[5] != ':') {
        return std::nullopt;
    }
    FiguresAt figures(text);
    const int hour = figures.two(0);
    const int minute = figures.two(3);
    const int second = figures.two(6);
    if (!figures.areAll() || hour > 23 || minute > 59 || second > 59) {
        return std::nullopt;
    }
    return hour * hourMs + minute * minuteMs + second * secondMs;
}

struct Count {
    std::int64_t number = 0;
    char unit = 0;
};

// Takes "15M" off the front; nothing if there is none, or the number is beyond any use.
std::optional<Count> takeCount(std::string_view& text) {
    std::size_t length = 0;
    Count count;
    for (; length < text.size() && isDigit(text[length]); ++length) {
        count.number = count.number * 10 + (text[length] - '0');
        if (count.number > longestMs) {
            return std::nullopt;
        }
    }
    if (length == 0 || length == text.size()) {
        return std::nullopt;
    }
    count.unit = text[length];
    text.remove_prefix(length + 1);
    return count;
}

struct DurationUnit {
    char letter;
    bool ofTime;  // stands after the T
    std::int64_t ms;
};
constexpr std::array<DurationUnit, 4> durationUnits{{
    {'D', false, dayMs}, {'H', true, hourMs}, {'M', true, minuteMs}, {'S', true, secondMs}}};

std::optional<Duration> withinLimit(std::int64_t number, std::int64_t unitMs) {
    if (number > longestMs / unitMs) {
        return std::nullopt;
    }
    return Duration{number * unitMs};
}

// Adds one count to `sum`. `next` is the first unit that may still come, as each comes once and
// in order.
bool addCount(const Count& count, bool ofTime, std::size_t& next, Duration& sum) {
    while (next < durationUnits.size() && (durationUnits[next].letter != count.unit ||
                                           durationUnits[next].ofTime != ofTime)) {
        ++next;
    }
    if (next == durationUnits.size()) {
        return false;
    }
    const auto part = withinLimit(count.number, durationUnits[next].ms);
    ++next;
    if (!part || sum.ms > longestMs - part->ms) {
        return false;
    }
    sum.ms += part->ms;
    return true;
}

std::optional<Duration> parseWeeks(std::string_view text) {
    const auto count = takeCount(text);
    if (!count || count->unit != 'W' || !text.empty()) {
        return std::nullopt;
    }
    return withinLimit(count->number, 7 * dayMs);
}

}  // namespace

std::optional<Instant> parseInstant(std::string_view text) {
    const bool withMs = text.size() == 24;
    if ((text.size() != 20 && !withMs) || text[10] != 'T' || text.back() != 'Z') {
        return std::nullopt;
    }
    const auto day = parseDay(text.substr(0, 10));
    const auto time = parseTimeOfDay(text.substr(11, 8));
    if (!day || !time) {
        return std::nullopt;
    }
    std::int64_t ms = 0;
    if (withMs) {
        FiguresAt figures(text);
        ms = figures.three(20);
        if (text[19] != '.' || !figures.areAll()) {
            return std::nullopt;
        }
    }
    return Instant{day->time_since_epoch().count() * dayMs + *time + ms};
}

std::string toText(Instant instant) {
    const auto point = std::chrono::sys_time<std::chrono::milliseconds>(
        std::chrono::milliseconds(instant.ms));
    const auto day = std::chrono::floor<std::chrono::days>(point);
    const std::int64_t time = (point - day).count();
    std::string text = fmt::format("{}T{:02}:{:02}:{:02}", toText(Day(day)), time / hourMs,
                                   time % hourMs / minuteMs, time % minuteMs / secondMs);
    if (time % secondMs != 0) {
        text += fmt::format(".{:03}", time % secondMs);
    }
    return text + 'Z';
}

std::optional<Duration> parseDuration(std::string_view text) {
    if (text.size() < 3 || text.front() != 'P') {
        return std::nullopt;
    }
    text.remove_prefix(1);
    if (text.back() == 'W') {
        return parseWeeks(text);
    }
    Duration sum;
    std::size_t next = 0;
    bool ofTime = false;
    while (!text.empty()) {
        if (text.front() == 'T' && !ofTime) {
            ofTime = true;
            text.remove_prefix(1);
        }
        const auto count = takeCount(text);
        if (!count || !addCount(*count, ofTime, next, sum)) {
            return std::nullopt;
        }
    }
    return sum;
}

std::optional<CalendarInterval> parseCalendarInterval(std::string_view text) {
    if (text.empty() || text.front() != 'P') {
        return std::nullopt;
    }
    text.remove_prefix(1);
    const auto count = takeCount(text);
    if (!count || !text.empty() || (count->unit != 'M' && count->unit != 'Y')) {
        return std::nullopt;
    }
    const std::int64_t monthsEach = count->unit == 'Y' ? 12 : 1;
    if (count->number > longestYears * 12 / monthsEach) {
        return std::nullopt;
    }
    return CalendarInterval{static_cast<int>(count->number * monthsEach)};
}

}  // namespace logbook
