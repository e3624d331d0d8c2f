// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Gathering what is needed; see log_at_hand.h.
#include "station/log_at_hand.h"

#include "rules/running_state.h"
#include "station/clock_doubt.h"
#include "station/folded_log.h"
#include "station/gathered_records.h"
#include "station/records_seen.h"
#include "station/snapshots.h"
#include "station/state_reading.h"

#include <utility>

namespace station {

namespace {

using logbook::Duration;
using logbook::Record;
using Beginning = LogAtHand::Beginning;
using Kinds = store::Selection::Kinds;

// Nothing as a value: the whole log must be read.
template <class Value>
using IfEnough = Result<std::optional<Value>>;

constexpr int mostAttempts = 10;  // to find the log as it is while others write

class Gathering {
public:
    Gathering(const Surroundings& surroundings, const LogbookFile& file,
              const store::Logbook& logbook, const Needed& needed)
        : m_surroundings(surroundings), m_file(file), m_logbook(logbook), m_needed(needed) {}

    [[nodiscard]] IfEnough<LogAtHand> run() {
        FoldedLog folded(m_surroundings, m_logbook, FoldedLog::Kept::Use, {.isAskedOnce = true});
        auto facts = factsFor(folded);
        if (!facts || !*facts) {
            return facts ? IfEnough<LogAtHand>(std::nullopt)
                         : tl::unexpected(std::move(facts.error()));
        }
        std::shared_ptr<const Beginning> beginning;
        if (m_needed.since) {
            auto begun = begin(folded);
            if (!begun || !*begun) {
                return begun ? IfEnough<LogAtHand>(std::nullopt)
                             : tl::unexpected(std::move(begun.error()));
            }
            beginning = std::make_shared<const Beginning>(**std::move(begun));
            m_known = folded.placesKnown();
        }
        auto records = gather(**facts, beginning.get());
        if (!records || !*records) {
            return records ? IfEnough<LogAtHand>(std::nullopt)
                           : tl::unexpected(std::move(records.error()));
        }
        LogAtHand log{
            {**std::move(facts), rules::Log(**std::move(records), m_surroundings.zones)}};
        log.beginning = std::move(beginning);
        return finished(std::move(log));
    }

private:
    // Of the log as the state is folded from it, whatever others write meanwhile.
    [[nodiscard]] IfEnough<LogbookFacts> factsFor(FoldedLog& folded) const {
        for (int attempt = 0; attempt < mostAttempts; ++attempt) {
            if (m_needed.since) {
                if (auto current = folded.catchUp(); !current) {
                    return tl::unexpected(std::move(current.error()));
                }
            }
            auto facts = readFacts(m_surroundings, m_logbook);
            if (!facts) {
                return tl::unexpected(std::move(facts.error()));
            }
            if (facts->verification && !facts->verification->ok) {
                return std::optional<LogbookFacts>();
            }
            if (!m_needed.since || folded.arrival() == facts->arrival) {
                return std::optional(*std::move(facts));
            }
        }
        return std::optional<LogbookFacts>();
    }

    // The state just before what is needed.
    [[nodiscard]] IfEnough<Beginning> begin(FoldedLog& folded) const {
        if (!folded.unread().empty() || !folded.groundwork().firstEdition()) {
            return std::optional<Beginning>();
        }
        const auto before = *m_needed.since - Duration{1};
        const auto isKept = folded.hasBeginning(before);
        if (!isKept) {
            return tl::unexpected(isKept.error());
        }
        // Few records are read as fast as they are folded; many are not all to be in memory.
        if (!*isKept && folded.arrival() <= mostFolded) {
            return std::optional<Beginning>();
        }
        const auto state = folded.stateAt(before);
        if (!state) {
            return tl::unexpected(state.error());
        }
        if (!state->unread.empty() || !folded.unread().empty() || !folded.placeFolded()) {
            return std::optional<Beginning>();
        }
        return std::optional(Beginning{*folded.placeFolded(), folded.take(*state)});
    }

    // Up to that arrival: others may write meanwhile.
    [[nodiscard]] IfEnough<std::vector<Record>> gather(const LogbookFacts& facts,
                                                       const Beginning* beginning) {
        const auto arrival = facts.arrival;
        GatheredRecords gathered(m_surroundings, m_logbook);
        auto read = gathered.add({.arrivedUpTo = arrival, .kinds = Kinds::Founding});
        if (read) {
            read = beginning != nullptr ? addNeeded(gathered, facts, *beginning)
                                        : addFounding(gathered, arrival);
        }
        if (read) {
            // The state with which it begins knows of the others.
            const auto isWanted = [&](const Record& record) {
                const auto* strike = std::get_if<logbook::body::Strike>(&record.body);
                return beginning == nullptr || strike == nullptr || gathered.has(strike->target);
            };
            read = gathered.add({.arrivedUpTo = arrival, .kinds = Kinds::Strikes}, isWanted);
        }
        if (!read) {
            return tl::unexpected(std::move(read.error()));
        }
        return gathered.hasReadAll() ? std::optional(gathered.take())
                                     : std::optional<std::vector<Record>>();
    }

    // By the index of the department's records as well: one who lost a role would hold it on where
    // the other does not lead to the record that took it away. All else that is needed has them.
    [[nodiscard]] static Result<void> addFounding(GatheredRecords& gathered,
                                                  std::int64_t arrival) {
        return gathered.add({.device = "", .arrivedUpTo = arrival}, [](const Record& record) {
            return record.kind() == logbook::Kind::Adopt || record.kind() == logbook::Kind::Person;
        });
    }

    // Whether it was given all that lies behind the beginning.
    [[nodiscard]] Result<bool> isAllOf(const RecordsSeen& seen, const LogbookFacts& facts,
                                       const Beginning& beginning) {
        return lackingIn(m_surroundings, m_logbook, facts.heads,
                         {seen, &beginning.place, headsOf(facts.heads)}, m_known)
            .map([](const auto& lacking) { return lacking.empty(); });
    }

    [[nodiscard]] Result<void> addNeeded(GatheredRecords& gathered, const LogbookFacts& facts,
                                         const Beginning& beginning) {
        const auto arrival = facts.arrival;
        RecordsSeen seen;
        auto read = gathered.add({.after = beginning.place, .arrivedUpTo = arrival},
                                 [&](const Record& record) {
                                     seen.see(record.name);
                                     return true;
                                 });
        if (read) {
            const auto isAll = isAllOf(seen, facts, beginning);
            if (!isAll) {
                return tl::unexpected(isAll.error());
            }
            gathered.lackIf(!*isAll);
        }
        if (read) {
            read = gathered.add({.device = "", .arrivedUpTo = arrival});
        }
        for (const auto& device : m_needed.devices) {
            read = read ? gathered.add({.device = device, .arrivedUpTo = arrival}) : read;
        }
        for (const auto& name : m_needed.records) {
            read = read ? gathered.add(name) : read;
        }
        if (read) {
            gathered.lackIf(!hasWhatRestsOn(
                beginning.state, m_needed.devices, [&](const logbook::RecordName& name) {
                    return gathered.has(name) || isOfOthers(name);
                }));
        }
        return read;
    }

    // False also of one that is gone, or cannot be read.
    [[nodiscard]] bool isOfOthers(const logbook::RecordName& name) const {
        const auto row = m_logbook.findRecord(name);
        return row && !row->device.empty() && !m_needed.devices.contains(row->device);
    }

    [[nodiscard]] IfEnough<LogAtHand> finished(LogAtHand log) const {
        const auto reached = reachedIn(m_surroundings, m_logbook, log);
        if (!reached) {
            return tl::unexpected(reached.error());
        }
        if (!*reached) {
            return std::optional<LogAtHand>();
        }
        log.reached = **reached;
        // Beside this one, which may be written while it is asked.
        auto beside = openLogbook(m_surroundings, m_file, Access::Read);
        if (!beside) {
            return tl::unexpected(std::move(beside.error()));
        }
        log.elsewhere = lookupIn(std::make_shared<LookedUpLog>(
            std::make_shared<const store::Logbook>(std::move(*beside))));
        return std::optional(std::move(log));
    }

    const Surroundings& m_surroundings;
    const LogbookFile& m_file;
    const store::Logbook& m_logbook;
    const Needed& m_needed;
    PlacesKnown m_known{};  // what was looked for is not looked for again
};

}  // namespace

Result<LogAtHand> readAtHand(const Surroundings& surroundings, const LogbookFile& file,
                             const store::Logbook& logbook, const Needed& needed) {
    auto log = needed.isAll ? IfEnough<LogAtHand>(std::nullopt)
                            : Gathering(surroundings, file, logbook, needed).run();
    if (!log) {
        return tl::unexpected(std::move(log.error()));
    }
    if (*log) {
        return **std::move(log);
    }
    return (logbook.access() == Access::Write ? readWholeLog(surroundings, logbook)
                                              : readWholeLog(surroundings, file))
        .map([](WholeLog&& whole) { return LogAtHand{std::move(whole)}; });
}

Result<LogAtHand> readPeople(const Surroundings& surroundings, const LogbookFile& file) {
    const auto logbook = openLogbook(surroundings, file, Access::Read);
    if (!logbook) {
        return tl::unexpected(logbook.error());
    }
    return readAtHand(surroundings, file, *logbook, {});
}

LogAtHand extended(const Surroundings& surroundings, const LogAtHand& log,
                   const std::vector<Record>& records) {
    auto all = log.log.records();
    all.insert(all.end(), records.begin(), records.end());
    return {{log, rules::Log(std::move(all), surroundings.zones), log.reached},
            log.beginning,
            log.elsewhere};
}

rules::State stateOf(const LogAtHand& log, logbook::Instant at) {
    if (!log.beginning) {
        return log.log.stateAt(at, rules::unlimited);
    }
    rules::RunningState running(log.log.groundwork(), rules::unlimited, log.beginning->state);
    for (const auto& record : log.log.records()) {
        if (record.at <= at && log.beginning->place < store::placeOf(record)) {
            running.add(record);
        }
    }
    return std::move(running).takeState();
}

const Record* recordIn(const LogAtHand& log, const logbook::RecordName& name) {
    if (const auto index = log.log.find(name)) {
        return &log.log.records()[*index];
    }
    return log.elsewhere ? log.elsewhere(name) : nullptr;
}

}  // namespace station
