// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What was read against the heads; see records_seen.h.
#include "station/records_seen.h"

#include <algorithm>
#include <iterator>
#include <optional>

namespace station {

namespace {

using logbook::RecordName;

// Each is looked for in the file by itself.
constexpr std::size_t mostLookedUp = 2000;

// Where it stands; nothing if it is not here, or cannot be read.
Result<std::optional<store::Place>> placeIn(const Surroundings& surroundings,
                                            const store::Logbook& logbook,
                                            const RecordName& name) {
    const auto row = logbook.findRecord(name);
    if (row) {
        return row->content.empty() ? std::nullopt : std::optional(row->place);
    }
    if (row.error().code == store::Trouble::Code::NoRecord) {
        return std::nullopt;
    }
    return tl::unexpected(problemOf(surroundings.words, row.error()));
}

// Of a station the break that comes first.
void addGone(std::vector<store::Break>& gone, const RecordName& name) {
    const auto told = std::ranges::find_if(
        gone, [&](const auto& known) { return known.record.station == name.station; });
    if (told == gone.end()) {
        gone.push_back({name, store::Break::Reason::Gap});
    } else if (name.seq < told->record.seq) {
        *told = {name, store::Break::Reason::Gap};
    }
}

}  // namespace

RecordsSeen::Runs& RecordsSeen::runsAnew(const std::string& station) {
    const auto place = m_places.try_emplace(station, m_stations.size()).first->second;
    if (place == m_stations.size()) {
        m_stations.push_back({station, {}});
    }
    m_last = place;
    return m_stations[place].runs;
}

const RecordsSeen::Runs* RecordsSeen::find(const std::string& station) const {
    const auto place = m_places.find(station);
    return place == m_places.end() ? nullptr : &m_stations[place->second].runs;
}

void RecordsSeen::insert(Runs& runs, std::int64_t seq) {
    if (seq < 1) {
        return;  // no record has such a number
    }
    auto next = runs.upper_bound(seq);
    auto run = next;
    if (next != runs.begin() && std::prev(next)->second >= seq - 1) {
        run = std::prev(next);
        run->second = std::max(run->second, seq);
    } else {
        run = runs.emplace_hint(next, seq, seq);
    }
    if (next != runs.end() && next->first == run->second + 1) {
        run->second = next->second;
        runs.erase(next);
    }
}

std::vector<RecordName> RecordsSeen::lackingOf(const std::string& station, Numbers wanted,
                                               std::size_t most) const {
    std::vector<RecordName> lacking;
    auto next = std::max<std::int64_t>(1, wanted.first);
    const auto addUpTo = [&](std::int64_t last) {
        if (next > last) {
            return;
        }
        // Of numbers up to the highest that there is, none is counted beyond it.
        const auto count = std::min(static_cast<std::uint64_t>(last - next),
                                    static_cast<std::uint64_t>(most - lacking.size()) - 1);
        for (std::uint64_t index = 0; lacking.size() < most && index <= count; ++index) {
            lacking.push_back({station, next + static_cast<std::int64_t>(index)});
        }
    };
    if (const auto* runs = find(station)) {
        auto run = runs->upper_bound(next);
        run = run == runs->begin() ? run : std::prev(run);
        for (; run != runs->end() && run->first <= wanted.last; ++run) {
            addUpTo(run->first - 1);
            if (run->second >= wanted.last) {
                return lacking;
            }
            next = std::max(next, run->second + 1);
        }
    }
    addUpTo(wanted.last);
    return lacking;
}

RecordsSeen::Numbers RecordsSeen::endsOf(const std::string& station) const {
    const auto* runs = find(station);
    return runs == nullptr || runs->empty()
               ? Numbers{}
               : Numbers{runs->begin()->first, runs->rbegin()->second};
}

namespace {

// Of one station after another.
class HeldAgainst {
public:
    HeldAgainst(const Surroundings& surroundings, const store::Logbook& logbook,
                const ReadPart& part, PlacesKnown& known)
        : m_surroundings(surroundings), m_logbook(logbook), m_part(part), m_known(known) {}

    using Lacking = Result<std::optional<RecordName>>;

    // One that lacks of its records up to that number, if any does.
    [[nodiscard]] Lacking lackingOf(const std::string& station, std::int64_t last) {
        if (last < 1) {
            return std::optional<RecordName>();  // no record has such a number
        }
        const auto sure = firstSure(station, last);
        if (m_part.isToTheEnd && sure) {
            const auto lacking = m_part.seen.lackingOf(station, {*sure, last}, 1);
            if (!lacking.empty()) {
                return std::optional(lacking.front());
            }
        }
        const auto ends = m_part.seen.endsOf(station);
        return ends.last == 0 ? whereNoneWasSeen(station, last)
                              : beside(station, ends, last, sure);
    }

private:
    // From there on it must have been given all, if it went on to the end.
    [[nodiscard]] std::optional<std::int64_t> firstSure(const std::string& station,
                                                        std::int64_t last) const {
        const auto earlier = m_part.earlier.find(station);
        if (m_part.after == nullptr || earlier == m_part.earlier.end()) {
            return 1;
        }
        const auto known = std::max<std::int64_t>(0, earlier->second.seq);
        return known < last ? std::optional(known + 1) : std::nullopt;
    }

    // What lies before the first one that was given, or behind the last, may rightly lack: the
    // next one on either side is looked for, and each between.
    [[nodiscard]] Lacking beside(const std::string& station, const RecordsSeen::Numbers& ends,
                                 std::int64_t last, const std::optional<std::int64_t>& sure) {
        const RecordsSeen::Numbers between{
            m_part.after == nullptr ? 1 : std::max<std::int64_t>(1, ends.first - 1),
            !m_part.isToTheEnd ? std::min(ends.last, last - 1) + 1 : sure ? *sure - 1 : last};
        for (const auto& name : m_part.seen.lackingOf(station, between, mostLookedUp)) {
            const auto where = sideOf(name);
            if (!where) {
                return tl::unexpected(where.error());
            }
            if (*where == Side::Lacking) {
                return std::optional(name);
            }
        }
        return std::optional<RecordName>();
    }

    // All of it may lie elsewhere: its last one tells, for mostly they stand in their order. Where
    // that comes after all that was wanted, so must the first one that does not lie before.
    [[nodiscard]] Lacking whereNoneWasSeen(const std::string& station, std::int64_t last) {
        RecordName name{station, last};
        auto where = sideOf(name);
        RecordsSeen::Numbers among{1, m_part.after == nullptr ? 1 : last};
        while (where && *where == Side::Behind && among.first < among.last) {
            name.seq = among.first + (among.last - among.first) / 2;
            where = sideOf(name);
            if (where && *where == Side::Before) {
                among.first = name.seq + 1;
                where = Side::Behind;
            } else {
                among.last = name.seq;
            }
        }
        if (where && *where == Side::Behind) {
            name.seq = among.first;
            where = sideOf(name);
        }
        if (!where) {
            return tl::unexpected(where.error());
        }
        return *where == Side::Lacking ? std::optional(name) : std::nullopt;
    }

    enum class Side { Before, Behind, Lacking };  // of what was read; or it ought to be among it

    [[nodiscard]] Result<Side> sideOf(const RecordName& name) {
        auto known = m_known.find(name);
        if (known == m_known.end()) {
            const auto place = placeIn(m_surroundings, m_logbook, name);
            if (!place) {
                return tl::unexpected(place.error());
            }
            if (!*place) {
                return Side::Lacking;
            }
            known = m_known.emplace(name, **place).first;
        }
        if (m_part.after != nullptr && !(*m_part.after < known->second)) {
            return Side::Before;
        }
        return m_part.isToTheEnd || m_part.isWanted(known->second) ? Side::Lacking
                                                                   : Side::Behind;
    }

    const Surroundings& m_surroundings;
    const store::Logbook& m_logbook;
    const ReadPart& m_part;
    PlacesKnown& m_known;
};

}  // namespace

Result<std::vector<RecordName>> lackingIn(const Surroundings& surroundings,
                                          const store::Logbook& logbook,
                                          const store::StationHeads& heads, const ReadPart& part,
                                          PlacesKnown& known) {
    HeldAgainst held(surroundings, logbook, part, known);
    for (const auto& [station, noted] : heads) {
        auto lacking = held.lackingOf(station, noted.head.seq);
        if (!lacking) {
            return tl::unexpected(std::move(lacking.error()));
        }
        if (*lacking) {
            return std::vector<RecordName>{**std::move(lacking)};
        }
    }
    return std::vector<RecordName>();
}

Result<void> noteLacking(const Surroundings& surroundings, const store::Logbook& logbook,
                         const RecordsSeen& seen, LogbookFacts& facts) {
    for (const auto& [station, noted] : facts.heads) {
        for (const auto& name : seen.lackingOf(station, {1, noted.head.seq}, mostLookedUp)) {
            const auto row = logbook.findRecord(name);
            if (row) {
                facts.unread.push_back(name);
            } else if (row.error().code == store::Trouble::Code::NoRecord) {
                addGone(facts.gone, name);
                break;  // what the station wrote from there on is in doubt in any case
            } else {
                return tl::unexpected(problemOf(surroundings.words, row.error()));
            }
        }
    }
    return {};
}

}  // namespace station
