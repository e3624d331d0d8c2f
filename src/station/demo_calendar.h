// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The demo's days, counted back from its end, its shifts and office hours, by the hospital's own
// clock.
#pragma once

#include "rules/zone.h"

#include <string_view>

namespace station::demo {

using logbook::Duration;
using logbook::Instant;

constexpr Duration minutes(std::int64_t count) { return {count * 60'000}; }
constexpr Duration hours(std::int64_t count) { return {count * 3'600'000}; }
constexpr Duration days(std::int64_t count) { return {count * 86'400'000}; }

class Calendar {
public:
    Calendar(const rules::Zone& zone, Instant end) : m_zone(zone), m_end(end) {}

    [[nodiscard]] Instant end() const { return m_end; }

    // `time` by the local clock, on the local day that many before the last one. A time that the
    // clock skips that day is taken as so long after the day began.
    [[nodiscard]] Instant daysBack(int count, Duration time) const;

    // Whole local days before the last one.
    [[nodiscard]] int dayBackOf(Instant instant) const;

    [[nodiscard]] logbook::Day dayOf(Instant instant) const { return m_zone.dayOf(instant); }

    // Whether someone of that shift ("day", "night", "office"; no other) is at work.
    [[nodiscard]] bool atWork(std::string_view shift, Instant instant) const;

    // `instant`, or the next weekday at `time` where that is later or `instant` is out of hours.
    [[nodiscard]] Instant nextOffice(Instant instant, Duration time) const;

private:
    [[nodiscard]] Instant at(logbook::Day day, Duration time) const;
    [[nodiscard]] Duration timeOfDay(Instant instant) const;
    [[nodiscard]] bool isWeekday(Instant instant) const;

    const rules::Zone& m_zone;
    Instant m_end;
};

}  // namespace station::demo
