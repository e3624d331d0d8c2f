// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Local days and shifts of the demo.
#include "station/demo_calendar.h"

#include <chrono>

namespace station::demo {

Instant Calendar::at(logbook::Day day, Duration time) const {
    const auto instants = m_zone.instantsOf(day, time);
    return instants.empty() ? m_zone.startOf(day) + time : instants.front();
}

Duration Calendar::timeOfDay(Instant instant) const {
    const std::int64_t local = (instant + m_zone.at(instant).offset).ms;
    return {local % days(1).ms};
}

bool Calendar::isWeekday(Instant instant) const {
    const std::chrono::weekday weekday(m_zone.dayOf(instant));
    return weekday != std::chrono::Saturday && weekday != std::chrono::Sunday;
}

Instant Calendar::daysBack(int count, Duration time) const {
    return at(m_zone.dayOf(m_end) - std::chrono::days(count), time);
}

int Calendar::dayBackOf(Instant instant) const {
    return static_cast<int>((m_zone.dayOf(m_end) - m_zone.dayOf(instant)).count());
}

bool Calendar::atWork(std::string_view shift, Instant instant) const {
    const Duration time = timeOfDay(instant);
    const bool day = hours(7) <= time && time < hours(19);
    if (shift == "office") {
        return isWeekday(instant) && hours(8) <= time && time < hours(16);
    }
    return (shift == "day" && day) || (shift == "night" && !day);
}

Instant Calendar::nextOffice(Instant instant, Duration time) const {
    if (atWork("office", instant) && timeOfDay(instant) >= time) {
        return instant;
    }
    logbook::Day day = m_zone.dayOf(instant);
    while (at(day, time) < instant || !isWeekday(at(day, time))) {
        day += std::chrono::days(1);
    }
    return at(day, time);
}

}  // namespace station::demo
