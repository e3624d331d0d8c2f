// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The clock against the last entry and against the time since start-up; see clock_doubt.h.
#include "station/clock_doubt.h"

#include "logbook/record_reader.h"
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

// The entries of this station that tell the time for certain.
class CertainEntries {
public:
    CertainEntries(const store::Logbook& logbook, const WholeLog& log, std::int64_t ahead)
        : m_logbook(logbook), m_log(log), m_ahead(ahead),
          m_head(log.ownStation ? log.heads.find(*log.ownStation) : log.heads.end()) {}

    // The latest `entered` among them. As a rule the last of them tells it: where that is not the
    // latest of all the station's entries, the clock may have been set back since.
    [[nodiscard]] tl::expected<std::optional<Instant>, store::Trouble> latest() {
        if (m_head == m_log.heads.end()) {
            return std::nullopt;
        }
        auto last = lastInOrder();
        if (!last || !*last || **last == m_head->second.entered) {
            return last;
        }
        return latestAfter(**last);
    }

    // False: one cannot be read, or is gone.
    [[nodiscard]] bool hasReadAll() const { return m_hasReadAll && !m_logbook.metDamage(); }

private:
    [[nodiscard]] bool isCertain(const logbook::Record& record) const {
        return record.name.station == m_head->first && record.confirmed &&
               record.name.seq > m_ahead && !m_log.log.groundwork().struckBy(record);
    }

    [[nodiscard]] tl::expected<std::optional<Instant>, store::Trouble> lastInOrder() {
        logbook::RecordName name{m_head->first, m_head->second.head.seq};
        for (; name.seq > m_ahead && name.seq > 0; --name.seq) {
            const auto row = m_logbook.findRecord(name);
            if (!row && row.error().code == store::Trouble::Code::NoRecord) {
                m_hasReadAll = false;
                return std::nullopt;
            }
            if (!row) {
                return tl::unexpected<store::Trouble>(row.error());
            }
            const auto record = logbook::readRecord(std::string_view(row->content));
            m_hasReadAll = m_hasReadAll && record;
            if (record && isCertain(*record)) {
                return record->entered;
            }
        }
        return std::nullopt;
    }

    // That, or a later one.
    [[nodiscard]] tl::expected<std::optional<Instant>, store::Trouble> latestAfter(
        Instant known) {
        std::vector<std::string> kinds;
        for (int kind = 0; kind < logbook::kindCount; ++kind) {
            kinds.emplace_back(kindName(static_cast<logbook::Kind>(kind)));
        }
        auto latest = known;
        const auto read = m_logbook.forEachContent(
            kinds, [&](std::string_view, std::string_view content) {
                if (!mayBeEnteredAfter(content, latest)) {
                    return;
                }
                const auto record = logbook::readRecord(content);
                m_hasReadAll = m_hasReadAll && record;
                if (record && isCertain(*record)) {
                    latest = std::max(latest, record->entered);
                }
            });
        if (!read) {
            return tl::unexpected<store::Trouble>(read.error());
        }
        return latest;
    }

    // By its text; to look at a record too many does no harm.
    [[nodiscard]] static bool mayBeEnteredAfter(std::string_view content, Instant known) {
        constexpr std::string_view before = R"("entered":")";
        for (auto place = content.find(before); place != std::string_view::npos;
             place = content.find(before, place)) {
            place += before.size();
            const auto end = content.find('"', place);
            const auto entered = logbook::parseInstant(content.substr(place, end - place));
            if (entered && *entered > known) {
                return true;
            }
        }
        return false;
    }

    const store::Logbook& m_logbook;
    const WholeLog& m_log;
    std::int64_t m_ahead;
    store::StationHeads::const_iterator m_head;
    bool m_hasReadAll = true;
};

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

Result<std::optional<Instant>> reachedIn(const Surroundings& surroundings,
                                         const store::Logbook& logbook, const WholeLog& log) {
    const auto settings = logbook.settings();
    if (!settings) {
        return tl::unexpected(problemOf(surroundings.words, settings.error()));
    }
    const Instant noted{numberIn(*settings, reachedSetting).value_or(0)};
    const auto ahead = numberIn(*settings, aheadSetting).value_or(0);
    CertainEntries entries(logbook, log, ahead);
    const auto latest = entries.latest();
    if (!latest) {
        return tl::unexpected(problemOf(surroundings.words, latest.error()));
    }
    return entries.hasReadAll() ? std::optional(std::max(noted, latest->value_or(noted)))
                                : std::nullopt;
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
