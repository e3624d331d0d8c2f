// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A schedule as far as it has been made: which pieces have begun, who is free from when. For
// crew_schedule.cpp and its neighbours only.
#pragma once

#include "rules/crew_schedule.h"

#include <vector>

namespace rules {

class CrewProgress {
public:
    CrewProgress(const CrewWork& work, std::size_t people);

    void clear();  // nothing has begun

    [[nodiscard]] bool hasBegun(PieceId piece) const { return m_finishes[piece] != notYet; }
    [[nodiscard]] bool canBegin(PieceId piece) const;
    // When everything it needs, its unit and somebody are free. What it needs has begun.
    [[nodiscard]] Ms earliest(PieceId piece) const;
    // By whoever was at the unit last, if they are free, or else by whoever has been free for the
    // shortest time: that leaves the most to others.
    void begin(PieceId piece, Ms start);
    // How often somebody went from one unit to another.
    [[nodiscard]] std::size_t changes() const { return m_changes; }

    // Of the units all of whose pieces have begun.
    [[nodiscard]] Outcome outcome() const;

    [[nodiscard]] const std::vector<Ms>& free() const { return m_free; }
    [[nodiscard]] std::size_t open(std::size_t unit) const { return m_units[unit].open; }
    [[nodiscard]] bool isTouched(std::size_t unit) const {
        return m_units[unit].open < m_work->count(unit);
    }
    [[nodiscard]] Ms finish(std::size_t unit) const { return m_units[unit].finish; }
    [[nodiscard]] Ms attendedLeft(std::size_t unit) const { return m_units[unit].attendedLeft; }
    [[nodiscard]] Ms checksLeft(std::size_t unit) const { return m_units[unit].checksLeft; }
    [[nodiscard]] Ms checkFree(std::size_t unit) const { return m_units[unit].checkFree; }

private:
    struct Unit {
        std::size_t open = 0;  // pieces that have not begun
        Ms finish = notYet;    // of those that have
        Ms checkFree = notYet;
        Ms handsFree = notYet;
        Ms attendedLeft = 0;
        Ms checksLeft = 0;
    };

    Unit untouched(std::size_t unit) const;
    std::size_t personFor(const Piece& piece, Ms start) const;

    const CrewWork* m_work;
    std::vector<Ms> m_free;             // ascending, one for each person
    std::vector<std::size_t> m_lastAt;  // the unit, by the same person
    std::size_t m_changes = 0;
    std::vector<Ms> m_finishes;
    std::vector<Unit> m_units;
    std::vector<PieceId> m_begun;
};

// As for insertSchedule(), with a `progress` to make it in, which is cleared first.
[[nodiscard]] CrewSchedule inserted(CrewProgress& progress, const Order& order);

}  // namespace rules
