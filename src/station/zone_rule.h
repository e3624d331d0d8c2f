// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which names are those of zones, and how a zone goes on after the transitions that the zone
// database lists one by one: the rule in the last line of its file (RFC 8536 section 3.3, a POSIX
// TZ string). Pure; knows no file.
#pragma once

#include "rules/zone.h"

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace station {

// A day of each year, and the local time on it at which the clocks change.
struct ZoneChange {
    int month = 1, week = 1, weekday = 0;  // week 5: the last; weekday 0: Sunday
    logbook::Duration time{2LL * 3'600'000};
};

struct ZoneRule {
    rules::ZoneTransition standard;  // `from` means nothing here
    rules::ZoneTransition summer;
    ZoneChange begin, end;           // of summer time
};

// "CST6CDT,M3.2.0,M11.1.0". Nothing for a zone without summer time and for other forms of days.
[[nodiscard]] std::optional<ZoneRule> parseZoneRule(std::string_view text);

// Whether a zone of the tz database may have that name. Not what stands for the zone to which one
// computer is set, its tables with leap seconds or copies of all tables, or "no zone is set": by
// those the same log would be judged otherwise from one computer to the next.
[[nodiscard]] bool mayNameZone(std::string_view name);

// The transitions of these years, sorted.
[[nodiscard]] std::vector<rules::ZoneTransition> transitionsOf(const ZoneRule& rule, int firstYear,
                                                               int lastYear);

}  // namespace station
