// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One piece or one unit put elsewhere, or one unit for another; see crew_moves.h.
#include "rules/crew_moves.h"

#include <algorithm>

namespace rules {

CrewMoves::CrewMoves(const CrewWork& work, std::size_t wanted) : m_work(work), m_wanted(wanted) {
    for (std::size_t unit = 0; unit < work.unitCount(); ++unit) {
        m_orders.push_back(work.inOrder(unit));
    }
}

void CrewMoves::setOrder(std::size_t unit, const Order& order) {
    for (std::size_t other = unit; other < m_work.unitCount(); ++other) {
        if (m_work.alike(other) != m_work.alike(unit)) continue;
        for (std::size_t place = 0; place < order.size(); ++place) {
            m_orders[other][place] = order[place] - m_work.first(unit) + m_work.first(other);
        }
    }
}

Order CrewMoves::changed(const Order& order) {
    const std::size_t choice = m_dice.below(10);
    if (choice < 2 && m_work.unitCount() > m_wanted) return withOtherUnit(order);
    if (choice < 5) return withUnitMoved(order);
    return withPieceMoved(order);
}

Order CrewMoves::gathered(Order order) {
    const std::size_t place = m_dice.below(order.size());
    const std::size_t unit = m_work.pieces()[order[place]].unit;
    const auto isOfUnit = [&](PieceId piece) { return m_work.pieces()[piece].unit == unit; };
    const auto piece = order.begin() + static_cast<std::ptrdiff_t>(place);
    if (m_dice.below(2) == 0) {
        const auto after = std::find_if(piece + 1, order.end(), isOfUnit);
        if (after != order.end()) std::rotate(piece, piece + 1, after);
    } else {
        const auto before = std::find_if(std::make_reverse_iterator(piece), order.rend(), isOfUnit);
        if (before != order.rend()) std::rotate(before.base(), piece, piece + 1);
    }
    return order;
}

// A piece somewhere else between what it needs and what needs it.
Order CrewMoves::withPieceMoved(Order order) {
    const std::size_t place = m_dice.below(order.size());
    const PieceId id = order[place];
    const auto needs = [this](PieceId piece, PieceId before) {
        const auto& all = m_work.pieces()[piece].needs;
        return std::find(all.begin(), all.end(), before) != all.end();
    };
    std::size_t low = place, high = place;
    while (low > 0 && !needs(id, order[low - 1])) --low;
    while (high + 1 < order.size() && !needs(order[high + 1], id)) ++high;
    const std::size_t to = low + m_dice.below(high - low + 1);
    order.erase(order.begin() + static_cast<std::ptrdiff_t>(place));
    order.insert(order.begin() + static_cast<std::ptrdiff_t>(to), id);
    return order;
}

// All pieces of a unit earlier or later by so many places.
Order CrewMoves::withUnitMoved(const Order& order) {
    const std::size_t unit = m_work.pieces()[order[m_dice.below(order.size())]].unit;
    Unmerged parts = takenApart(order, unit);
    auto& [own, others, places] = parts;
    if (m_dice.below(2) == 0) {
        // Closer together, or as far apart as they were, elsewhere.
        const std::size_t to = m_dice.below(others.size() + 1);
        const std::size_t first = places.front();
        const bool together = m_dice.below(2) == 0;
        for (std::size_t& place : places) {
            place = together ? to : std::min(others.size(), place - first + to);
        }
        return merged(parts);
    }
    const std::size_t most = std::max<std::size_t>(1, others.size() / 4);
    const std::size_t by = 1 + m_dice.below(most);
    const bool earlier = m_dice.below(2) == 0;
    for (std::size_t& place : places) {
        place = earlier ? place - std::min(place, by) : std::min(others.size(), place + by);
    }
    return merged(parts);
}

Unmerged CrewMoves::takenApart(const Order& order, std::size_t unit) const {
    Unmerged parts;
    for (const PieceId piece : order) {
        if (m_work.pieces()[piece].unit == unit) {
            parts.own.push_back(piece);
            parts.places.push_back(parts.others.size());
        } else {
            parts.others.push_back(piece);
        }
    }
    return parts;
}

Order CrewMoves::merged(const Unmerged& parts) {
    const auto& [own, others, places] = parts;
    Order order;
    std::size_t next = 0;
    for (std::size_t place = 0; place <= others.size(); ++place) {
        while (next < own.size() && places[next] == place) order.push_back(own[next++]);
        if (place < others.size()) order.push_back(others[place]);
    }
    return order;
}

// A unit that is not among those in place of one that is.
Order CrewMoves::withOtherUnit(const Order& order) {
    std::vector<bool> taken(m_work.unitCount());
    for (const PieceId piece : order) taken[m_work.pieces()[piece].unit] = true;
    const std::size_t out = m_work.pieces()[order[m_dice.below(order.size())]].unit;
    std::vector<std::size_t> others;
    for (std::size_t unit = 0; unit < taken.size(); ++unit) {
        if (!taken[unit] && m_work.alike(unit) != m_work.alike(out)) others.push_back(unit);
    }
    if (others.empty()) return order;
    Unmerged parts = takenApart(order, out);
    parts.own = orderOf(others[m_dice.below(others.size())]);
    parts.places.resize(parts.own.size(), parts.places.back());
    return merged(parts);
}

}  // namespace rules
