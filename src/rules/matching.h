// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Who fills which place, at the least cost: a matching in a bipartite graph. Knows nothing of what
// the items and places are.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace rules {

struct Pairing {
    std::size_t item = 0;
    std::size_t place = 0;
    std::int64_t cost = 0;  // not negative; the sum of all that are chosen fits
};

struct Matching {
    std::size_t items = 0, places = 0;
    std::vector<Pairing> possible;
};

// The pairings, each item and each place in one at most: as many as there can be, and of those the
// cheapest. Among equals always the same ones. In the order of the places. By augmenting along
// cheapest paths (Ahuja, Magnanti and Orlin, Network Flows, 1993, section 12.4).
[[nodiscard]] std::vector<Pairing> cheapestMatching(const Matching& matching);

}  // namespace rules
