// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What no schedule betters: chains of pieces, pieces that share a unit, and all that people have to
// do between the earliest beginning and the least that follows; see crew_schedule.h.
#include "rules/crew_schedule.h"

#include <algorithm>
#include <numeric>

namespace rules {
namespace {

Ms shared(Ms work, std::size_t people) {
    const Ms among = static_cast<Ms>(people);
    return (work + among - 1) / among;
}

// Pieces of a unit, none of which begins before `head`, or is followed by less than a tail.
struct Window {
    Ms checks = 0;  // one after another
    Ms hands = 0;   // beside no check
    Ms longestHand = 0;
    Ms attended = 0;
};

class UnitBound {
public:
    UnitBound(const CrewWork& work, std::size_t people, std::size_t unit)
        : m_work(work), m_people(people), m_unit(unit) {}

    Ms finish() const {
        Ms finish = m_work.from();
        for (PieceId id = 0; id < m_work.count(m_unit); ++id) {
            const Piece& piece = at(id);
            finish = std::max(finish, piece.head + piece.takes + piece.tail);
            for (PieceId other = 0; other < m_work.count(m_unit); ++other) {
                finish = std::max({finish, ofBench(piece.head, at(other).tail),
                                   ofPeople(piece.head, at(other).personTail())});
            }
        }
        return finish;
    }

private:
    const Piece& at(PieceId index) const { return m_work.pieces()[m_work.first(m_unit) + index]; }

    template <class Tail>
    Window window(Ms head, Ms tail, Tail tailOf) const {
        Window window;
        for (PieceId id = 0; id < m_work.count(m_unit); ++id) {
            const Piece& piece = at(id);
            if (piece.head < head || tailOf(piece) < tail) continue;
            window.attended += piece.attended;
            if (piece.alone) window.checks += piece.takes;
            if (!piece.handsOff) continue;
            window.hands += piece.takes;
            window.longestHand = std::max(window.longestHand, piece.takes);
        }
        return window;
    }

    Ms ofBench(Ms head, Ms tail) const {
        const Window all = window(head, tail, [](const Piece& piece) { return piece.tail; });
        const Ms hands = std::max(all.longestHand, shared(all.hands, m_people));
        if (all.checks == 0) return m_work.from();
        return m_work.from() + m_work.rounded(head - m_work.from() + all.checks + hands + tail);
    }

    Ms ofPeople(Ms head, Ms tail) const {
        const Window all =
            window(head, tail, [](const Piece& piece) { return piece.personTail(); });
        if (all.attended == 0) return m_work.from();
        const Ms after = head - m_work.from() + shared(all.attended, m_people) + tail;
        return m_work.from() + m_work.rounded(after);
    }

    const CrewWork& m_work;
    std::size_t m_people;
    std::size_t m_unit;
};

Ms leastPersonTail(const CrewWork& work, std::size_t unit) {
    Ms least = std::numeric_limits<Ms>::max();
    for (PieceId id = 0; id < work.count(unit); ++id) {
        least = std::min(least, work.pieces()[work.first(unit) + id].personTail());
    }
    return least;
}

}  // namespace

Ms finishBound(const CrewWork& work, std::size_t people, std::size_t unit) {
    return UnitBound(work, people, unit).finish();
}

// If all are ready by an instant, they are among the units that can be ready by then, and their
// work is no less than that of as many units with the least.
Ms finishBound(const CrewWork& work, std::size_t people, std::size_t wanted,
               const std::vector<Ms>& floors) {
    std::vector<std::size_t> units(work.unitCount());
    std::iota(units.begin(), units.end(), std::size_t{0});
    std::stable_sort(units.begin(), units.end(),
                     [&](std::size_t a, std::size_t b) { return floors[a] < floors[b]; });
    std::vector<Ms> attended;  // sorted
    Ms tail = std::numeric_limits<Ms>::max();
    Ms best = std::numeric_limits<Ms>::max();
    for (const std::size_t unit : units) {
        const Ms own = work.attended(unit);
        attended.insert(std::upper_bound(attended.begin(), attended.end(), own), own);
        tail = std::min(tail, leastPersonTail(work, unit));
        if (attended.size() < wanted) continue;
        const auto last = attended.begin() + static_cast<std::ptrdiff_t>(wanted);
        const Ms all = std::accumulate(attended.begin(), last, Ms{0});
        const Ms after = all == 0 ? 0 : work.rounded(shared(all, people) + tail);
        best = std::min(best, std::max(floors[unit], work.from() + after));
    }
    return best;
}

}  // namespace rules
