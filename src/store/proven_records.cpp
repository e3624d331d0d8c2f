// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Holding records against their seals in reading; see proven_records.h.
#include "store/proven_records.h"

#include "store/connection.h"

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <utility>

namespace store {

namespace {

using Reason = Break::Reason;

constexpr std::size_t unreadable = static_cast<std::size_t>(-1);

struct Link {
    std::size_t record = unreadable;  // where it stands among the records
    Hash hash{};
};
using Chain = std::map<std::int64_t, Link>;  // by number
using Chains = std::map<std::string, Chain, std::less<>>;

struct Read {
    std::vector<logbook::Record> records;
    Chains chains;
};

// What was noted, and the last record of just that log.
struct Moment {
    StationHeads noted;
    std::optional<Verification> verification;
    std::int64_t arrival = 0;
};

tl::expected<Moment, Trouble> notedAtOnce(const Logbook& logbook) {
    for (;;) {  // until nobody writes in the moment that it takes
        const auto arrival = logbook.lastArrival();
        auto noted = logbook.heads();
        auto verification = logbook.lastVerification();
        const auto now = logbook.lastArrival();
        for (const auto* each : {&arrival, &now}) {
            if (!*each) {
                return tl::unexpected<Trouble>(each->error());
            }
        }
        if (!noted) {
            return tl::unexpected<Trouble>(noted.error());
        }
        if (!verification) {
            return tl::unexpected<Trouble>(verification.error());
        }
        if (*arrival == *now) {
            return Moment{*std::move(noted), *std::move(verification), *arrival};
        }
    }
}

tl::expected<Read, Trouble> readLinks(const Logbook& logbook, std::int64_t arrival) {
    Read read;
    const auto done = logbook.forEachRow({.arrivedUpTo = arrival}, [&](const Row& row) {
        Link link{unreadable, row.hash};
        if (auto record = recordOf(row)) {
            link.record = read.records.size();
            read.records.push_back(*std::move(record));
        }
        read.chains[row.place.name.station].emplace(row.place.name.seq, link);
        return true;
    });
    if (!done) {
        return tl::unexpected<Trouble>(done.error());
    }
    return read;
}

// The first link that does not fit.
std::optional<Break> breakIn(const std::string& station, const Chain& chain,
                             const std::vector<logbook::Record>& records) {
    Head head;
    for (const auto& [seq, link] : chain) {
        const logbook::RecordName name{station, head.seq + 1};
        if (seq != name.seq) {
            return Break{name, Reason::Gap};
        }
        if (link.record == unreadable) {
            return Break{name, Reason::NotARecord};
        }
        head = {seq, chainHash(head.hash, records[link.record].content)};
        if (head.hash != link.hash) {
            return Break{name, Reason::WrongHash};
        }
    }
    return std::nullopt;
}

// That a noted head is not there, or is another.
std::optional<Break> breakAgainst(const std::string& station, const Head& noted,
                                  const Chain& chain) {
    const auto found = chain.find(noted.seq);
    if (found == chain.end()) {
        const auto last = chain.empty() ? 0 : chain.rbegin()->first;
        return Break{{station, std::min(last, noted.seq - 1) + 1}, Reason::TailLost};
    }
    if (found->second.hash != noted.hash) {
        return Break{{station, noted.seq}, Reason::NotAsNoted};
    }
    return std::nullopt;
}

// That there is one behind the head that was noted with the last of them, and that no verify has
// found whole.
std::optional<Break> breakBeyond(const std::string& station, const Moment& moment,
                                 const Chain& chain) {
    const auto noted = moment.noted.find(station);
    auto last = noted == moment.noted.end() ? 0 : noted->second.head.seq;
    if (moment.verification && moment.verification->ok) {
        const auto verified = moment.verification->heads.find(station);
        last = verified == moment.verification->heads.end() ? last
                                                            : std::max(last, verified->second.seq);
    }
    if (chain.empty() || chain.rbegin()->first <= last) {
        return std::nullopt;
    }
    return Break{{station, last + 1}, Reason::NotNoted};
}

class Breaks {
public:
    void add(const std::optional<Break>& found) {
        if (!found) {
            return;
        }
        const auto [place, isNew] = m_first.try_emplace(found->record.station, *found);
        if (!isNew && found->record.seq < place->second.record.seq) {
            place->second = *found;
        }
    }

    [[nodiscard]] bool leavesOut(const logbook::RecordName& name) const {
        const auto found = m_first.find(name.station);
        return found != m_first.end() && name.seq >= found->second.record.seq;
    }

    [[nodiscard]] std::vector<Break> all() const {
        std::vector<Break> all;
        for (const auto& [station, first] : m_first) {
            all.push_back(first);
        }
        return all;
    }

private:
    std::map<std::string, Break> m_first;  // by station
};

}  // namespace

tl::expected<ProvenRecords, Trouble> provenRecords(const Logbook& logbook) {
    const auto moment = notedAtOnce(logbook);
    if (!moment) {
        return tl::unexpected<Trouble>(moment.error());
    }
    auto read = readLinks(logbook, moment->arrival);
    if (!read) {
        return tl::unexpected<Trouble>(read.error());
    }
    const auto& [noted, verification, arrival] = *moment;
    Breaks breaks;
    for (const auto& [station, chain] : read->chains) {
        breaks.add(breakIn(station, chain, read->records));
        breaks.add(breakBeyond(station, *moment, chain));
    }
    auto heads = {headsOf(noted), verification ? verification->heads : Heads{}};
    for (const auto& each : heads) {
        for (const auto& [station, head] : each) {
            breaks.add(breakAgainst(station, head, read->chains[station]));
        }
    }
    if (verification && !verification->ok) {
        for (const auto& found : verification->breaks) {
            breaks.add(found);
        }
    }
    std::erase_if(read->records, [&](const logbook::Record& record) {
        return breaks.leavesOut(record.name);
    });
    return ProvenRecords{std::move(read->records), breaks.all()};
}

}  // namespace store
