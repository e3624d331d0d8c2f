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
    auto next = wanted.first;
    const auto addUpTo = [&](std::int64_t last) {
        for (; next <= last && lacking.size() < most; ++next) {
            lacking.push_back({station, next});
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

Result<std::vector<RecordName>> lackingIn(const Surroundings& surroundings,
                                          const store::Logbook& logbook,
                                          const store::StationHeads& heads, const ReadPart& part) {
    const auto liesBefore = [&](const store::Place& place) {
        return part.after != nullptr && !(*part.after < place);
    };
    const auto liesElsewhere = [&](const store::Place& place) {
        return liesBefore(place) || (!part.isToTheEnd && !part.isWanted(place));
    };
    for (const auto& [station, noted] : heads) {
        const auto last = noted.head.seq;
        const auto earlier = part.earlier.find(station);
        // From there on it must have been given all, if it went on to the end.
        const auto sure = part.after == nullptr          ? 1
                          : earlier != part.earlier.end() ? earlier->second.seq + 1
                                                          : 1;
        if (part.isToTheEnd) {
            if (auto lacking = part.seen.lackingOf(station, {sure, last}, 1); !lacking.empty()) {
                return lacking;
            }
        }
        const auto ends = part.seen.endsOf(station);
        if (ends.last == 0) {
            continue;
        }
        // What lies before the first one that was given, or behind the last, may rightly lack: the
        // next one on either side is looked for, and each between.
        const RecordsSeen::Numbers between{
            part.after == nullptr ? 1 : std::max<std::int64_t>(1, ends.first - 1),
            part.isToTheEnd ? std::min(last, sure - 1)
                            : (ends.last < last ? ends.last + 1 : last)};
        for (const auto& name : part.seen.lackingOf(station, between, mostLookedUp)) {
            const auto place = placeIn(surroundings, logbook, name);
            if (!place) {
                return tl::unexpected(place.error());
            }
            if (!*place || !liesElsewhere(**place)) {
                return std::vector<RecordName>{name};
            }
            if (liesBefore(**place)) {
                part.seen.see(name);
            }
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
