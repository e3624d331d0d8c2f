// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The search through all beginnings of schedules that could still be better than the best one
// known. Pieces are begun in order of their starts: every schedule can be made so without delaying
// anything. A unit that was begun is also completed. See crew_schedule.h.
#include "rules/crew_progress.h"

#include <algorithm>
#include <numeric>

namespace rules {
namespace {

struct Beginning {
    PieceId piece;
    Ms start;
};

class Proof {
public:
    Proof(const CrewWork& work, CrewSchedule& best, const std::vector<Ms>& floors,
          std::uint64_t nodes)
        : m_work(work),
          m_best(best),
          m_floors(floors),
          m_nodes(nodes),
          m_wanted(best.outcome.ready.size()) {
        m_tail = std::numeric_limits<Ms>::max();
        for (const Piece& piece : work.pieces()) m_tail = std::min(m_tail, piece.personTail());
    }

    bool run(std::size_t people) {
        follow(CrewProgress(m_work, people), m_work.from());
        return m_nodes > 0;
    }

private:
    // What is still to come, from `last` on; no less in any respect than `outcome` tells.
    struct Outlook {
        Outcome outcome;
        std::size_t begun = 0;  // units
    };

    void follow(const CrewProgress& progress, Ms last) {
        if (m_nodes == 0 || --m_nodes == 0) return;
        const Outlook outlook = outlookOf(progress, last);
        if (outlook.outcome >= m_best.outcome) return;
        if (outlook.begun == m_wanted && isComplete(progress)) {
            m_best = {m_order, m_starts, progress.outcome(), progress.changes()};
            return;
        }
        for (const Beginning& next : beginnings(progress, last, outlook.begun)) {
            CrewProgress later = progress;
            later.begin(next.piece, next.start);
            m_order.push_back(next.piece);
            m_starts.push_back(next.start);
            follow(later, next.start);
            m_order.pop_back();
            m_starts.pop_back();
        }
    }

    bool isComplete(const CrewProgress& progress) const {
        for (std::size_t unit = 0; unit < m_work.unitCount(); ++unit) {
            if (progress.isTouched(unit) && progress.open(unit) > 0) return false;
        }
        return true;
    }

    // Of units that are alike those that come first are taken first.
    bool mayTouch(const CrewProgress& progress, std::size_t unit) const {
        if (progress.isTouched(unit)) return true;
        for (std::size_t other = m_work.alike(unit); other < unit; ++other) {
            const bool same = m_work.alike(other) == m_work.alike(unit);
            if (same && !progress.isTouched(other)) return false;
        }
        return true;
    }

    std::vector<Beginning> beginnings(const CrewProgress& progress, Ms last,
                                      std::size_t begun) const {
        std::vector<Beginning> all;
        for (std::size_t unit = 0; unit < m_work.unitCount(); ++unit) {
            const bool touched = progress.isTouched(unit);
            if (progress.open(unit) == 0 || (!touched && begun == m_wanted)) continue;
            if (!mayTouch(progress, unit)) continue;
            const PieceId end = m_work.first(unit) + static_cast<PieceId>(m_work.count(unit));
            for (PieceId piece = m_work.first(unit); piece < end; ++piece) {
                if (!progress.canBegin(piece)) continue;
                all.push_back({piece, std::max(last, progress.earliest(piece))});
            }
        }
        std::stable_sort(all.begin(), all.end(), [this](const Beginning& a, const Beginning& b) {
            if (a.start != b.start) return a.start < b.start;
            return m_work.pieces()[a.piece].personTail() > m_work.pieces()[b.piece].personTail();
        });
        return kept(progress, all);
    }

    // Left out are those before which a piece of a unit that was begun can be done without delaying
    // anything.
    std::vector<Beginning> kept(const CrewProgress& progress,
                                const std::vector<Beginning>& all) const {
        std::vector<Beginning> kept;
        for (const Beginning& then : all) {
            const bool canWait = std::any_of(kept.begin(), kept.end(), [&](const Beginning& first) {
                const Piece& piece = m_work.pieces()[first.piece];
                return progress.isTouched(piece.unit) && !piece.makesWait &&
                       first.start + piece.claim() <= then.start;
            });
            if (!canWait) kept.push_back(then);
        }
        return kept;
    }

    Ms finishOf(const CrewProgress& progress, std::size_t unit, Ms last) const {
        Ms finish = progress.finish(unit);
        if (progress.open(unit) == 0) return finish;
        const Ms checks = progress.checksLeft(unit);
        if (checks > 0) {
            finish = std::max(finish, std::max(last, progress.checkFree(unit)) + checks);
        }
        const PieceId end = m_work.first(unit) + static_cast<PieceId>(m_work.count(unit));
        for (PieceId id = m_work.first(unit); id < end; ++id) {
            if (!progress.canBegin(id)) continue;
            const Piece& piece = m_work.pieces()[id];
            const Ms start = std::max(last, progress.earliest(id));
            finish = std::max(finish, start + piece.takes + piece.tail);
        }
        return finish;
    }

    Outlook outlookOf(const CrewProgress& progress, Ms last) const {
        Outlook outlook;
        auto& ready = outlook.outcome.ready;
        Ms left = 0;
        std::vector<Ms> others, work;
        for (std::size_t unit = 0; unit < m_work.unitCount(); ++unit) {
            if (!progress.isTouched(unit)) {
                others.push_back(std::max(m_floors[unit], last));
                work.push_back(m_work.attended(unit));
                continue;
            }
            ready.push_back(finishOf(progress, unit, last));
            outlook.outcome.attended += m_work.attended(unit);
            left += progress.attendedLeft(unit);
        }
        outlook.begun = ready.size();
        std::sort(others.begin(), others.end());
        std::sort(work.begin(), work.end());
        for (std::size_t index = 0; ready.size() < m_wanted; ++index) {
            ready.push_back(others[index]);
            left += work[index];
            outlook.outcome.attended += work[index];
        }
        std::sort(ready.begin(), ready.end());
        if (left > 0) ready.back() = std::max(ready.back(), loadOf(progress, last, left));
        return outlook;
    }

    Ms loadOf(const CrewProgress& progress, Ms last, Ms left) const {
        const auto& free = progress.free();
        Ms busy = left;
        for (const Ms from : free) busy += std::max(from, last) - m_work.from();
        const Ms people = static_cast<Ms>(free.size());
        return m_work.from() + m_work.rounded((busy + people - 1) / people + m_tail);
    }

    const CrewWork& m_work;
    CrewSchedule& m_best;
    const std::vector<Ms>& m_floors;
    std::uint64_t m_nodes;
    std::size_t m_wanted;
    Ms m_tail;  // the least that follows a person's work
    Order m_order;
    std::vector<Ms> m_starts;
};

}  // namespace

bool proveSchedule(const CrewWork& work, std::size_t people, CrewSchedule& best,
                   const std::vector<Ms>& floors, std::uint64_t nodes) {
    return Proof(work, best, floors, nodes).run(people);
}

}  // namespace rules
