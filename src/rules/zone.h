// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A time zone as the engine needs it: its transitions, given from outside. Knows no clock and no
// zone database.
#pragma once

#include "logbook/day.h"
#include "logbook/instant.h"

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rules {

struct ZoneTransition {
    logbook::Instant from{};       // the offset holds from here to the next transition
    logbook::Duration offset{};    // local time less UTC
    std::string abbreviation;      // "CST"
};

class Zone {
public:
    // `transitions` are sorted and not empty; the first holds for all time before the second.
    Zone(std::string name, std::vector<ZoneTransition> transitions);

    [[nodiscard]] const std::string& name() const { return m_name; }
    [[nodiscard]] const ZoneTransition& at(logbook::Instant instant) const;
    [[nodiscard]] logbook::Day dayOf(logbook::Instant instant) const;

    // The first instant whose local date is that day or later.
    [[nodiscard]] logbook::Instant startOf(logbook::Day day) const;

    // 0 if the local time of day at `instant` comes once that day; else 1 or 2: which of the two.
    [[nodiscard]] int occurrence(logbook::Instant instant) const;

    // The instants at which the local clock shows `timeOfDay` on `day`: none, one or two.
    [[nodiscard]] std::vector<logbook::Instant> instantsOf(logbook::Day day,
                                                           logbook::Duration timeOfDay) const;

private:
    std::string m_name;
    std::vector<ZoneTransition> m_transitions;
};

// The zone of an IANA name; null if there is none. The same name gives the same object.
using ZoneSource = std::function<std::shared_ptr<const Zone>(std::string_view name)>;

}  // namespace rules
