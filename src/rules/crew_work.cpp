// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Jobs of units as pieces of work; see crew_work.h.
#include "rules/crew_work.h"

#include <algorithm>
#include <numeric>

namespace rules {
namespace {

// Steps of the search for the order of a unit that has more jobs than are proved.
constexpr std::uint64_t stepsAlone = 20'000;

}  // namespace

CrewWork::CrewWork(const std::vector<Sequencing>& units, Instant from)
    : m_sequencings(units), m_from(from.ms) {
    for (const Sequencing& sequencing : units) addUnit(sequencing);
    for (std::size_t unit = 0; unit < m_units.size(); ++unit) {
        std::size_t alike = 0;
        while (!areAlike(m_units[alike], m_units[unit])) ++alike;
        m_units[unit].alike = alike;
    }
}

void CrewWork::addUnit(const Sequencing& sequencing) {
    Unit unit;
    unit.first = static_cast<PieceId>(m_pieces.size());
    unit.count = sequencing.jobs.size();
    const bool groupFirst = sequencing.jobs.front().task.kind == TaskKind::Group;
    for (std::size_t index = 0; index < sequencing.jobs.size(); ++index) {
        const Job& job = sequencing.jobs[index];
        Piece piece;
        piece.unit = m_units.size();
        piece.job = index;
        piece.takes = job.takes.ms;
        piece.attended = job.attended.ms;
        piece.release = job.release ? std::max(job.release->ms, m_from) : m_from;
        piece.alone = job.alone;
        piece.handsOff = job.meansHandsOff;
        if (groupFirst && index > 0) piece.needs.push_back(unit.first);
        for (const std::size_t before : job.predecessors) {
            piece.needs.push_back(unit.first + static_cast<PieceId>(before));
        }
        for (const Lag& lag : job.lags) {
            piece.waits.emplace_back(unit.first + static_cast<PieceId>(lag.task), lag.wait.ms);
        }
        std::sort(piece.needs.begin(), piece.needs.end());
        std::sort(piece.waits.begin(), piece.waits.end());
        unit.attended += piece.attended;
        if (piece.alone) unit.checks += piece.takes;
        for (const Ms span : {piece.takes, piece.attended, piece.release - m_from}) {
            m_granule = std::gcd(m_granule, span);
        }
        for (const auto& [before, wait] : piece.waits) m_granule = std::gcd(m_granule, wait);
        m_pieces.push_back(std::move(piece));
    }
    findHeadsAndTails(unit);
    m_units.push_back(unit);
}

void CrewWork::findHeadsAndTails(const Unit& unit) {
    const auto last = unit.first + static_cast<PieceId>(unit.count);
    const auto needs = [this](PieceId piece, PieceId before) {
        const auto& all = m_pieces[piece].needs;
        return std::find(all.begin(), all.end(), before) != all.end();
    };
    // As often as chains are long; most are short.
    for (bool changed = true; changed;) {
        changed = false;
        const auto raise = [&changed](Ms& value, Ms to) {
            if (value >= to) return;
            value = to;
            changed = true;
        };
        for (PieceId id = unit.first; id < last; ++id) {
            Piece& piece = m_pieces[id];
            raise(piece.head, piece.release);
            const auto follow = [&](PieceId before, Ms wait) {
                Piece& other = m_pieces[before];
                raise(piece.head, other.head + other.takes + wait);
                raise(other.tail, wait + piece.takes + piece.tail);
            };
            for (const PieceId before : piece.needs) follow(before, 0);
            for (const auto& [before, wait] : piece.waits) {
                if (needs(id, before)) {
                    follow(before, wait);
                } else {
                    m_pieces[before].makesWait = true;
                }
            }
        }
    }
}

bool CrewWork::areAlike(const Unit& a, const Unit& b) const {
    if (a.count != b.count) return false;
    for (std::size_t index = 0; index < a.count; ++index) {
        const Piece& one = m_pieces[a.first + index];
        const Piece& other = m_pieces[b.first + index];
        const bool same = one.takes == other.takes && one.attended == other.attended &&
                          one.release == other.release && one.alone == other.alone &&
                          one.handsOff == other.handsOff && one.head == other.head &&
                          one.tail == other.tail;
        const auto sameNeed = [&](PieceId x, PieceId y) { return x - a.first == y - b.first; };
        const auto sameWait = [&](const auto& x, const auto& y) {
            return sameNeed(x.first, y.first) && x.second == y.second;
        };
        if (!same ||
            !std::equal(one.needs.begin(), one.needs.end(), other.needs.begin(), other.needs.end(),
                        sameNeed) ||
            !std::equal(one.waits.begin(), one.waits.end(), other.waits.begin(), other.waits.end(),
                        sameWait)) {
            return false;
        }
    }
    return true;
}

Order CrewWork::inOrder(std::size_t unit) const {
    Order order;
    std::vector<bool> placed(count(unit));
    while (order.size() < placed.size()) {
        std::size_t best = placed.size();
        for (std::size_t index = 0; index < placed.size(); ++index) {
            const Piece& piece = m_pieces[first(unit) + index];
            const bool can = !placed[index] &&
                             std::all_of(piece.needs.begin(), piece.needs.end(),
                                         [&](PieceId need) { return placed[need - first(unit)]; });
            if (!can) continue;
            const auto rank = [&](std::size_t each) {
                const Piece& other = m_pieces[first(unit) + each];
                return std::pair(other.head, -other.personTail());
            };
            if (best == placed.size() || rank(index) < rank(best)) best = index;
        }
        placed[best] = true;
        order.push_back(first(unit) + static_cast<PieceId>(best));
    }
    return order;
}

CrewWork::Alone CrewWork::alone(std::size_t unit) const {
    const Sequencing& sequencing = m_sequencings[unit];
    const Sequence sequence = bestSequence(sequencing, stepsAlone);
    Alone alone;
    alone.bound = sequence.bound.ms;
    for (const Task& task : sequence.tasks) {
        const auto job =
            std::find_if(sequencing.jobs.begin(), sequencing.jobs.end(), [&task](const Job& each) {
                return each.task.kind == task.kind && each.task.subject == task.subject;
            });
        alone.order.push_back(first(unit) + static_cast<PieceId>(job - sequencing.jobs.begin()));
    }
    return alone;
}

}  // namespace rules
