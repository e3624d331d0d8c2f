// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The cold path; see state_reading.h.
#include "station/state_reading.h"

#include "logbook/record_reader.h"
#include "rules/running_state.h"
#include "station/grounding.h"
#include "station/read_ahead.h"
#include "station/records_seen.h"

#include <algorithm>
#include <map>
#include <mutex>
#include <span>
#include <utility>
#include <vector>

namespace station {

namespace {

using logbook::Instant;
using logbook::Record;
using Portion = std::vector<store::ReadRecord>;

constexpr std::size_t recordsAtOnce = 2000;

// Calls `take` with every row of the selection.
template <class Take>
Result<void> forEach(const Surroundings& surroundings, const store::Logbook& logbook,
                     store::Selection selection, Take take) {
    Portion portion(recordsAtOnce);
    for (;;) {
        const auto count = logbook.readRecords(selection, portion);
        if (!count) {
            return tl::unexpected(problemOf(surroundings.words, count.error()));
        }
        for (std::size_t index = 0; index < *count; ++index) {
            take(portion[index]);
        }
        if (*count < portion.size()) {
            return {};
        }
        selection.after = portion.back().place;
    }
}

struct ReadGroundwork {
    rules::Groundwork groundwork;
    Grounding records;  // from which it was made
};

// All that follows is of the log up to `last`: others may write between two portions, and of what
// they write together a part would be seen.
Result<ReadGroundwork> readGroundwork(const Surroundings& surroundings,
                                      const store::Logbook& logbook, std::int64_t last) {
    using Kinds = store::Selection::Kinds;
    Grounding records;
    std::vector<Record> founding;
    auto read = forEach(surroundings, logbook, {.arrivedUpTo = last, .kinds = Kinds::Founding},
                        [&](store::ReadRecord& each) {
                            if (!each.whole) return;
                            records.add(each.place.name);
                            founding.push_back(std::move(each.record));
                        });
    if (!read) {
        return tl::unexpected(std::move(read.error()));
    }
    rules::Groundwork groundwork(std::move(founding), surroundings.zones);
    read = forEach(surroundings, logbook, {.arrivedUpTo = last, .kinds = Kinds::Strikes},
                   [&](const store::ReadRecord& each) {
                       if (!each.whole) return;
                       records.add(each.place.name);
                       groundwork.addStrike(each.record);
                   });
    if (!read) {
        return tl::unexpected(std::move(read.error()));
    }
    return ReadGroundwork{std::move(groundwork), std::move(records)};
}

// Takes in each row of the log once, in the reading order.
class Reading {
public:
    Reading(Standing& standing, const ReadGroundwork& read, bool notesLater)
        : m_standing(standing), m_groundwork(read.groundwork), m_grounding(read.records),
          m_notesLater(notesLater), m_running(read.groundwork, standing.knownAt) {}

    // The next rows in the reading order.
    void take(std::span<const store::ReadRecord> rows) {
        m_records.clear();
        for (const auto& row : rows) {
            note(row);
        }
        m_running.add(m_records);
    }

    [[nodiscard]] const RecordsSeen& seen() const { return m_seen; }

    void finish() {
        for (const auto& [station, heard] : m_heard) {
            m_standing.heard.push_back({station, heard});
        }
        m_standing.folded = m_running.folded();
        m_standing.state = std::move(m_running).takeState();
    }

private:
    void note(const store::ReadRecord& read) {
        m_seen.see(read.place.name);
        if (!read.whole) {
            m_standing.facts.unread.push_back(read.place.name);
            return;
        }
        if (m_grounding.lacks(read.record)) {
            m_standing.facts.unread.push_back(read.place.name);
        }
        const auto& [at, entered, name] = read.place;
        if (entered <= m_standing.knownAt) {
            // By a clock that was ahead: it says nothing of when the station was heard.
            if (m_notesLater && entered > m_standing.at) {
                const bool isStruck = !m_groundwork.takesPart(read.record, m_standing.knownAt);
                m_standing.later.push_back({name, entered, isStruck});
            } else {
                hear(name.station, entered);
            }
        }
        if (at <= m_standing.at) {
            m_records.push_back(&read.record);
        }
    }

    void hear(const std::string& station, Instant entered) {
        auto& heard = m_heard.try_emplace(station, entered).first->second;
        heard = std::max(heard, entered);
    }

    Standing& m_standing;
    const rules::Groundwork& m_groundwork;
    const Grounding& m_grounding;
    bool m_notesLater;
    rules::RunningState m_running;
    std::vector<const Record*> m_records;  // to be folded next
    RecordsSeen m_seen;
    std::map<std::string, Instant, std::less<>> m_heard;
};

// Folds in this thread what another one reads.
std::optional<store::Trouble> readAll(Reading& reading, const store::Logbook& logbook,
                                      std::int64_t last) {
    ReadAhead ahead(logbook, {.arrivedUpTo = last, .withContent = logbook::WithContent::No});
    for (;;) {
        const auto portion = ahead.next();
        if (!portion) {
            return portion.error();
        }
        if (portion->empty()) {
            return std::nullopt;
        }
        reading.take(*portion);
    }
}

// The whole log is looked at, since one that cannot be read, or to which no index leads, may be an
// edition.
Problem noEdition(const Surroundings& surroundings, const store::Logbook& logbook,
                  const Grounding& grounding, std::int64_t last, LogbookFacts& facts,
                  Problem problem) {
    RecordsSeen seen;
    auto read = forEach(surroundings, logbook, {.arrivedUpTo = last},
                        [&](const store::ReadRecord& each) {
                            seen.see(each.place.name);
                            if (!each.whole || grounding.lacks(each.record)) {
                                facts.unread.push_back(each.place.name);
                            }
                        });
    if (read) {
        read = noteLacking(surroundings, logbook, seen, facts);
    }
    if (!read) {
        return std::move(read.error());
    }
    return lackOfEdition(surroundings, facts, std::move(problem));
}

struct StoredRecords {
    explicit StoredRecords(std::shared_ptr<LookedUpLog> in) : log(std::move(in)) {}

    std::shared_ptr<LookedUpLog> log;
    std::map<logbook::RecordName, std::optional<Record>> found{};
    std::mutex looking{};  // at what was found: nobody waits there for the file

    const Record* find(const logbook::RecordName& name) {
        {
            const std::lock_guard lock(looking);
            if (const auto place = found.find(name); place != found.end()) {
                return place->second ? &*place->second : nullptr;
            }
        }
        auto record = recordIn(name);
        if (!record) {
            return nullptr;
        }
        const std::lock_guard lock(looking);
        const auto& kept = found.try_emplace(name, *std::move(record)).first->second;
        return kept ? &*kept : nullptr;
    }

    // Nothing where the file did not say: it is asked again the next time.
    std::optional<std::optional<Record>> recordIn(const logbook::RecordName& name) {
        const std::lock_guard lock(log->asking);
        const auto row = log->logbook->findRecord(name);
        if (!row && row.error().code != store::Trouble::Code::NoRecord) {
            return std::nullopt;
        }
        auto record = row ? logbook::readRecord(row->content)
                          : tl::unexpected(logbook::RecordFaults{});
        return record ? std::optional<Record>(*std::move(record)) : std::optional<Record>();
    }
};

}  // namespace

Result<Instant> nowFor(const Surroundings& surroundings, const store::Logbook& logbook,
                       const LogbookFacts& facts, Instant knownAt) {
    const auto clock = surroundings.clock.now();
    if (clock.ms % 1000 != 0 || knownAt < clock) {
        return clock;
    }
    const Instant last = std::min(knownAt, clock + logbook::Duration{999});
    Instant latest{};
    for (const auto& [station, head] : facts.heads) {
        latest = std::max(latest, head.entered);
    }
    if (latest <= last) {
        return std::max(clock, latest);
    }
    const auto entered = logbook.latestEntered(last);
    if (!entered) {
        return tl::unexpected(problemOf(surroundings.words, entered.error()));
    }
    return std::max(clock, entered->value_or(clock));
}

Result<Standing> readStanding(const Surroundings& surroundings, const LogbookFile& file,
                              const Asked& asked) {
    auto opened = openLogbook(surroundings, file, Access::Read);
    if (!opened) {
        return tl::unexpected(std::move(opened.error()));
    }
    const auto logbook = std::make_shared<const store::Logbook>(std::move(*opened));
    auto facts = readFacts(surroundings, *logbook);
    if (!facts) {
        return tl::unexpected(std::move(facts.error()));
    }
    Standing standing;
    standing.facts = std::move(*facts);
    standing.knownAt = asked.knownAt.value_or(rules::unlimited);
    standing.group = asked.group;
    standing.lookup = lookupIn(std::make_shared<LookedUpLog>(logbook));
    const auto now = asked.at ? Result<Instant>(*asked.at)
                              : nowFor(surroundings, *logbook, standing.facts, standing.knownAt);
    if (!now) {
        return tl::unexpected(now.error());
    }
    standing.at = *now;
    const auto last = standing.facts.arrival;
    const auto ahead = readGroundwork(surroundings, *logbook, last);
    if (!ahead) {
        return tl::unexpected(ahead.error());
    }
    const auto& groundwork = ahead->groundwork;
    if (auto edition = requireEdition(surroundings, groundwork, standing.at, standing.knownAt);
        !edition) {
        return tl::unexpected(groundwork.hasEdition(standing.at, standing.knownAt)
                                  ? std::move(edition.error())
                                  : noEdition(surroundings, *logbook, ahead->records, last,
                                              standing.facts, std::move(edition.error())));
    }
    Reading reading(standing, *ahead, !asked.at);
    if (const auto trouble = readAll(reading, *logbook, last)) {
        return tl::unexpected(problemOf(surroundings.words, *trouble));
    }
    reading.finish();
    if (auto held = noteLacking(surroundings, *logbook, reading.seen(), standing.facts); !held) {
        return tl::unexpected(std::move(held.error()));
    }
    standing.facts.isDamaged = logbook->metDamage();
    standing.facts.isRefused = logbook->metRefusal();
    return standing;
}

words::RecordLookup lookupIn(std::shared_ptr<LookedUpLog> log) {
    const auto records = std::make_shared<StoredRecords>(std::move(log));
    return [records](const logbook::RecordName& name) { return records->find(name); };
}

}  // namespace station
