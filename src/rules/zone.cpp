// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Local days and clock times from a list of transitions. Knows no zone by name.
#include "rules/zone.h"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <utility>

namespace rules {

namespace {

using logbook::Day;
using logbook::Duration;
using logbook::Instant;

constexpr std::int64_t dayMs = 86'400'000;

// No offset differs from UTC by more than this, so that a search may begin so much earlier.
constexpr Duration widestOffset{2 * dayMs};

Instant utcMidnight(Day day) {
    return Instant{day.time_since_epoch().count() * dayMs};
}

bool areSorted(const std::vector<ZoneTransition>& transitions) {
    const auto notLater = [](const ZoneTransition& a, const ZoneTransition& b) {
        return a.from >= b.from;
    };
    return std::ranges::adjacent_find(transitions, notLater) == transitions.end();
}

std::size_t indexAt(const std::vector<ZoneTransition>& transitions, Instant instant) {
    const auto after = std::ranges::upper_bound(transitions, instant, {}, &ZoneTransition::from);
    const auto begun = static_cast<std::size_t>(after - transitions.begin());
    return begun == 0 ? 0 : begun - 1;
}

// Whether `instant` lies in the stretch of time that transition `index` governs.
bool governs(const std::vector<ZoneTransition>& transitions, std::size_t index, Instant instant) {
    const bool begun = index == 0 || transitions[index].from <= instant;
    return begun && (index + 1 == transitions.size() || instant < transitions[index + 1].from);
}

}  // namespace

Zone::Zone(std::string name, std::vector<ZoneTransition> transitions)
    : m_name(std::move(name)), m_transitions(std::move(transitions)) {
    if (m_transitions.empty() || !areSorted(m_transitions)) {
        std::fprintf(stderr, "zone %s: transitions are missing or out of order\n", m_name.c_str());
        std::abort();
    }
}

const ZoneTransition& Zone::at(Instant instant) const {
    return m_transitions[indexAt(m_transitions, instant)];
}

Day Zone::dayOf(Instant instant) const {
    using Time = std::chrono::sys_time<std::chrono::milliseconds>;
    const std::chrono::milliseconds local{(instant + at(instant).offset).ms};
    return std::chrono::floor<std::chrono::days>(Time(local));
}

Instant Zone::startOf(Day day) const {
    const Instant midnight = utcMidnight(day);
    auto index = indexAt(m_transitions, midnight - widestOffset);
    for (;; ++index) {
        // Within one stretch the local clock runs evenly, so its first such instant is either the
        // local midnight or, if the clock was set past that, the beginning of the stretch.
        Instant first = midnight - m_transitions[index].offset;
        if (index > 0) {
            first = std::max(first, m_transitions[index].from);
        }
        if (governs(m_transitions, index, first)) {
            return first;
        }
    }
}

int Zone::occurrence(Instant instant) const {
    const Day day = dayOf(instant);
    const Duration timeOfDay = instant + at(instant).offset - utcMidnight(day);
    const auto instants = instantsOf(day, timeOfDay);
    if (instants.size() < 2) {
        return 0;
    }
    return instant == instants.front() ? 1 : 2;
}

std::vector<Instant> Zone::instantsOf(Day day, Duration timeOfDay) const {
    const Instant local = utcMidnight(day) + timeOfDay;
    const auto last = indexAt(m_transitions, local + widestOffset);
    std::vector<Instant> instants;
    for (auto index = indexAt(m_transitions, local - widestOffset); index <= last; ++index) {
        const Instant instant = local - m_transitions[index].offset;
        if (governs(m_transitions, index, instant)) {
            instants.push_back(instant);
        }
    }
    return instants;
}

}  // namespace rules
