// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The cheapest matching against all there are, on random small graphs.
#include "rules/matching.h"
#include "support/random_log.h"

#include <catch2/catch.hpp>
#include <iostream>
#include <set>

namespace {

constexpr std::uint32_t firstSeed = 20261115;

// Pairings not chosen come first: more chosen is better, then cheaper.
struct Score {
    int left = 0;
    std::int64_t cost = 0;
    auto operator<=>(const Score&) const = default;
};

Score bestFrom(const rules::Matching& matching, std::size_t place, std::set<std::size_t> taken) {
    if (place == matching.places) return {};
    auto best = bestFrom(matching, place + 1, taken);
    ++best.left;
    for (const auto& pairing : matching.possible) {
        if (pairing.place != place || taken.contains(pairing.item)) continue;
        auto further = taken;
        further.insert(pairing.item);
        auto score = bestFrom(matching, place + 1, further);
        score.cost += pairing.cost;
        best = std::min(best, score);
    }
    return best;
}

}  // namespace

TEST_CASE("the matching is the largest, and of those the cheapest", "[exhaustive]") {
    std::cout << "matchings, seeds from " << firstSeed << std::endl;
    int incomplete = 0;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 1500; ++seed) {
        INFO("seed " << seed);
        support::Random random(seed);
        rules::Matching matching{static_cast<std::size_t>(1 + random.below(6)),
                                 static_cast<std::size_t>(1 + random.below(5)), {}};
        for (std::size_t item = 0; item < matching.items; ++item)
            for (std::size_t place = 0; place < matching.places; ++place)
                if (random.chance(55)) matching.possible.push_back({item, place, random.below(9)});
        Score found;
        std::set<std::size_t> items, places;
        for (const auto& pairing : rules::cheapestMatching(matching)) {
            CHECK(items.insert(pairing.item).second);
            CHECK(places.insert(pairing.place).second);
            found.cost += pairing.cost;
        }
        found.left = static_cast<int>(matching.places - places.size());
        const auto best = bestFrom(matching, 0, {});
        CHECK(found.left == best.left);
        CHECK(found.cost == best.cost);
        incomplete += best.left > 0;
    }
    CHECK(incomplete > 100);
}
