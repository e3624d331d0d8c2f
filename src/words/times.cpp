// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Local times, spans and numbers in words. Knows no clock.
#include "words/times.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>

namespace words {

namespace {

constexpr std::int64_t minuteMs = 60'000;
constexpr std::int64_t hourMs = 60 * minuteMs;

std::string twoFigures(std::int64_t value) {
    return (value < 10 ? "0" : "") + std::to_string(value);
}

// Hours and minutes of a count of milliseconds from some midnight.
std::string clockFace(std::int64_t ms) {
    const std::int64_t dayMs = 24 * hourMs;
    const std::int64_t ofDay = ((ms % dayMs) + dayMs) % dayMs;
    return twoFigures(ofDay / hourMs) + ":" + twoFigures(ofDay % hourMs / minuteMs);
}

std::int64_t wholeMinutes(logbook::Duration span) {
    return (span.ms + minuteMs / 2) / minuteMs;
}

logbook::Duration roundedUp(logbook::Duration span, std::int64_t unit) {
    return {(span.ms + unit - 1) / unit * unit};
}

std::chrono::year_month_day dateOf(logbook::Day day) {
    return std::chrono::year_month_day(day);
}

// As in RFC 3339.
constexpr std::chrono::year firstYear{0};
constexpr std::chrono::year lastYear{9999};

// Only a damaged file has another.
bool isOfCalendar(logbook::Day day) {
    return dateOf(day).year() >= firstYear && dateOf(day).year() <= lastYear;
}

std::string figures(const Words& words, const char* form, double value) {
    std::array<char, 64> buffer{};
    std::snprintf(buffer.data(), buffer.size(), form, value);
    std::string text(buffer.data());
    const auto point = text.find('.');
    return point == std::string::npos
               ? text
               : text.replace(point, 1, words.say("language.decimal_mark"));
}

}  // namespace

std::string Times::clock(logbook::Instant instant) const {
    const auto& transition = m_zone.at(instant);
    const std::string clock = clockFace(instant.ms + transition.offset.ms);
    const int occurrence = m_zone.occurrence(instant);
    if (occurrence == 0) return clock;
    return m_words.say(occurrence == 1 ? "time.first" : "time.second",
                       {{"clock", clock}, {"zone", transition.abbreviation}});
}

std::string Times::day(logbook::Day day) const {
    const auto date = dateOf(day);
    if (date.year() != dateOf(m_zone.dayOf(m_asked)).year()) return dayWithYear(day);
    const auto month = std::to_string(static_cast<unsigned>(date.month()));
    return m_words.say("time.day", {{"day", std::to_string(static_cast<unsigned>(date.day()))},
                                    {"month", m_words.say("month_name." + month)}});
}

std::string Times::dayWithYear(logbook::Day day) const {
    const auto date = dateOf(day);
    if (!isOfCalendar(day)) return m_words.say("plain.unknown");
    const auto month = std::to_string(static_cast<unsigned>(date.month()));
    return m_words.say("time.day_year", {{"day", std::to_string(static_cast<unsigned>(date.day()))},
                                         {"month", m_words.say("month_name." + month)},
                                         {"year", std::to_string(static_cast<int>(date.year()))}});
}

std::string Times::month(std::chrono::year_month month) const {
    const auto name = std::to_string(static_cast<unsigned>(month.month()));
    return m_words.say("time.month_year",
                       {{"month", m_words.say("month_name." + name)},
                        {"year", std::to_string(static_cast<int>(month.year()))}});
}

std::string Times::dayOf(logbook::Instant instant) const {
    return day(m_zone.dayOf(instant));
}

std::string Times::time(logbook::Instant instant) const {
    if (m_zone.dayOf(instant) == m_zone.dayOf(m_asked)) return clock(instant);
    return m_words.say("time.other_day", {{"day", dayOf(instant)}, {"clock", clock(instant)}});
}

std::string Times::inTable(logbook::Instant instant) const {
    if (m_zone.dayOf(instant) == m_zone.dayOf(m_asked)) return clock(instant);
    return dated(instant);
}

std::string Times::dated(logbook::Instant instant) const {
    return m_words.say("time.in_table", {{"day", dayOf(instant)}, {"clock", clock(instant)}});
}

std::string Times::when(logbook::Instant instant) const {
    if (m_zone.dayOf(instant) == m_zone.dayOf(m_asked))
        return m_words.say("time.at_clock", {{"clock", clock(instant)}});
    return m_words.say("time.on_day_at_clock",
                       {{"day", dayOf(instant)}, {"clock", clock(instant)}});
}

std::string Times::lately(logbook::Instant instant) const {
    if (m_zone.dayOf(instant) + std::chrono::days(1) == m_zone.dayOf(m_asked))
        return m_words.say("time.yesterday", {{"clock", clock(instant)}});
    return time(instant);
}

std::string Times::full(logbook::Instant instant) const {
    if (!isOfCalendar(m_zone.dayOf(instant))) return m_words.say("plain.unknown");
    const auto& transition = m_zone.at(instant);
    const std::int64_t offset =
        transition.offset.ms < 0 ? -transition.offset.ms : transition.offset.ms;
    const std::string sign = transition.offset.ms < 0 ? "-" : "+";
    return m_words.say("time.full", {{"day", dayWithYear(m_zone.dayOf(instant))},
                                     {"clock", clockFace(instant.ms + transition.offset.ms)},
                                     {"zone", transition.abbreviation},
                                     {"offset", sign + clockFace(offset)},
                                     {"utc", logbook::toText(instant)}});
}

logbook::Instant wholeMinute(logbook::Instant instant) {
    const std::int64_t past = ((instant.ms % minuteMs) + minuteMs) % minuteMs;
    return past == 0 ? instant : logbook::Instant{instant.ms - past + minuteMs};
}

std::string duration(const Words& words, logbook::Duration span) {
    const auto say = [&](std::string_view key, const Gaps& gaps) { return words.say(key, gaps); };
    const std::int64_t minutes = span.ms / minuteMs;
    const std::int64_t hours = span.ms / hourMs;
    if (minutes == 0 && span.ms >= 1000)
        return say("duration.seconds", {{"count", std::to_string(span.ms / 1000)}});
    if (hours == 0) return say("duration.minutes", {{"count", std::to_string(minutes)}});
    if (hours < 48 && minutes % 60 == 0)
        return say("duration.hours", {{"count", std::to_string(hours)}});
    if (hours < 48)
        return say("duration.hours_minutes",
                   {{"hours", std::to_string(hours)}, {"minutes", std::to_string(minutes % 60)}});
    if (hours % 24 == 0 || hours >= 7 * 24)
        return say("duration.days", {{"count", std::to_string(hours / 24)}});
    return say("duration.days_hours",
               {{"days", std::to_string(hours / 24)}, {"hours", std::to_string(hours % 24)}});
}

std::string wait(const Words& words, logbook::Duration span) {
    logbook::Duration whole = roundedUp(span, minuteMs);
    if (whole.ms >= 48 * hourMs) whole = roundedUp(span, hourMs);
    if (whole.ms >= 7 * 24 * hourMs) whole = roundedUp(span, 24 * hourMs);
    return duration(words, whole);
}

SpanUnit unitFor(const std::vector<logbook::Duration>& spans) {
    std::int64_t minutes = 0;
    for (const auto& each : spans) minutes = std::max(minutes, wholeMinutes(each));
    if (minutes >= 24 * 60) return SpanUnit::Days;
    return minutes >= 60 ? SpanUnit::Hours : SpanUnit::Minutes;
}

std::string span(const Words& words, logbook::Duration span, SpanUnit unit) {
    if (span.ms == 0) return words.say("plain.nothing");
    const std::int64_t minutes = wholeMinutes(span);
    if (minutes == 0) return words.say("duration.under_minute");
    if (unit == SpanUnit::Minutes)
        return words.say("duration.minutes", {{"count", std::to_string(minutes)}});
    const auto rest = twoFigures(minutes % 60);
    if (unit == SpanUnit::Hours)
        return words.say("duration.span_hours",
                         {{"hours", std::to_string(minutes / 60)}, {"minutes", rest}});
    return words.say("duration.span_days", {{"days", std::to_string(minutes / (24 * 60))},
                                            {"hours", twoFigures(minutes / 60 % 24)},
                                            {"minutes", rest}});
}

std::string number(const Words& words, double value) {
    const bool large = std::fabs(value) >= 1e6 && std::fabs(value) < 1e15;
    return figures(words, large ? "%.0f" : "%.6g", value);
}

std::string exactNumber(const Words& words, double value) {
    return figures(words, "%.12g", value);
}

std::string quantity(const Words& words, double value, std::string_view unit) {
    if (unit == "1" || unit == "fraction" || unit.empty()) return number(words, value);
    std::string shownUnit(unit);
    if (unit == "degC") shownUnit = "°C";
    if (unit == "degF") shownUnit = "°F";
    if (unit == "uA") shownUnit = "µA";
    if (unit == "mohm") shownUnit = "mΩ";
    if (unit == "ohm") shownUnit = "Ω";
    if (unit == "Mohm") shownUnit = "MΩ";
    return words.say("number.quantity", {{"value", number(words, value)}, {"unit", shownUnit}});
}

std::string percent(const Words& words, double part, double all) {
    const double tenths = part / all * 1000;
    double whole = std::round(tenths);
    if (part < all && whole >= 1000) whole = 999;
    if (part > 0 && whole < 1)
        return words.say("number.percent_under", {{"value", figures(words, "%.1f", 0.1)}});
    const bool exact = whole == 0 || whole == 1000;
    return words.say("number.percent",
                     {{"value", figures(words, exact ? "%.0f" : "%.1f", whole / 10)}});
}

}  // namespace words
