// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Small changes to a list of pieces, by which the search goes from one schedule to the next. What
// is random comes from a fixed seed. For crew_search.cpp only.
#pragma once

#include "rules/crew_work.h"

#include <random>
#include <vector>

namespace rules {

// The pieces of one unit, and before which of the others each comes; places never fall.
struct Unmerged {
    Order own, others;
    std::vector<std::size_t> places;
};

class CrewMoves {
public:
    CrewMoves(const CrewWork& work, std::size_t wanted);

    // How a unit's pieces are put into a list that it was not in; for those that are alike too.
    void setOrder(std::size_t unit, const Order& order);
    [[nodiscard]] const Order& orderOf(std::size_t unit) const { return m_orders[unit]; }

    // At random; each piece still comes after what it needs.
    [[nodiscard]] Order changed(const Order& order);

    // A piece put next to the one of its unit that comes before or after it.
    [[nodiscard]] Order gathered(Order order);

    [[nodiscard]] Unmerged takenApart(const Order& order, std::size_t unit) const;
    [[nodiscard]] static Order merged(const Unmerged& parts);

private:
    // The same on every computer, unlike the distributions of the library.
    class Dice {
    public:
        std::size_t below(std::size_t count) {
            return static_cast<std::size_t>(m_engine() % count);
        }

    private:
        std::mt19937_64 m_engine{20'260'302};
    };

    Order withPieceMoved(Order order);
    Order withUnitMoved(const Order& order);
    Order withOtherUnit(const Order& order);

    const CrewWork& m_work;
    std::size_t m_wanted;
    std::vector<Order> m_orders;
    Dice m_dice;
};

}  // namespace rules
