// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Successive cheapest augmenting paths, each found by relaxing all pairings; see matching.h.
#include "rules/matching.h"

#include <algorithm>
#include <limits>
#include <optional>

namespace rules {
namespace {

class Matcher {
public:
    explicit Matcher(const Matching& matching)
        : m_matching(matching), m_ofItem(matching.items), m_ofPlace(matching.places) {}

    std::vector<Pairing> match() {
        while (augment()) {
        }
        std::vector<Pairing> chosen;
        for (const auto& pairing : m_ofPlace) {
            if (pairing) chosen.push_back(m_matching.possible[*pairing]);
        }
        return chosen;
    }

private:
    static constexpr std::int64_t unreached = std::numeric_limits<std::int64_t>::max();

    // How a place is reached at the least cost: the last pairing of a path from a free item.
    struct Reached {
        std::vector<std::int64_t> costs;
        std::vector<std::size_t> by;
    };

    // The cost of reaching an item: nothing if it is free, else by giving up its place.
    std::int64_t costOf(const Reached& reached, std::size_t item) const {
        if (!m_ofItem[item]) return 0;
        const Pairing& held = m_matching.possible[*m_ofItem[item]];
        const std::int64_t cost = reached.costs[held.place];
        return cost == unreached ? unreached : cost - held.cost;
    }

    Reached reach() const {
        Reached reached{std::vector(m_matching.places, unreached),
                        std::vector<std::size_t>(m_matching.places)};
        for (bool changed = true; changed;) {
            changed = false;
            for (std::size_t index = 0; index < m_matching.possible.size(); ++index) {
                const Pairing& pairing = m_matching.possible[index];
                if (m_ofItem[pairing.item] == index) continue;
                const std::int64_t cost = costOf(reached, pairing.item);
                if (cost == unreached || cost + pairing.cost >= reached.costs[pairing.place])
                    continue;
                reached.costs[pairing.place] = cost + pairing.cost;
                reached.by[pairing.place] = index;
                changed = true;
            }
        }
        return reached;
    }

    bool augment() {
        const Reached reached = reach();
        std::optional<std::size_t> place;
        for (std::size_t each = 0; each < m_matching.places; ++each) {
            if (m_ofPlace[each] || reached.costs[each] == unreached) continue;
            if (!place || reached.costs[each] < reached.costs[*place]) place = each;
        }
        if (!place) return false;
        for (std::size_t next = *place;;) {
            const std::size_t index = reached.by[next];
            const std::size_t item = m_matching.possible[index].item;
            const auto given = m_ofItem[item];
            m_ofItem[item] = m_ofPlace[next] = index;
            if (!given) return true;
            next = m_matching.possible[*given].place;
        }
    }

    const Matching& m_matching;
    std::vector<std::optional<std::size_t>> m_ofItem, m_ofPlace;  // the pairing each is in
};

}  // namespace

std::vector<Pairing> cheapestMatching(const Matching& matching) {
    return Matcher(matching).match();
}

}  // namespace rules
