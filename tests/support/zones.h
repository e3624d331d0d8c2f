// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Time zones for tests, 2025 to 2028, built by hand so that no test depends on the zone database of
// the computer it runs on. Source of the transitions: tz database 2025b (region files northamerica
// and europe): Canada and the US second Sunday in March and first in November, 2:00 local; the EU
// last Sunday in March and October, 01:00 UTC.
#pragma once

#include "rules/zone.h"

#include <chrono>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace support {

// Midnight UTC of that day, and so many hours and minutes later.
inline logbook::Instant utc(int year, unsigned month, unsigned day, int hour = 0, int minute = 0) {
    const std::chrono::sys_days date{std::chrono::year{year} / std::chrono::month{month} /
                                     std::chrono::day{day}};
    const long long days = date.time_since_epoch().count();
    return {days * 86'400'000LL + hour * 3'600'000LL + minute * 60'000LL};
}

constexpr logbook::Duration hours(double count) {
    return {static_cast<std::int64_t>(count * 3'600'000)};
}

// Standard time and summer time of a zone, and the UTC hours at which they begin.
struct SummerTime {
    double standardHours;
    double summerHours;
    std::string standardName;
    std::string summerName;
    int summerBeginsUtc;
    int summerEndsUtc;
};

struct SummerDays {
    int year;
    unsigned beginMonth, beginDay, endMonth, endDay;
};

inline std::shared_ptr<const rules::Zone> zoneWithSummerTime(const std::string& name,
                                                             const SummerTime& time,
                                                             const std::vector<SummerDays>& days) {
    const auto standard = [&](logbook::Instant from) {
        return rules::ZoneTransition{from, hours(time.standardHours), time.standardName};
    };
    std::vector<rules::ZoneTransition> transitions{standard(utc(2000, 1, 1))};
    for (const auto& each : days) {
        const auto begin = utc(each.year, each.beginMonth, each.beginDay, time.summerBeginsUtc);
        transitions.push_back({begin, hours(time.summerHours), time.summerName});
        transitions.push_back(
            standard(utc(each.year, each.endMonth, each.endDay, time.summerEndsUtc)));
    }
    return std::make_shared<const rules::Zone>(name, std::move(transitions));
}

inline std::map<std::string, std::shared_ptr<const rules::Zone>, std::less<>> makeZones() {
    const std::vector<SummerDays> america{
        {2025, 3, 9, 11, 2}, {2026, 3, 8, 11, 1}, {2027, 3, 14, 11, 7}, {2028, 3, 12, 11, 5}};
    const std::vector<SummerDays> europe{
        {2025, 3, 30, 10, 26}, {2026, 3, 29, 10, 25}, {2027, 3, 28, 10, 31}, {2028, 3, 26, 10, 29}};
    std::map<std::string, std::shared_ptr<const rules::Zone>, std::less<>> zones;
    const auto add = [&](const std::string& name, const SummerTime& time,
                         const std::vector<SummerDays>& days) {
        zones.emplace(name, zoneWithSummerTime(name, time, days));
    };
    add("America/Chicago", {-6, -5, "CST", "CDT", 8, 7}, america);
    add("America/New_York", {-5, -4, "EST", "EDT", 7, 6}, america);
    add("America/Halifax", {-4, -3, "AST", "ADT", 6, 5}, america);
    add("Europe/Berlin", {1, 2, "CET", "CEST", 1, 1}, europe);
    add("Europe/London", {0, 1, "GMT", "BST", 1, 1}, europe);
    add("UTC", {0, 0, "UTC", "UTC", 0, 0}, {});
    return zones;
}

// Null if there is none of that name.
inline std::shared_ptr<const rules::Zone> zone(std::string_view name) {
    static const auto zones = makeZones();
    const auto found = zones.find(name);
    return found == zones.end() ? nullptr : found->second;
}

inline rules::ZoneSource zones() {
    return [](std::string_view name) { return zone(name); };
}

}  // namespace support
