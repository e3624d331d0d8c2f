// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Times as people give them; see given_time.h.
#include "station/given_time.h"

#include "station/open.h"
#include "words/times.h"

#include <algorithm>
#include <sstream>
#include <utility>
#include <vector>

namespace station {

namespace {

using logbook::Day;
using logbook::Duration;
using logbook::Instant;

constexpr std::int64_t minuteMs = 60'000;
constexpr std::int64_t dayMs = 24 * 60 * minuteMs;

std::vector<std::string> wordsOf(std::string_view text) {
    std::string plain;
    for (const char letter : text) {
        plain += std::string_view("(),").find(letter) == std::string_view::npos ? letter : ' ';
    }
    std::istringstream stream(plain);
    std::vector<std::string> found;
    for (std::string word; stream >> word;) {
        found.push_back(word);
    }
    return found;
}

// "14:20" or "14:20:05", by the reader of instants.
std::optional<Duration> timeOfDayOf(std::string text) {
    if (text.size() == 5) {
        text += ":00";
    }
    const auto instant = text.size() == 8 ? logbook::parseInstant("1970-01-01T" + text + "Z")
                                          : std::nullopt;
    return instant ? std::optional(Duration{instant->ms}) : std::nullopt;
}

bool readWhich(const std::string& word, const words::Words& words, WallTime& time) {
    const bool first = word == "first" || word == words.say("time_given.first");
    if (!time.which &&
        (first || word == "second" || word == words.say("time_given.second"))) {
        time.which = first ? 1 : 2;
        return true;
    }
    const bool zone = !word.empty() && std::ranges::all_of(word, [](char letter) {
        return (letter >= 'A' && letter <= 'Z') || letter == '+' || letter == '-' ||
               (letter >= '0' && letter <= '9');
    });
    if (!zone || time.zone) {
        return false;
    }
    time.zone = word;
    return true;
}

std::vector<Instant> instantsOn(const rules::Zone& zone, Day day, const WallTime& time) {
    auto found = zone.instantsOf(day, time.timeOfDay);
    std::sort(found.begin(), found.end());
    return found;
}

// Of all at which the clock shows that time on one day, those that are meant.
std::vector<Instant> meant(const rules::Zone& zone, const std::vector<Instant>& all,
                           const WallTime& time) {
    auto found = all;
    if (time.which && all.size() == 2) {
        found = {all[static_cast<std::size_t>(*time.which - 1)]};
    } else if (time.which == 2) {
        found.clear();
    }
    if (time.zone) {
        std::erase_if(found,
                      [&](Instant each) { return zone.at(each).abbreviation != *time.zone; });
    }
    return found;
}

std::string shown(Duration timeOfDay) {
    return toText(Instant{timeOfDay.ms}).substr(11, timeOfDay.ms % minuteMs == 0 ? 5 : 8);
}

struct Resolution {
    const words::Words& words;
    const rules::Zone& zone;
    const WallTime& time;
    Instant now;

    [[nodiscard]] tl::unexpected<Problem> problem(std::string_view code, Day day,
                                                  const std::vector<Instant>& found) const {
        const words::Times times(words, zone, now);
        words::Gaps gaps{{"time", shown(time.timeOfDay)}, {"day", times.dayWithYear(day)}};
        if (found.size() == 2) {
            gaps["first"] = times.full(found[0]);
            gaps["second"] = times.full(found[1]);
        }
        return tl::unexpected(problemOf(words, code, gaps));
    }

    // A time that the clock never showed, whatever else was said of it: over what it was put
    // forward, and what it showed then where somebody's clock was not.
    [[nodiscard]] tl::unexpected<Problem> skipped(Day day) const {
        const auto isShown = [&](std::int64_t ms) {
            return !zone.instantsOf(day, Duration{ms}).empty();
        };
        auto from = time.timeOfDay.ms / minuteMs * minuteMs;
        auto to = from;
        while (from > 0 && !isShown(from - minuteMs)) {
            from -= minuteMs;
        }
        while (to < dayMs - minuteMs && !isShown(to)) {
            to += minuteMs;
        }
        const words::Times times(words, zone, now);
        const Duration later{time.timeOfDay.ms + to - from};
        return tl::unexpected(problemOf(words, "time_given.skipped",
                                        {{"time", shown(time.timeOfDay)},
                                         {"day", times.dayWithYear(day)},
                                         {"from", shown(Duration{from})},
                                         {"to", shown(Duration{to})},
                                         {"later", shown(later)}}));
    }

    [[nodiscard]] Result<Instant> one(Day day, const std::vector<Instant>& found) const {
        if (instantsOn(zone, day, time).empty()) {
            return skipped(day);
        }
        if (found.empty()) {
            const bool once = time.which == 2;
            return problem(once && !time.zone ? "time_given.no_second" : "time_given.never", day,
                           found);
        }
        if (found.size() > 1) {
            return problem("time_given.twice", day, found);
        }
        return found.front();
    }

    // The last time until now that the clock showed it, today or the day before. A time that today
    // does not have is not looked for yesterday: whoever gives it has a clock that was not put
    // forward. Nor is one that today has in another way, once the clock has shown it, or will show
    // it twice: whoever says which of two means today's.
    [[nodiscard]] Result<Instant> latest() const {
        const auto today = zone.dayOf(now);
        for (const Day day : {today, today - std::chrono::days(1)}) {
            const auto all = instantsOn(zone, day, time);
            auto found = meant(zone, all, time);
            std::erase_if(found, [this](Instant each) { return each > now; });
            const bool said = time.which && all.size() == 2;
            if (!found.empty() || all.empty() || all.front() <= now || said) {
                return one(day, found);
            }
        }
        return problem("time_given.never", today, {});
    }
};

}  // namespace

std::optional<GivenTime> parseGivenTime(std::string_view text, const words::Words& words) {
    if (const auto instant = logbook::parseInstant(text)) {
        return *instant;
    }
    auto found = wordsOf(text);
    if (!found.empty() && found.front().size() > 10 && found.front()[10] == 'T') {
        const auto both = found.front();
        found.front() = both.substr(0, 10);
        found.insert(found.begin() + 1, both.substr(11));
    }
    WallTime time;
    auto next = found.begin();
    if (next != found.end()) {
        time.day = logbook::parseDay(*next);
        next += time.day ? 1 : 0;
    }
    const auto timeOfDay = next == found.end() ? std::nullopt : timeOfDayOf(*next);
    if (!timeOfDay) {
        return std::nullopt;
    }
    time.timeOfDay = *timeOfDay;
    for (++next; next != found.end(); ++next) {
        if (!readWhich(*next, words, time)) {
            return std::nullopt;
        }
    }
    return time;
}

Result<Instant> instantAt(const words::Words& words, const rules::Zone& zone, const WallTime& time,
                          Instant now, Tense tense) {
    const Resolution resolution{words, zone, time, now};
    if (!time.day && tense == Tense::Past) {
        return resolution.latest();
    }
    const auto day = time.day.value_or(zone.dayOf(now));
    return resolution.one(day, meant(zone, instantsOn(zone, day, time), time));
}

Result<std::shared_ptr<const rules::Zone>> zoneInForce(const Surroundings& surroundings,
                                                       const LogbookFile& file) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    // Which edition is in force depends on editions and persons, which are all the department's.
    auto read = logbook->records({.device = std::string()});
    if (!read) {
        return tl::unexpected(problemOf(surroundings.words, read.error()));
    }
    const rules::Log log(std::move(read->records), surroundings.zones);
    if (!log.firstEdition()) {
        return tl::unexpected(problemOf(surroundings.words, "time_given.no_zone"));
    }
    return log.stateAt(surroundings.clock.now(), rules::unlimited).rulebook->zone;
}

}  // namespace station
