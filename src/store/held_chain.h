// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Records of a log, given in whatever order it is read, each held against its stored hash and the
// chain of its station: for whoever makes something of a log that others will believe. Reads
// nothing itself. Of a record that comes before the one that it goes on from the content is kept
// until that comes.
#pragma once

#include "store/heads.h"
#include "store/row.h"
#include "store/verify_report.h"

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace store {

class HeldChain {
public:
    // Each once, as it was read with its content and its hash.
    void hold(const ReadRecord& read);

    // An edition, a person or a strike that was read ahead of the others: what is held later under
    // that name must say the same.
    void expect(const logbook::RecordName& name, const std::string& content);

    // The chain must go through these heads, too. To be said before any record is held.
    void expectHeads(const Heads& heads);

    // The place of the record that was held first.
    [[nodiscard]] const std::optional<Place>& first() const { return m_first; }

    // Of each station the first record that does not fit, where all up to these heads had to be
    // given, and no other. Empty: the chain of each was held from its beginning to its head.
    [[nodiscard]] std::vector<Break> breaksUpTo(const Heads& heads) const;

private:
    // Records with numbers in a row, of which each fits the one before it.
    struct Run {
        std::int64_t last = 0;
        Hash end{};
        std::string firstContent{};  // empty: it is the station's first record
        Hash firstHash{};
    };

    struct Chain {
        std::string station;
        std::map<std::int64_t, Run> runs{};  // by the number of the first
        std::map<std::int64_t, Hash> through{};
        std::optional<Break> broken{};  // of those found so far the lowest
    };

    // Mostly that of the record before.
    [[nodiscard]] Chain& chainOf(const std::string& station);
    [[nodiscard]] static std::optional<Break> breakIn(const Chain& chain, const Head& head);
    static void note(Chain& chain, std::int64_t seq, Break::Reason reason);
    static void link(Chain& chain, std::int64_t seq, const std::string& content, const Hash& hash);

    std::vector<Chain> m_chains;
    std::map<std::string, std::size_t, std::less<>> m_places;
    std::size_t m_last = 0;
    std::map<logbook::RecordName, Hash> m_readAhead;
    std::optional<Place> m_first;
};

}  // namespace store
