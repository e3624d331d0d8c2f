// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The clock against the last entry and against the time since start-up; see clock_doubt.h.
#include "station/clock_doubt.h"

#include "words/times.h"

#include <algorithm>
#include <charconv>
#include <utility>

namespace station {

namespace {

using logbook::Instant;

constexpr const char* startSetting = "clock.start";
constexpr const char* zeroSetting = "clock.zero_ms";
constexpr const char* aheadSetting = "clock.ahead_seq";
constexpr const char* reachedSetting = "clock.reached_ms";
constexpr std::int64_t secondMs = 1000;

using Settings = std::map<std::string, std::string>;

std::optional<std::int64_t> numberIn(const Settings& settings, const char* name) {
    const auto found = settings.find(name);
    if (found == settings.end()) {
        return std::nullopt;
    }
    std::int64_t number = 0;
    const auto& text = found->second;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), number);
    return read.ec == std::errc() ? std::optional(number) : std::nullopt;
}

Result<void> keep(const Surroundings& surroundings, store::Logbook& logbook,
                  const Settings& settings) {
    const store::Writing writing{surroundings.login, surroundings.clock.now()};
    for (const auto& [name, value] : settings) {
        if (const auto kept = logbook.setSetting(name, value, writing); !kept) {
            return tl::unexpected(problemOf(surroundings.words, kept.error()));
        }
    }
    return {};
}

// What the clock said when the computer started, as far as it has not been set since.
std::optional<Instant> zeroOf(const Clock& clock) {
    const auto since = clock.sinceStart();
    return since ? std::optional(clock.now() - since->span) : std::nullopt;
}

// As noted with the last entry after the same start.
std::optional<Instant> notedZero(const Clock& clock, const Settings& settings) {
    const auto since = clock.sinceStart();
    const auto start = settings.find(startSetting);
    const auto zero = numberIn(settings, zeroSetting);
    if (!since || !zero || start == settings.end() || start->second != since->start) {
        return std::nullopt;
    }
    return Instant{*zero};
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
    return keep(surroundings, logbook,
                {{startSetting, surroundings.clock.sinceStart()->start},
                 {zeroSetting, std::to_string(zero->ms)}});
}

Result<void> noteClockAhead(const Surroundings& surroundings, store::Logbook& logbook,
                            const WholeLog& log, std::int64_t seq) {
    return keep(surroundings, logbook,
                {{aheadSetting, std::to_string(seq)},
                 {reachedSetting, std::to_string(log.reached.ms)}});
}

Instant reachedBy(const WholeLog& log, const Settings& settings) {
    Instant reached{numberIn(settings, reachedSetting).value_or(0)};
    const auto ahead = numberIn(settings, aheadSetting).value_or(0);
    for (std::size_t index = 0; log.ownStation && index < log.log.records().size(); ++index) {
        const auto& record = log.log.records()[index];
        if (record.name.station == *log.ownStation && record.confirmed &&
            record.name.seq > ahead && log.log.struckBy(index) == nullptr) {
            reached = std::max(reached, record.entered);
        }
    }
    return reached;
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
