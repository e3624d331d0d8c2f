// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Pieces begun one after another; see crew_progress.h.
#include "rules/crew_progress.h"

#include <algorithm>

namespace rules {
namespace {

constexpr std::size_t nowhere = std::numeric_limits<std::size_t>::max();

}  // namespace

CrewProgress::CrewProgress(const CrewWork& work, std::size_t people)
    : m_work(&work),
      m_free(people, work.from()),
      m_lastAt(people, nowhere),
      m_finishes(work.pieces().size(), notYet) {
    for (std::size_t unit = 0; unit < work.unitCount(); ++unit) {
        m_units.push_back(untouched(unit));
    }
}

CrewProgress::Unit CrewProgress::untouched(std::size_t index) const {
    Unit unit;
    unit.open = m_work->count(index);
    unit.attendedLeft = m_work->attended(index);
    unit.checksLeft = m_work->checks(index);
    return unit;
}

void CrewProgress::clear() {
    std::fill(m_free.begin(), m_free.end(), m_work->from());
    std::fill(m_lastAt.begin(), m_lastAt.end(), nowhere);
    m_changes = 0;
    for (const PieceId piece : m_begun) {
        m_finishes[piece] = notYet;
        const std::size_t unit = m_work->pieces()[piece].unit;
        m_units[unit] = untouched(unit);
    }
    m_begun.clear();
}

bool CrewProgress::canBegin(PieceId id) const {
    const auto& needs = m_work->pieces()[id].needs;
    return !hasBegun(id) &&
           std::all_of(needs.begin(), needs.end(), [this](PieceId need) { return hasBegun(need); });
}

Ms CrewProgress::earliest(PieceId id) const {
    const Piece& piece = m_work->pieces()[id];
    const Unit& unit = m_units[piece.unit];
    Ms start = std::max(m_free.front(), piece.release);
    if (piece.alone || piece.handsOff) start = std::max(start, unit.checkFree);
    if (piece.alone) start = std::max(start, unit.handsFree);
    for (const PieceId need : piece.needs) start = std::max(start, m_finishes[need]);
    for (const auto& [before, wait] : piece.waits) {
        start = std::max(start, m_finishes[before] + wait);
    }
    return start;
}

void CrewProgress::begin(PieceId id, Ms start) {
    const Piece& piece = m_work->pieces()[id];
    Unit& unit = m_units[piece.unit];
    const Ms finish = start + piece.takes;
    m_finishes[id] = finish;
    m_begun.push_back(id);
    --unit.open;
    unit.finish = std::max(unit.finish, finish);
    unit.attendedLeft -= piece.attended;
    if (piece.alone) {
        unit.checkFree = std::max(unit.checkFree, finish);
        unit.checksLeft -= piece.takes;
    }
    if (piece.handsOff) unit.handsFree = std::max(unit.handsFree, finish);
    std::size_t person = personFor(piece, start);
    if (piece.attended > 0) {
        const bool changed = m_lastAt[person] != piece.unit;
        if (changed && m_lastAt[person] != nowhere) ++m_changes;
        m_lastAt[person] = piece.unit;
    }
    const Ms free = start + piece.attended;
    for (; person + 1 < m_free.size() && m_free[person + 1] < free; ++person) {
        m_free[person] = m_free[person + 1];
        std::swap(m_lastAt[person], m_lastAt[person + 1]);
    }
    m_free[person] = free;
}

std::size_t CrewProgress::personFor(const Piece& piece, Ms start) const {
    std::size_t person = 0;
    for (std::size_t each = 0; each < m_free.size() && m_free[each] <= start; ++each) {
        if (m_lastAt[each] == piece.unit) return each;
        person = each;
    }
    return person;
}

Outcome CrewProgress::outcome() const {
    Outcome outcome;
    for (std::size_t unit = 0; unit < m_units.size(); ++unit) {
        if (m_units[unit].open > 0) continue;
        outcome.ready.push_back(m_units[unit].finish);
        outcome.attended += m_work->attended(unit);
    }
    std::sort(outcome.ready.begin(), outcome.ready.end());
    return outcome;
}

}  // namespace rules
