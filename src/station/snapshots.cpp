// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which states are kept, made and checked; see snapshots.h.
#include "station/snapshots.h"

#include "rules/state_bytes.h"
#include "station/folded_log.h"
#include "station/held_log.h"

#include <algorithm>
#include <iterator>
#include <limits>
#include <optional>
#include <set>
#include <span>
#include <utility>

namespace station {

namespace {

using logbook::Duration;
using logbook::Instant;
using store::Place;
using store::Snapshot;

// By a thread for each portion; few are needed so.
constexpr std::size_t recordsHeldAtOnce = 1000;
constexpr Duration forEver{std::numeric_limits<std::int64_t>::max()};

// Whether an answer of now could begin with it.
bool holds(const store::KeptSnapshot& kept) {
    return kept.isValid && kept.engine == rules::engineRevision;
}

// Makes states at the distances behind the last record that lie after the last place kept.
class Making {
public:
    Making(const Surroundings& surroundings, const store::Logbook& logbook, FoldedLog& log)
        : m_surroundings(surroundings), m_logbook(logbook), m_log(log) {}

    // `since`: the newest that is kept already and still holds.
    Result<std::vector<Snapshot>> run(Instant end, const std::optional<Place>& since) {
        const auto heads = headsOf(m_log.heads());
        for (auto each = std::rbegin(snapshotDistances); each != std::rend(snapshotDistances);
             ++each) {
            const Instant at = end - *each;
            if (since && at < since->at) {
                continue;
            }
            if (auto made = makeAt(at, heads, since); !made) {
                return tl::unexpected(std::move(made.error()));
            }
        }
        return std::move(m_made);
    }

    [[nodiscard]] std::int64_t folded() const { return m_folded; }

private:
    Result<void> makeAt(Instant at, const store::Heads& heads, const std::optional<Place>& since) {
        auto folded = m_log.stateAt(at);
        if (!folded) {
            return tl::unexpected(std::move(folded.error()));
        }
        m_folded += folded->folded;
        const auto& unread = folded->unread.empty() ? m_log.unread() : folded->unread;
        if (!unread.empty()) {
            return tl::unexpected(unreadable(m_surroundings, unread.front()));
        }
        const auto& place = m_log.placeFolded();
        const bool isNew = place && (m_made.empty() || m_made.back().place < *place) &&
                           (!since || *since < *place);
        if (!isNew || !folded->state->adopted) {
            return {};
        }
        Snapshot snapshot{*place, m_log.arrival(), heads};
        const auto strikes = m_logbook.strikesBeyond(
            *place, m_made.empty() ? nullptr : &m_made.back());
        if (!strikes) {
            return tl::unexpected(problemOf(m_surroundings.words, strikes.error()));
        }
        snapshot.strikes = *strikes;
        snapshot.engine = rules::engineRevision;
        snapshot.rulebooks = rulebooksUpTo(*place, m_log.founding());
        snapshot.bytes = rules::toBytes(*folded->state, m_log.groundwork().editions());
        m_made.push_back(std::move(snapshot));
        return {};
    }

    const Surroundings& m_surroundings;
    const store::Logbook& m_logbook;
    FoldedLog& m_log;
    std::vector<Snapshot> m_made;
    std::int64_t m_folded = 0;
};

// In each span between two distances the newest, which serves, and the oldest, which will serve in
// the next span when the log has grown.
std::set<Place> worthKeeping(Instant end, const std::set<Place>& places) {
    std::set<Place> worth;
    for (auto each = std::begin(snapshotDistances); each != std::end(snapshotDistances); ++each) {
        const auto next = std::next(each);
        const Duration most = next == std::end(snapshotDistances) ? forEver : *next;
        std::vector<Place> within;
        std::copy_if(places.begin(), places.end(), std::back_inserter(within),
                     [&](const Place& place) {
                         const Duration behind = end - place.at;
                         return behind >= *each && behind < most;
                     });
        if (!within.empty()) {
            worth.insert({within.front(), within.back()});
        }
    }
    return worth;
}

Instant lastEntry(const store::StationHeads& heads) {
    Instant latest{};
    for (const auto& [station, head] : heads) {
        latest = std::max(latest, head.entered);
    }
    return latest;
}

Result<SnapshotsMade> makeSnapshots(const Surroundings& surroundings, store::Logbook& logbook) {
    const auto troubled = [&](const store::Trouble& trouble) {
        return tl::unexpected(problemOf(surroundings.words, trouble));
    };
    store::HeldChain chain;
    FoldedLog log(surroundings, logbook, FoldedLog::Kept::Use,
                  {.recordsAhead = recordsHeldAtOnce, .held = &chain});
    if (auto read = log.catchUp(); !read) {
        return tl::unexpected(std::move(read.error()));
    }
    const auto kept = logbook.snapshotsKept();
    if (!kept) {
        return troubled(kept.error());
    }
    const auto& heads = log.heads();
    if (heads.empty() || !log.groundwork().firstEdition()) {
        return SnapshotsMade{};
    }
    const auto end = lastEntry(heads);
    std::set<Place> places;
    for (const auto& each : *kept) {
        if (holds(each)) {
            places.insert(each.place);
        }
    }
    Making making(surroundings, logbook, log);
    auto made = making.run(end, places.empty() ? std::nullopt : std::optional(*places.rbegin()));
    if (!made) {
        return tl::unexpected(std::move(made.error()));
    }
    if (auto held = holdTheRest(surroundings, logbook, log, chain); !held) {
        return tl::unexpected(std::move(held.error()));
    }
    for (const auto& each : *made) {
        places.insert(each.place);
    }
    const auto worth = worthKeeping(end, places);
    std::erase_if(*made, [&](const Snapshot& each) { return !worth.contains(each.place); });
    const std::vector<Place> staying(worth.begin(), worth.end());
    // One at a time: others who write wait for one of them at most.
    std::span<const Snapshot> rest(*made);
    do {
        const auto next = rest.first(std::min<std::size_t>(rest.size(), 1));
        const auto done = logbook.keepSnapshots(next, staying,
                                                {surroundings.login, surroundings.clock.now()});
        if (!done) {
            return troubled(done.error());
        }
        rest = rest.subspan(next.size());
    } while (!rest.empty());
    return SnapshotsMade{making.folded(), static_cast<int>(made->size()),
                         static_cast<int>(worth.size())};
}

// Whether what is kept at that place is what the records fold to.
Result<bool> agrees(const Surroundings& surroundings, const store::Logbook& logbook,
                    FoldedLog& log, const Place& place) {
    const auto snapshot = logbook.snapshotAt(place);
    const auto strikes = logbook.strikesBeyond(place, nullptr);
    if (!snapshot || !strikes) {
        return tl::unexpected(problemOf(surroundings.words,
                                        snapshot ? strikes.error() : snapshot.error()));
    }
    if (!*snapshot || !log.groundwork().firstEdition()) {
        return false;
    }
    const auto folded = log.stateUpTo(place);
    if (!folded) {
        return tl::unexpected(folded.error());
    }
    return folded->unread.empty() && (*snapshot)->strikes == *strikes &&
           (*snapshot)->rulebooks == rulebooksUpTo(place, log.founding()) &&
           (*snapshot)->bytes == rules::toBytes(*folded->state, log.groundwork().editions());
}

// What comes in while it is looked at may reach before it, so that it need not agree any more, or
// it is thrown away.
Result<bool> isStillKept(const Surroundings& surroundings, const store::Logbook& logbook,
                         const store::KeptSnapshot& looked) {
    const auto kept = logbook.snapshotsKept();
    if (!kept) {
        return tl::unexpected(problemOf(surroundings.words, kept.error()));
    }
    return std::ranges::any_of(*kept, [&](const store::KeptSnapshot& each) {
        return each.place == looked.place && each.arrival == looked.arrival &&
               holds(each) == holds(looked);
    });
}

// Of one that no answer begins with: whether it is as it was kept.
Result<bool> isWhole(const Surroundings& surroundings, const store::Logbook& logbook,
                     const Place& place) {
    return logbook.snapshotAt(place)
        .map([](const std::optional<Snapshot>& snapshot) { return snapshot.has_value(); })
        .map_error([&](const store::Trouble& trouble) {
            return problemOf(surroundings.words, trouble);
        });
}

// Whether an answer of now would fold more than a moment takes, and enough has come in.
bool isWorthIt(const store::Logbook& logbook) {
    const auto arrival = logbook.lastArrival();
    if (!arrival || *arrival <= mostFolded) {
        return false;
    }
    const auto kept = logbook.snapshotsKept();
    if (!kept) {
        return false;
    }
    std::optional<Place> newest;
    std::int64_t lastMade = 0;
    for (const auto& each : *kept) {
        lastMade = std::max(lastMade, each.arrival);
        if (holds(each)) {
            newest = each.place;
        }
    }
    if (!kept->empty() && *arrival - lastMade < cameInBetween) {
        return false;
    }
    const auto after = logbook.countAfter(newest, mostFolded + 1);
    return after && *after > mostFolded;
}

}  // namespace

void renewSnapshots(const Surroundings& surroundings, const LogbookFile& file) {
    auto logbook = openLogbook(surroundings, file, Access::Write);
    if (!logbook) {
        return;
    }
    const auto verified = logbook->lastVerification();
    const bool isSound = verified && (!*verified || (*verified)->ok);
    if (isSound && isWorthIt(*logbook)) {
        (void)makeSnapshots(surroundings, *logbook);
    }
}

Result<SnapshotsMade> rebuild(const Surroundings& surroundings, const LogbookFile& file) {
    auto logbook = openLogbook(surroundings, file, Access::Write);
    if (!logbook) {
        return tl::unexpected(std::move(logbook.error()));
    }
    const auto dropped = logbook->dropDerived({surroundings.login, surroundings.clock.now()});
    if (!dropped) {
        return tl::unexpected(
            dropped.error().code == store::Trouble::Code::Damaged && !dropped.error().isUnread
                ? problemOf(surroundings.words, "snapshots.damaged",
                            {{"path", file.path.string()}}, Problem::Weight::Logbook)
                : problemOf(surroundings.words, dropped.error()));
    }
    return makeSnapshots(surroundings, *logbook);
}

Result<SnapshotCheck> checkSnapshots(const Surroundings& surroundings,
                                     const store::Logbook& logbook) {
    const auto kept = logbook.snapshotsKept();
    if (!kept) {
        return tl::unexpected(problemOf(surroundings.words, kept.error()));
    }
    SnapshotCheck check;
    FoldedLog log(surroundings, logbook, FoldedLog::Kept::PassOver, {.isOneByOne = true});
    if (!kept->empty()) {
        if (auto read = log.catchUp(); !read) {
            return tl::unexpected(std::move(read.error()));
        }
    }
    // Nothing, if it is not true and is not kept so any more.
    const auto isTrueOf = [&](const store::KeptSnapshot& each) -> Result<std::optional<bool>> {
        const auto isTrue = holds(each) ? agrees(surroundings, logbook, log, each.place)
                                        : isWhole(surroundings, logbook, each.place);
        if (!isTrue) {
            return tl::unexpected(isTrue.error());
        }
        return *isTrue ? Result<std::optional<bool>>(true)
                       : isStillKept(surroundings, logbook, each).map([](bool is) {
                             return is ? std::optional(false) : std::nullopt;
                         });
    };
    for (const auto& each : *kept) {
        auto isTrue = isTrueOf(each);
        if (isTrue && *isTrue == false) {
            isTrue = isTrueOf(each);  // thrown away and made again meanwhile, it was not found
        }
        if (!isTrue) {
            return tl::unexpected(isTrue.error());
        }
        check.checked += isTrue->has_value() && holds(each) ? 1 : 0;
        if (*isTrue == false) {
            check.wrong.push_back(each.place);
        }
    }
    return check;
}

bool throwAway(const Surroundings& surroundings, store::Logbook& logbook,
               const SnapshotCheck& check) {
    if (check.wrong.empty()) {
        return true;
    }
    const auto kept = logbook.snapshotsKept();
    if (!kept) {
        return false;
    }
    std::vector<Place> staying;
    for (const auto& each : *kept) {
        if (std::ranges::find(check.wrong, each.place) == check.wrong.end()) {
            staying.push_back(each.place);
        }
    }
    return logbook.keepSnapshots({}, staying, {surroundings.login, surroundings.clock.now()})
        .has_value();
}

}  // namespace station
