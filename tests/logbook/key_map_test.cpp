// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The map by text against std::map, whatever is done to both.
#include "logbook/key_map.h"

#include "support/seed.h"

#include <catch2/catch.hpp>

#include <map>
#include <random>

using logbook::KeyMap;

namespace {

using Entries = std::vector<std::pair<std::string, int>>;

template <class Map>
Entries entriesOf(const Map& map) {
    return Entries(map.begin(), map.end());
}

}  // namespace

TEST_CASE("A key map holds what a map would", "[property]") {
    const auto seed = support::seedOfRun();
    CAPTURE(seed);
    std::mt19937 random(seed);
    const auto below = [&](unsigned limit) { return static_cast<int>(random() % limit); };
    KeyMap<int> map;
    std::map<std::string, int, std::less<>> model;
    for (int step = 0; step < 20000; ++step) {
        // Lengths on both sides of what a string holds in itself.
        const std::string key = std::string(below(2) ? 1 : 20, 'k') + std::to_string(below(30));
        const int value = below(1000);
        switch (below(6)) {
            case 0: map[key] = value; model[key] = value; break;
            case 1:
                CHECK(map.try_emplace(key, value).second == model.try_emplace(key, value).second);
                break;
            case 2:
                CHECK(map.insert_or_assign(key, value).second ==
                      model.insert_or_assign(key, value).second);
                break;
            case 3: CHECK(map.erase(key) == model.erase(key)); break;
            case 4:
                if (below(100) == 0) {
                    CHECK(erase_if(map, [](const auto& each) { return each.second % 2 == 0; }) ==
                          std::erase_if(model,
                                        [](const auto& each) { return each.second % 2 == 0; }));
                }
                break;
            default:
                CHECK(map.contains(key) == model.contains(key));
                CHECK((map.find(key) == map.end()) == (model.find(key) == model.end()));
        }
        if (model.contains(key)) CHECK(map.at(key) == model.at(key));
        REQUIRE(map.size() == model.size());
    }
    CHECK(entriesOf(map) == entriesOf(model));
}

TEST_CASE("A key map sorts what it is given and keeps the first of twins", "[unit]") {
    const KeyMap<int> map{{"b", 2}, {"a", 1}, {"b", 3}};
    CHECK(entriesOf(map) == Entries{{"a", 1}, {"b", 2}});
    CHECK(map == KeyMap<int>{{"a", 1}, {"b", 2}});
    CHECK_FALSE(map == KeyMap<int>{{"a", 1}});
    CHECK_THROWS_AS(map.at("c"), std::out_of_range);
}
