// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Times, spans and numbers as people read them: local time of the department, 24 hours, seen from
// the instant asked about. Knows no clock.
#pragma once

#include "rules/zone.h"
#include "words/words.h"

#include <string>
#include <vector>

namespace words {

class Times {
public:
    // Both must outlive this.
    Times(const Words& words, const rules::Zone& zone, logbook::Instant asked)
        : m_words(words), m_zone(zone), m_asked(asked) {}

    [[nodiscard]] logbook::Instant asked() const { return m_asked; }

    // "02:10"; in a night in which it comes twice "01:30 (first, CDT)".
    [[nodiscard]] std::string clock(logbook::Instant instant) const;
    // "02:10" on the local day asked about, "14 Nov 03:40" on another, "14 Nov 2025 03:40" of
    // another year; as it stands inside a sentence.
    [[nodiscard]] std::string time(logbook::Instant instant) const;
    // The same as it stands by itself in a table, the day first.
    [[nodiscard]] std::string inTable(logbook::Instant instant) const;
    // The same after a verb: "at 02:10", "on 14 Nov at 03:40".
    [[nodiscard]] std::string when(logbook::Instant instant) const;
    // The day always with it, as columns of times need: "14 Nov 02:10".
    [[nodiscard]] std::string dated(logbook::Instant instant) const;
    // The same as time, but "18:05 yesterday".
    [[nodiscard]] std::string lately(logbook::Instant instant) const;
    // "14 Nov 2026 03:40 CST (UTC-06:00, 2026-11-14T09:40:00Z)".
    [[nodiscard]] std::string full(logbook::Instant instant) const;
    // "14 Nov 2026".
    [[nodiscard]] std::string dayWithYear(logbook::Day day) const;
    // "Nov 2026".
    [[nodiscard]] std::string month(std::chrono::year_month month) const;
    // "31 Oct", with the year if it is another.
    [[nodiscard]] std::string day(logbook::Day day) const;
    [[nodiscard]] std::string dayOf(logbook::Instant instant) const;

private:
    const Words& m_words;
    const rules::Zone& m_zone;
    logbook::Instant m_asked;
};

// The first whole minute that is not before it: what is promised, or may not be done earlier, is
// told by it. What ends, or must be done earlier, is told by the minute in which it is.
[[nodiscard]] logbook::Instant wholeMinute(logbook::Instant instant);

// "45 s", "12 min", "3 h 20 min", from 48 h "9 days" or "2 days 5 h"; what is smaller is cut off.
[[nodiscard]] std::string duration(const Words& words, logbook::Duration span);

// The time still to wait: the same, but what would be cut off counts as whole.
[[nodiscard]] std::string wait(const Words& words, logbook::Duration span);

// Spans of one table are told alike, to the minute: "3 d 04 h 05 min" if one of them takes a day.
enum class SpanUnit { Minutes, Hours, Days };

[[nodiscard]] SpanUnit unitFor(const std::vector<logbook::Duration>& spans);

// Rounded to the minute; "none" if it is nothing, "under 1 min" if it rounds to that.
[[nodiscard]] std::string span(const Words& words, logbook::Duration span, SpanUnit unit);

// At most six figures, "62.5"; never an exponent below a million. With the decimal mark of the
// language.
[[nodiscard]] std::string number(const Words& words, double value);

// All twelve figures, for two values that would read alike otherwise.
[[nodiscard]] std::string exactNumber(const Words& words, double value);

// "180 mL/min", "62 %"; a bare number for the units "1" and "fraction".
[[nodiscard]] std::string quantity(const Words& words, double value, std::string_view unit);

// `part` of `all` as "99.9 %": one decimal, and 100 % or 0 % only if that is exact.
// Precondition: 0 <= part <= all, all > 0.
[[nodiscard]] std::string percent(const Words& words, double part, double all);

}  // namespace words
