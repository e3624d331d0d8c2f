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

tl::expected<Read, Trouble> readLinks(const Logbook& logbook) {
    Read read;
    const auto done = logbook.forEachRow({}, [&](const Row& row) {
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
    // Before the records: what comes in meanwhile is no break.
    const auto noted = logbook.heads();
    if (!noted) {
        return tl::unexpected<Trouble>(noted.error());
    }
    const auto verification = logbook.lastVerification();
    if (!verification) {
        return tl::unexpected<Trouble>(verification.error());
    }
    auto read = readLinks(logbook);
    if (!read) {
        return tl::unexpected<Trouble>(read.error());
    }
    Breaks breaks;
    for (const auto& [station, chain] : read->chains) {
        breaks.add(breakIn(station, chain, read->records));
    }
    auto heads = {headsOf(*noted), *verification ? (*verification)->heads : Heads{}};
    for (const auto& each : heads) {
        for (const auto& [station, head] : each) {
            breaks.add(breakAgainst(station, head, read->chains[station]));
        }
    }
    if (*verification && !(*verification)->ok) {
        for (const auto& found : (*verification)->breaks) {
            breaks.add(found);
        }
    }
    std::erase_if(read->records, [&](const logbook::Record& record) {
        return breaks.leavesOut(record.name);
    });
    return ProvenRecords{std::move(read->records), breaks.all()};
}

}  // namespace store
