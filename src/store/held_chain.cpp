// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Runs of records that grow together; see held_chain.h.
#include "store/held_chain.h"

#include <iterator>
#include <utility>

namespace store {

using Reason = Break::Reason;

HeldChain::Chain& HeldChain::chainOf(const std::string& station) {
    if (m_last < m_chains.size() && m_chains[m_last].station == station) {
        return m_chains[m_last];
    }
    m_last = m_places.try_emplace(station, m_chains.size()).first->second;
    if (m_last == m_chains.size()) {
        m_chains.push_back({station});
    }
    return m_chains[m_last];
}

void HeldChain::note(Chain& chain, std::int64_t seq, Reason reason) {
    if (!chain.broken || seq < chain.broken->record.seq) {
        chain.broken = Break{{chain.station, seq}, reason};
    }
}

void HeldChain::expect(const logbook::RecordName& name, const std::string& content) {
    m_readAhead.insert_or_assign(name, sha256(content));
}

void HeldChain::expectHeads(const Heads& heads) {
    for (const auto& [station, head] : heads) {
        chainOf(station).through.insert_or_assign(head.seq, head.hash);
    }
}

void HeldChain::hold(const ReadRecord& read) {
    using logbook::Kind;
    const auto& name = read.place.name;
    auto& chain = chainOf(name.station);
    if (!m_first) {
        m_first = read.place;
    }
    if (!read.whole || name.seq < 1) {
        note(chain, name.seq, Reason::NotARecord);
        return;
    }
    const auto& content = read.record.content;
    link(chain, name.seq, content, read.hash);
    if (!chain.through.empty()) {
        const auto wanted = chain.through.find(name.seq);
        if (wanted != chain.through.end() && wanted->second != read.hash) {
            note(chain, name.seq, Reason::NotAsNoted);
        }
    }
    const auto kind = read.record.kind();
    if (kind == Kind::Adopt || kind == Kind::Person || kind == Kind::Strike) {
        const auto before = m_readAhead.find(name);
        if (before != m_readAhead.end() && before->second != sha256(content)) {
            note(chain, name.seq, Reason::WrongHash);
        }
    }
}

void HeldChain::link(Chain& chain, std::int64_t seq, const std::string& content,
                     const Hash& hash) {
    auto& runs = chain.runs;
    const auto next = runs.upper_bound(seq);
    auto run = next == runs.begin() ? runs.end() : std::prev(next);
    if (run != runs.end() && run->second.last >= seq) {
        note(chain, seq, Reason::WrongHash);  // two of one name: at most one of them fits
        return;
    }
    const bool goesOn = run != runs.end() && run->second.last == seq - 1;
    if ((goesOn || seq == 1) &&
        chainHash(goesOn ? run->second.end : Hash{}, content) != hash) {
        note(chain, seq, Reason::WrongHash);
    }
    if (goesOn) {
        run->second.last = seq;
        run->second.end = hash;
    } else {
        const auto kept = seq == 1 ? std::string() : content;
        run = runs.emplace_hint(next, seq, Run{seq, hash, kept, hash});
    }
    if (next != runs.end() && next->first - 1 == seq) {
        if (chainHash(hash, next->second.firstContent) != next->second.firstHash) {
            note(chain, next->first, Reason::WrongHash);
        }
        run->second.last = next->second.last;
        run->second.end = next->second.end;
        runs.erase(next);
    }
}

std::optional<Break> HeldChain::breakIn(const Chain& chain, const Head& head) {
    auto found = chain.broken;
    const auto isEarlier = [&](std::int64_t seq) { return !found || seq < found->record.seq; };
    const auto add = [&](std::int64_t seq, Reason reason) {
        if (isEarlier(seq)) {
            found = Break{{chain.station, seq}, reason};
        }
    };
    const bool hasFirst = !chain.runs.empty() && chain.runs.begin()->first == 1;
    const auto reached = hasFirst ? chain.runs.begin()->second.last : 0;
    if (chain.runs.size() > (hasFirst ? 1U : 0U)) {
        add(reached + 1, Reason::Gap);
    } else if (reached < head.seq) {
        add(reached + 1, Reason::TailLost);
    } else if (reached > head.seq) {
        add(head.seq + 1, Reason::NotNoted);
    } else if (hasFirst && chain.runs.begin()->second.end != head.hash) {
        add(head.seq, Reason::NotAsNoted);
    }
    // A head that had to be passed and is beyond the last record.
    if (!chain.through.empty() && reached < chain.through.rbegin()->first) {
        add(reached + 1, Reason::TailLost);
    }
    return found;
}

std::vector<Break> HeldChain::breaksUpTo(const Heads& heads) const {
    std::vector<Break> breaks;
    const auto add = [&](const std::optional<Break>& found) {
        if (found) {
            breaks.push_back(*found);
        }
    };
    for (const auto& [station, place] : m_places) {
        const auto head = heads.find(station);
        add(breakIn(m_chains[place], head == heads.end() ? Head{} : head->second));
    }
    for (const auto& [station, head] : heads) {
        if (!m_places.contains(station)) {
            add(breakIn(Chain{station}, head));
        }
    }
    return breaks;
}

}  // namespace store
