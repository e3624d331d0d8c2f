// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A time as a person gives it: in UTC, or by the clock on the wall of the department.
#pragma once

#include "logbook/day.h"
#include "logbook/instant.h"
#include "rules/zone.h"
#include "station/problem.h"
#include "station/surroundings.h"

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

namespace station {

// A time of day by the local clock. Where the clock shows it twice, `which` tells which of the two,
// and so does the zone; both must be so.
struct WallTime {
    std::optional<logbook::Day> day;  // none: today, or the last time it was
    logbook::Duration timeOfDay{};
    std::optional<int> which{};         // 1, 2
    std::optional<std::string> zone{};  // its abbreviation then, "CST"
};

using GivenTime = std::variant<logbook::Instant, WallTime>;

// "2026-03-02T14:00:00Z", "14:20", "2026-03-02 14:20"; after a local one "first", "second" or the
// zone, as the reports write it too: "01:30 (second, CST)". The two words are also taken in the
// language given. Nothing for any other text.
[[nodiscard]] std::optional<GivenTime> parseGivenTime(std::string_view text,
                                                      const words::Words& words);

enum class Tense {
    Past,  // what happened: without a day, the last time that the clock showed it
    Any,   // what is asked: without a day, today
};

// Problems: a time that the clock showed twice and it is not said which, or never, since it was put
// forward over it or that zone did not hold, or not for the second time.
[[nodiscard]] Result<logbook::Instant> instantAt(const words::Words& words,
                                                 const rules::Zone& zone, const WallTime& time,
                                                 logbook::Instant now, Tense tense);

// The zone of the edition in force now, read from the records of the department alone. A problem
// if there is none.
[[nodiscard]] Result<std::shared_ptr<const rules::Zone>> zoneInForce(
    const Surroundings& surroundings, const LogbookFile& file);

}  // namespace station
