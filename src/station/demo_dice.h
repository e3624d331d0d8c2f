// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Chance that can be repeated: the same seed gives the same numbers with every compiler and
// library, which the distributions of the standard library do not promise.
#pragma once

#include <cstddef>
#include <cstdint>
#include <random>
#include <vector>

namespace station::demo {

class Dice {
public:
    explicit Dice(std::uint64_t seed) : m_engine(seed) {}

    // 0 to count - 1, each as likely. Precondition: count > 0.
    [[nodiscard]] std::uint64_t below(std::uint64_t count) {
        const std::uint64_t rest = (UINT64_MAX % count + 1) % count;
        std::uint64_t drawn = m_engine();
        while (drawn > UINT64_MAX - rest) {
            drawn = m_engine();
        }
        return drawn % count;
    }

    // Both ends included. Precondition: low <= high.
    [[nodiscard]] std::int64_t between(std::int64_t low, std::int64_t high) {
        return low + static_cast<std::int64_t>(below(static_cast<std::uint64_t>(high - low) + 1));
    }

    [[nodiscard]] bool perMille(int chance) { return static_cast<int>(below(1000)) < chance; }

    // Precondition: not empty.
    template <class Item>
    [[nodiscard]] const Item& pick(const std::vector<Item>& items) {
        return items[static_cast<std::size_t>(below(items.size()))];
    }

private:
    std::mt19937_64 m_engine;
};

}  // namespace station::demo
