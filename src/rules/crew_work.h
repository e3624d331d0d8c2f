// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The work on several units as pieces that several people share: what comes before what, what
// shares a unit, what is still to follow. Anybody does any piece; units bear on each other only
// through the people. Knows no device and no state.
#pragma once

#include "rules/plan_order.h"

#include <cstdint>
#include <limits>
#include <utility>
#include <vector>

namespace rules {

using Ms = std::int64_t;        // instants and spans, in milliseconds
using PieceId = std::uint32_t;  // in CrewWork::pieces()
using Order = std::vector<PieceId>;

inline constexpr Ms notYet = std::numeric_limits<Ms>::min() / 4;

// One job of one unit.
struct Piece {
    std::size_t unit = 0;
    std::size_t job = 0;  // in its unit's Sequencing
    Ms takes = 0;
    Ms attended = 0;
    Ms release = 0;
    bool alone = false;          // a check: no other check, fit or remove of the unit meanwhile
    bool handsOff = false;       // a fit or remove: not while a check of the unit is under way
    std::vector<PieceId> needs;  // finished before
    std::vector<std::pair<PieceId, Ms>> waits;  // so long after their finish, if they come before
    Ms head = 0;                                // no schedule begins it earlier
    Ms tail = 0;             // the least time from its finish until its unit is ready
    bool makesWait = false;  // another waits for it only if it comes before

    [[nodiscard]] Ms claim() const { return alone ? takes : attended; }
    // The least time from when a person is free of it until its unit is ready.
    [[nodiscard]] Ms personTail() const { return takes - attended + tail; }
};

class CrewWork {
public:
    // Each unit is orderable and has at least one job. `units` outlive this.
    CrewWork(const std::vector<Sequencing>& units, Instant from);

    [[nodiscard]] Ms from() const { return m_from; }
    [[nodiscard]] std::size_t unitCount() const { return m_units.size(); }
    [[nodiscard]] const std::vector<Piece>& pieces() const { return m_pieces; }
    // Its pieces: from the first on, so many.
    [[nodiscard]] PieceId first(std::size_t unit) const { return m_units[unit].first; }
    [[nodiscard]] std::size_t count(std::size_t unit) const { return m_units[unit].count; }
    [[nodiscard]] Ms attended(std::size_t unit) const { return m_units[unit].attended; }
    // The time that its checks take together, which come one after another.
    [[nodiscard]] Ms checks(std::size_t unit) const { return m_units[unit].checks; }
    // The least span, no shorter than this one, that can lie between the instant asked and any
    // start or finish: all of these are multiples of what divides every time that is given.
    [[nodiscard]] Ms rounded(Ms span) const {
        return m_granule == 0 ? span : (span + m_granule - 1) / m_granule * m_granule;
    }
    // The first unit whose pieces are just the same, but for what they are called.
    [[nodiscard]] std::size_t alike(std::size_t unit) const { return m_units[unit].alike; }
    // Its pieces in an order that is allowed, those that can begin and have most to follow first.
    [[nodiscard]] Order inOrder(std::size_t unit) const;

    // As one person would do the unit and nothing else.
    struct Alone {
        Order order;
        Ms bound = 0;  // when the unit is ready then, at the earliest
    };
    [[nodiscard]] Alone alone(std::size_t unit) const;

private:
    struct Unit {
        PieceId first = 0;
        std::size_t count = 0;
        Ms attended = 0;
        Ms checks = 0;
        std::size_t alike = 0;
    };

    void addUnit(const Sequencing& sequencing);
    void findHeadsAndTails(const Unit& unit);
    bool areAlike(const Unit& a, const Unit& b) const;

    const std::vector<Sequencing>& m_sequencings;
    Ms m_from;
    Ms m_granule = 0;
    std::vector<Piece> m_pieces;
    std::vector<Unit> m_units;
};

}  // namespace rules
