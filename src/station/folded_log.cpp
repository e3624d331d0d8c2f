// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Folding no more than is needed; see folded_log.h.
#include "station/folded_log.h"

#include "logbook/record_reader.h"
#include "rules/running_state.h"
#include "rules/state_bytes.h"
#include "station/read_ahead.h"

#include <algorithm>
#include <cstddef>
#include <future>
#include <limits>
#include <span>
#include <utility>

namespace station {

using logbook::Instant;
using Kinds = store::Selection::Kinds;

namespace {

// By another thread if there are many and one can be had, or else when it is waited for: to hash
// takes longer than to fold.
std::future<void> heldBeside(store::HeldChain* chain, std::span<const store::ReadRecord> rows) {
    constexpr std::size_t many = 200;
    const auto hold = [chain, rows] {
        for (const auto& each : rows) {
            chain->hold(each);
        }
    };
    if (chain == nullptr || rows.empty()) {
        return std::async(std::launch::deferred, [] {});
    }
    return rows.size() < many ? std::async(std::launch::deferred, hold) : std::async(hold);
}

}  // namespace

// Calls `take` with every row of the selection, until there are no more or it returns false.
template <class Take>
Result<void> FoldedLog::forEach(store::Selection selection, Take take) const {
    std::vector<store::ReadRecord> portion(m_limits.recordsAtFirst);
    for (;;) {
        const auto count = m_logbook.readRecords(selection, portion);
        if (!count) {
            return tl::unexpected(problemOf(m_surroundings.words, count.error()));
        }
        for (std::size_t index = 0; index < *count; ++index) {
            if (!take(portion[index])) {
                return {};
            }
        }
        if (*count < portion.size()) {
            return {};
        }
        selection.after = portion.back().place;
        portion.resize(m_limits.recordsAtOnce);
    }
}

// With portions of them, which hold until the next one. Where there are many, another thread reads
// ahead.
template <class Take>
Result<void> FoldedLog::forEachPortion(store::Selection selection, Take take) const {
    std::vector<store::ReadRecord> portion;
    for (const std::size_t most : {m_limits.recordsAtFirst, m_limits.recordsAtOnce}) {
        portion.resize(most);
        const auto count = m_logbook.readRecords(selection, portion);
        if (!count) {
            return tl::unexpected(problemOf(m_surroundings.words, count.error()));
        }
        if (!take(std::span<const store::ReadRecord>(portion.data(), *count)) || *count < most) {
            return {};
        }
        selection.after = portion.back().place;
    }
    ReadAhead ahead(m_logbook, selection, m_limits.recordsAhead);
    for (;;) {
        const auto rows = ahead.next();
        if (!rows) {
            return tl::unexpected(problemOf(m_surroundings.words, rows.error()));
        }
        if (rows->empty() || !take(std::span<const store::ReadRecord>(*rows))) {
            return {};
        }
    }
}

void FoldedLog::ground(const logbook::Record& record, const logbook::RecordName& name) {
    m_grounding.add(name);
    if (m_limits.held != nullptr) {
        m_limits.held->expect(name, record.content);
    }
}

Result<void> FoldedLog::readFounding(std::int64_t last) {
    m_arrival = -1;  // should it fail, all is read again the next time
    m_founding.clear();
    m_groundwork.reset();
    m_marks.clear();
    m_unread.clear();
    m_grounding.clear();
    m_known.clear();
    m_hasAllStrikes = false;
    auto read = forEach({.arrivedUpTo = last, .kinds = Kinds::Founding},
                        [&](store::ReadRecord& each) {
                            if (each.whole) {
                                ground(each.record, each.place.name);
                                m_founding.push_back(std::move(each.record));
                            } else {
                                m_unread.push_back(each.place.name);
                            }
                            return true;
                        });
    if (read) {
        m_groundwork.emplace(m_founding, m_surroundings.zones);
        m_arrival = last;
    }
    return read;
}

Result<void> FoldedLog::addStrikes(const store::Selection& selection) {
    return forEach(selection, [&](const store::ReadRecord& each) {
        if (each.whole) {
            ground(each.record, each.place.name);
            m_groundwork->addStrike(each.record);
        } else {
            m_unread.push_back(each.place.name);
        }
        return true;
    });
}

Result<void> FoldedLog::addStrikes(const std::vector<logbook::RecordName>& names) {
    for (const auto& name : names) {
        const auto row = m_logbook.findRecord(name);
        if (!row && row.error().code != store::Trouble::Code::NoRecord) {
            return tl::unexpected(problemOf(m_surroundings.words, row.error()));
        }
        const auto content = row ? std::string_view(row->content) : std::string_view();
        if (const auto strike = logbook::readRecord(content)) {
            ground(*strike, name);
            m_groundwork->addStrike(*strike);
        } else {
            m_unread.push_back(name);
        }
    }
    return {};
}

// How far back what came in reaches: to its own place; a strike to what it strikes.
Result<FoldedLog::Arrived> FoldedLog::arrived(std::int64_t last) const {
    Arrived since;
    std::vector<logbook::RecordName> struck;
    const store::Selection selection{.arrivedAfter = m_arrival, .arrivedUpTo = last};
    const auto read = m_logbook.forEachRow(selection, [&](const auto& row) {
        since.reach = since.reach ? std::min(*since.reach, row.place) : row.place;
        since.isFounding = since.isFounding || row.kind == "adopt" || row.kind == "person";
        since.hasStrikes = since.hasStrikes || row.kind == "strike";
        const auto record = row.kind == "strike"
                                ? std::optional(logbook::readRecord(std::string_view(row.content)))
                                : std::nullopt;
        // Of what is none, whatever its column says, it is not known how far it reaches.
        using logbook::body::Strike;
        const auto* strike = record && *record ? std::get_if<Strike>(&(*record)->body) : nullptr;
        if (strike != nullptr) {
            struck.push_back(strike->target);
        }
        since.isFounding = since.isFounding || (record && strike == nullptr);
        return true;
    });
    if (!read) {
        return tl::unexpected(problemOf(m_surroundings.words, read.error()));
    }
    for (const auto& name : struck) {
        const auto row = m_logbook.findRecord(name);
        if (row) {
            since.reach = std::min(*since.reach, row->place);
        } else if (row.error().code != store::Trouble::Code::NoRecord) {
            return tl::unexpected(problemOf(m_surroundings.words, row.error()));
        }
    }
    return since;
}

Result<void> FoldedLog::catchUp() {
    for (;;) {  // until nobody writes in the moment that it takes
        const auto last = m_logbook.lastArrival();
        if (!last) {
            return tl::unexpected(problemOf(m_surroundings.words, last.error()));
        }
        if (*last == m_arrival) {
            return {};
        }
        auto heads = m_logbook.heads();
        if (!heads) {
            return tl::unexpected(problemOf(m_surroundings.words, heads.error()));
        }
        const auto now = m_logbook.lastArrival();
        if (!now) {
            return tl::unexpected(problemOf(m_surroundings.words, now.error()));
        }
        if (*now == *last) {
            auto caughtUp = catchUpTo(*last);
            if (caughtUp) {
                m_heads = *std::move(heads);
            }
            return caughtUp;
        }
    }
}

Result<void> FoldedLog::catchUpTo(std::int64_t last) {
    if (m_arrival <= 0 || last < m_arrival) {
        return readFounding(last);
    }
    const auto since = arrived(last);
    if (!since) {
        return tl::unexpected(since.error());
    }
    if (since->isFounding) {
        return readFounding(last);
    }
    std::erase_if(m_marks, [&](const Mark& mark) {
        return since->reach && !(mark.place < *since->reach);
    });
    auto added = since->hasStrikes
                     ? addStrikes({.arrivedAfter = m_arrival, .arrivedUpTo = last,
                                   .kinds = Kinds::Strikes})
                     : Result<void>();
    if (added) {
        m_arrival = last;
    }
    return added;
}

// Whether its state can be read by these editions; then it is the first mark.
Result<bool> FoldedLog::beginWith(const store::Snapshot& snapshot) {
    if (snapshot.rulebooks != rulebooksUpTo(snapshot.place, m_founding)) {
        return false;
    }
    auto state = rules::stateFromBytes(snapshot.bytes, m_groundwork->editions());
    // Who was not read ahead, by whom strikes behind it are judged, is met from earlier on.
    if (!state || !state->adopted || !m_grounding.hasPersonsOf(*state)) {
        return false;
    }
    if (!m_hasAllStrikes) {
        // Of those that came before the place only these bear on what comes after it.
        if (auto added = addStrikes(snapshot.strikes); !added) {
            return tl::unexpected(std::move(added.error()));
        }
        auto added = addStrikes({.after = snapshot.place,
                                 .arrivedUpTo = m_arrival,
                                 .kinds = Kinds::Strikes});
        if (!added) {
            return tl::unexpected(std::move(added.error()));
        }
    }
    if (m_limits.held != nullptr) {
        m_limits.held->expectHeads(snapshot.heads);
    }
    m_marks.insert(m_marks.begin(), Mark{snapshot.place, *std::move(state)});
    m_marks.front().origin =
        std::make_shared<const Origin>(Origin{snapshot.place, snapshot.heads});
    return true;
}

// With the newest kept state before that instant, or else with nothing.
Result<void> FoldedLog::begin(Instant at) {
    store::SnapshotQuestion question{at, rules::engineRevision, {}};
    while (m_kept == Kept::Use) {
        const auto snapshot = m_logbook.snapshotFor(question);
        if (!snapshot) {
            return tl::unexpected(problemOf(m_surroundings.words, snapshot.error()));
        }
        if (!*snapshot) {
            break;
        }
        // One that was made since knows more than is taken note of here.
        const auto begun = (*snapshot)->arrival <= m_arrival ? beginWith(**snapshot) : false;
        if (!begun || *begun) {
            return begun ? Result<void>() : tl::unexpected(begun.error());
        }
        question.before = (*snapshot)->place;
    }
    if (m_hasAllStrikes) {
        return {};
    }
    auto added = addStrikes({.arrivedUpTo = m_arrival, .kinds = Kinds::Strikes});
    m_hasAllStrikes = added.has_value();
    return added;
}

Result<bool> FoldedLog::hasBeginning(Instant at) {
    if (markBefore(at) == nullptr) {
        if (auto begun = begin(at); !begun) {
            return tl::unexpected(std::move(begun.error()));
        }
    }
    return markBefore(at) != nullptr;
}

Result<Folded> FoldedLog::stateAt(Instant at) {
    if (auto begun = hasBeginning(at); !begun) {
        return tl::unexpected(std::move(begun.error()));
    }
    return foldFrom(markBefore(at), [&](const store::Place& place) { return place.at <= at; });
}

Result<Folded> FoldedLog::stateUpTo(const store::Place& place) {
    const Instant before = place.at - logbook::Duration{1};
    if (auto begun = hasBeginning(before); !begun) {
        return tl::unexpected(std::move(begun.error()));
    }
    return foldFrom(markBefore(before),
                    [&](const store::Place& each) { return !(place < each); });
}

template <class IsWanted>
Result<Folded> FoldedLog::foldFrom(const Mark* from, IsWanted isWanted) {
    const bool isNewest = m_marks.empty() || from == &m_marks.back();
    Mark mark{};
    store::Selection selection{.arrivedUpTo = m_arrival, .withHash = m_limits.held != nullptr};
    if (isReplaced(from)) {
        mark = std::move(m_marks.back());
        m_marks.pop_back();
        selection.after = mark.place;
    } else if (from != nullptr) {
        mark = *from;
        mark.after = 0;
        selection.after = mark.place;
    } else {
        mark.state.rulebook = m_groundwork->firstEdition();
    }
    m_placeFolded = selection.after;
    rules::RunningState running(*m_groundwork, rules::unlimited, std::move(mark.state));
    std::vector<const logbook::Record*> records;
    bool isToTheEnd = true;
    // Of strikes all behind the first mark were read ahead; verify looks at indexes itself.
    const auto isUngrounded = [&](const logbook::Record& record) {
        return !m_limits.isOneByOne && m_grounding.lacks(record);
    };
    auto read = forEachPortion(selection, [&](std::span<const store::ReadRecord> rows) {
        const auto end = std::ranges::find_if_not(rows, isWanted, &store::ReadRecord::place);
        const std::span wanted(rows.begin(), end);
        auto holding = heldBeside(m_limits.held, wanted);
        records.clear();
        for (const auto& each : wanted) {
            m_placeFolded = each.place;
            mark.seen.see(each.place.name);
            if (each.whole) records.push_back(&each.record);
            if (!each.whole || isUngrounded(each.record)) mark.unread.push_back(each.place.name);
        }
        if (m_limits.isOneByOne) {
            for (const auto* record : records) running.add(*record);
        } else {
            running.add(records);
        }
        holding.get();
        return isToTheEnd = end == rows.end();
    });
    if (!read) {
        return tl::unexpected(std::move(read.error()));
    }
    const auto* origin = mark.origin.get();
    const ReadPart part{mark.seen, origin == nullptr ? nullptr : &origin->place,
                        origin == nullptr ? store::Heads{} : origin->heads, isToTheEnd, isWanted};
    const auto lacking = m_limits.isOneByOne  // as verify does, which looks for gaps itself
                             ? Result<std::vector<logbook::RecordName>>({})
                             : lackingIn(m_surroundings, m_logbook, m_heads, part,
                                         m_known);
    if (!lacking) {
        return tl::unexpected(lacking.error());
    }
    mark.after += running.folded();
    Folded folded{nullptr, running.folded(), mark.unread};
    folded.unread.insert(folded.unread.end(), lacking->begin(), lacking->end());
    mark.state = std::move(running).takeState();
    mark.place = m_placeFolded.value_or(store::Place{});
    folded.state = &keep(std::move(mark), isNewest && m_placeFolded);
    return folded;
}

}  // namespace station
