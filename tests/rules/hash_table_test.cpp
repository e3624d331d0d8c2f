// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Values found by a hash: many of them, with hashes that are alike or run into each other.
#include "rules/hash_table.h"

#include <catch2/catch.hpp>

#include <cstdint>

namespace {

// Of many numbers the same, of others next to each other at the end of any table.
std::size_t hashOf(int number) {
    return number % 3 == 0 ? SIZE_MAX : static_cast<std::size_t>(number % 7) * 0x9e3779b97f4a7c15U;
}

bool holds(rules::HashTable<int>& table, int number) {
    const auto* found = table.find(hashOf(number), [=](int value) { return value == number; });
    return found != nullptr && *found == number;
}

}  // namespace

TEST_CASE("what was put into a table is found in it, and nothing else", "[unit]") {
    constexpr int many = 300;
    rules::HashTable<int> table;
    for (int round = 0; round < 2; ++round) {
        CHECK_FALSE(holds(table, 0));
        for (int number = 0; number < many; ++number) {
            CHECK_FALSE(holds(table, number));
            table.add(hashOf(number), number);
            CHECK(holds(table, number));
        }
        for (int number = 0; number < many; ++number) CHECK(holds(table, number));
        CHECK_FALSE(holds(table, many));
        table.clear();
    }
}

TEST_CASE("a value that was found can be changed in its place", "[unit]") {
    rules::HashTable<int> table;
    table.add(0, 1);
    *table.find(0, [](int) { return true; }) = 2;
    CHECK(*table.find(0, [](int) { return true; }) == 2);
    CHECK(table.find(1, [](int) { return true; }) == nullptr);
}
