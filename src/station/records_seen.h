// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which records of each station a reading of the log was given, held against the heads: a record
// that is gone, or to which an index does not lead, makes no sound by itself. Knows numbers alone,
// as few runs of them, since the records of a station come in their order or nearly so.
#pragma once

#include "station/open.h"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <map>
#include <string>
#include <vector>

namespace station {

class RecordsSeen {
public:
    void see(const logbook::RecordName& name) {
        auto& runs = runsOf(name.station);
        if (!runs.empty() && runs.rbegin()->second < name.seq &&
            runs.rbegin()->second == name.seq - 1) {
            runs.rbegin()->second = name.seq;
        } else {
            insert(runs, name.seq);
        }
    }

    struct Numbers {
        std::int64_t first = 0, last = 0;
    };
    // Of these the ones that were not seen, in their order; no more than so many.
    [[nodiscard]] std::vector<logbook::RecordName> lackingOf(const std::string& station,
                                                             Numbers wanted,
                                                             std::size_t most) const;
    // The lowest and the highest that were seen; 0 for none.
    [[nodiscard]] Numbers endsOf(const std::string& station) const;

private:
    using Runs = std::map<std::int64_t, std::int64_t>;  // the first of each, and the last
    struct OfStation {
        std::string station;
        Runs runs;
    };

    // Mostly the station of the record before.
    [[nodiscard]] Runs& runsOf(const std::string& station) {
        if (m_last < m_stations.size() && m_stations[m_last].station == station) {
            return m_stations[m_last].runs;
        }
        return runsAnew(station);
    }
    [[nodiscard]] Runs& runsAnew(const std::string& station);
    [[nodiscard]] const Runs* find(const std::string& station) const;
    static void insert(Runs& runs, std::int64_t seq);

    std::vector<OfStation> m_stations;
    std::map<std::string, std::size_t, std::less<>> m_places;
    std::size_t m_last = 0;
};

// A reading that began behind a place and may have ended before the last record.
struct ReadPart {
    const RecordsSeen& seen;
    // Behind which it began; null for the first record. What came in after these heads lies there.
    const store::Place* after = nullptr;
    store::Heads earlier{};
    bool isToTheEnd = true;
    std::function<bool(const store::Place&)> isWanted{};  // where it is not: what it takes
};

// Where records stand that were looked for by their names: none ever moves.
using PlacesKnown = std::map<logbook::RecordName, store::Place>;

// Records up to the heads that such a reading ought to have been given and was not: not all, but
// one if there are any. Of a station of which it was given none the last is looked for. What is
// known to stand elsewhere is looked for once.
[[nodiscard]] Result<std::vector<logbook::RecordName>> lackingIn(const Surroundings& surroundings,
                                                                 const store::Logbook& logbook,
                                                                 const store::StationHeads& heads,
                                                                 const ReadPart& part,
                                                                 PlacesKnown& known);

// For a log that was read from its first record to its last: what its heads tell of and it was not
// given. A record that is not here is told as gone, as verify does; one that is here all the same
// as unread.
[[nodiscard]] Result<void> noteLacking(const Surroundings& surroundings,
                                       const store::Logbook& logbook, const RecordsSeen& seen,
                                       LogbookFacts& facts);

}  // namespace station
