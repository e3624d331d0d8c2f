// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The clock against the last entry and against the time since start-up; see clock_doubt.h.
#include "station/clock_doubt.h"

#include "words/times.h"

#include <charconv>
#include <map>
#include <utility>

namespace station {

namespace {

using logbook::Instant;

constexpr const char* startSetting = "clock.start";
constexpr const char* zeroSetting = "clock.zero_ms";
constexpr std::int64_t secondMs = 1000;

// What the clock said when the computer started, as far as it has not been set since.
std::optional<Instant> zeroOf(const Clock& clock) {
    const auto since = clock.sinceStart();
    return since ? std::optional(clock.now() - since->span) : std::nullopt;
}

// As noted with the last entry after the same start.
std::optional<Instant> notedZero(const Clock& clock,
                                 const std::map<std::string, std::string>& settings) {
    const auto since = clock.sinceStart();
    const auto start = settings.find(startSetting);
    const auto zero = settings.find(zeroSetting);
    if (!since || start == settings.end() || zero == settings.end() ||
        start->second != since->start) {
        return std::nullopt;
    }
    Instant noted{};
    const auto& text = zero->second;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), noted.ms);
    return read.ec == std::errc() ? std::optional(noted) : std::nullopt;
}

}  // namespace

Result<std::optional<ClockDoubt>> doubtClock(const Surroundings& surroundings,
                                             const store::Logbook& logbook, const WholeLog& log) {
    const auto now = surroundings.clock.now();
    const auto head = log.ownStation ? log.heads.find(*log.ownStation) : log.heads.end();
    if (head != log.heads.end() && now < head->second.entered) {
        return ClockDoubt{ClockDoubt::Code::SetBack, now, head->second.entered};
    }
    const auto settings = logbook.settings();
    if (!settings) {
        return tl::unexpected(problemOf(surroundings.words, settings.error()));
    }
    const auto zero = zeroOf(surroundings.clock);
    const auto noted = notedZero(surroundings.clock, *settings);
    if (zero && noted && *zero - *noted > clockLeap) {
        return ClockDoubt{ClockDoubt::Code::SetAhead, now, now - (*zero - *noted)};
    }
    return std::nullopt;
}

Result<void> noteClock(const Surroundings& surroundings, store::Logbook& logbook) {
    const auto settings = logbook.settings();
    if (!settings) {
        return tl::unexpected(problemOf(surroundings.words, settings.error()));
    }
    const auto zero = zeroOf(surroundings.clock);
    const auto noted = notedZero(surroundings.clock, *settings);
    if (!zero || (noted && (*zero - *noted).ms <= secondMs && (*noted - *zero).ms <= secondMs)) {
        return {};
    }
    const store::Writing writing{surroundings.login, surroundings.clock.now()};
    const auto start = surroundings.clock.sinceStart()->start;
    for (const auto& [name, value] : {std::pair<const char*, std::string>{startSetting, start},
                                      {zeroSetting, std::to_string(zero->ms)}}) {
        if (const auto kept = logbook.setSetting(name, value, writing); !kept) {
            return tl::unexpected(problemOf(surroundings.words, kept.error()));
        }
    }
    return {};
}

std::string doubtSentence(const words::Words& words, const ClockDoubt& doubt,
                          const rules::Zone* zone) {
    const bool back = doubt.code == ClockDoubt::Code::SetBack;
    const auto shown = [&](Instant instant) {
        return zone != nullptr ? words::Times(words, *zone, doubt.now).full(instant)
                               : toText(instant);
    };
    return words.say(back ? "entry.clock_back" : "entry.clock_ahead",
                     {{"time", shown(doubt.now)}, {"last", shown(doubt.expected)}});
}

}  // namespace station
