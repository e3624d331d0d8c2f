// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The search for good schedules: lists by several rules, the best of them changed at random and
// kept where that does no harm in the long run (Burke and Bykov, "The late acceptance hill-climbing
// heuristic", 2017). Few pieces are proved at once. See crew_schedule.h.
#include "rules/crew_moves.h"
#include "rules/crew_progress.h"

#include <algorithm>
#include <map>
#include <numeric>

namespace rules {
namespace {

constexpr std::size_t fullCrew = 6;    // people; for more of them fewer and fewer steps
constexpr std::size_t fullLoad = 120;  // pieces; likewise
constexpr std::size_t memory = 400;    // of late acceptance
constexpr std::size_t fewPieces = 14;  // of the units that have most: proved before it is searched
constexpr std::size_t mostToProve = 40;  // of the same: proved at all
constexpr std::size_t mostAlone = 12;    // pieces of units that are looked at one by one

class CrewSearch {
public:
    CrewSearch(const CrewWork& work, std::size_t wanted, const Effort& effort)
        : m_work(work),
          m_wanted(wanted),
          m_effort(effort),
          m_progress(work, 1),
          m_moves(work, wanted) {
        m_lookedAt.resize(work.unitCount());
        m_most = piecesOfLargest();
    }

    std::vector<CrewAnswer> run(std::size_t most) {
        const Ms least = leastFinish(std::min(most, m_most));
        std::vector<CrewAnswer> answers;
        for (std::size_t people = 1; people <= most; ++people) {
            // Nobody waited for anybody; or more people cannot be earlier, and only those who are
            // asked for last are worth another look.
            const bool isBetween = people > fullCrew && people + 1 < most;
            if (people > m_most || (isBetween && isSettledBy(answers, least))) {
                answers.push_back(answers.back());
                answers.back().complete &= people > m_most;
                continue;
            }
            answers.push_back(search(people, answers.empty() ? nullptr : &answers.back()));
        }
        return answers;
    }

private:
    // No crew of up to so many people is earlier.
    Ms leastFinish(std::size_t people) {
        m_people = people;
        findFloors();
        return finishBound(m_work, people, m_wanted, m_floors);
    }

    static bool isSettledBy(const std::vector<CrewAnswer>& answers, Ms least) {
        return !answers.empty() && answers.back().schedule.outcome.finish() == least;
    }

    // Of as many units as are wanted, those with the most pieces.
    std::size_t piecesOfLargest() const {
        std::vector<std::size_t> counts;
        for (std::size_t unit = 0; unit < m_work.unitCount(); ++unit) {
            counts.push_back(m_work.count(unit));
        }
        std::sort(counts.rbegin(), counts.rend());
        const auto end = counts.begin() + static_cast<std::ptrdiff_t>(m_wanted);
        return std::accumulate(counts.begin(), end, std::size_t{0});
    }

    CrewAnswer search(std::size_t people, const CrewAnswer* fewer) {
        m_people = people;
        m_progress = CrewProgress(m_work, people);
        findFloors();
        m_best = m_start = {};
        if (fewer) m_best = fewer->schedule;
        if (people == 1) lookAtUnitsAlone();
        offerLists();
        if (fewer) offer(inserted(m_progress, fewer->schedule.order));
        CrewAnswer answer;
        answer.bound = finishBound(m_work, people, m_wanted, m_floors);
        answer.complete = isBest() || (m_most <= fewPieces && prove());
        if (!answer.complete) {
            improve(stepsFor(people));
            answer.complete = isBest() || (m_most <= mostToProve && prove());
        }
        answer.schedule = settled(m_work, named(m_best));
        if (answer.complete) answer.bound = m_best.outcome.finish();
        return answer;
    }

    // Of units that are alike, those that come first by name are ready first.
    CrewSchedule named(CrewSchedule schedule) const {
        CrewProgress progress(m_work, m_people);
        for (std::size_t place = 0; place < schedule.order.size(); ++place) {
            progress.begin(schedule.order[place], schedule.starts[place]);
        }
        std::map<std::size_t, std::vector<std::pair<Ms, std::size_t>>> taken;  // by the first alike
        for (std::size_t unit = 0; unit < m_work.unitCount(); ++unit) {
            if (!progress.isTouched(unit)) continue;
            taken[m_work.alike(unit)].emplace_back(progress.finish(unit), unit);
        }
        std::vector<std::size_t> unitFor(m_work.unitCount());
        for (auto& [alike, units] : taken) {
            std::sort(units.begin(), units.end());
            std::size_t next = alike;
            for (const auto& [finish, unit] : units) {
                while (m_work.alike(next) != alike) ++next;
                unitFor[unit] = next++;
            }
        }
        for (PieceId& piece : schedule.order) {
            const std::size_t unit = m_work.pieces()[piece].unit;
            piece = piece - m_work.first(unit) + m_work.first(unitFor[unit]);
        }
        return schedule;
    }

    // Not only the last unit counts while searching.
    Ms costOf(const CrewSchedule& schedule) const {
        const auto& ready = schedule.outcome.ready;
        Ms sum = 0;
        for (const Ms each : ready) sum += each - m_work.from();
        const auto count = static_cast<Ms>(ready.size());
        return (schedule.outcome.finish() - m_work.from()) * 6 + sum / count;
    }

    bool prove() { return proveSchedule(m_work, m_people, m_best, m_floors, m_effort.nodes); }

    std::size_t stepsFor(std::size_t people) const {
        return m_effort.steps * std::min(fullCrew, people) / people * std::min(fullLoad, m_most) /
               m_most;
    }

    // Units that are alike have the same floor.
    void findFloors() {
        m_floors.assign(m_work.unitCount(), 0);
        for (std::size_t unit = 0; unit < m_work.unitCount(); ++unit) {
            m_floors[unit] = m_work.alike(unit) < unit ? m_floors[m_work.alike(unit)]
                                                       : finishBound(m_work, m_people, unit);
        }
    }

    // As one person would do a unit: that is a good order for several too, and for one person a
    // floor. If one unit is wanted of one person it is the answer, however many pieces it has.
    void lookAtUnitsAlone() {
        std::vector<std::size_t> units(m_work.unitCount());
        std::iota(units.begin(), units.end(), std::size_t{0});
        std::stable_sort(units.begin(), units.end(), [this](std::size_t a, std::size_t b) {
            return m_floors[a] < m_floors[b];
        });
        for (const std::size_t unit : units) {
            const bool best =
                m_wanted == 1 && (m_best.order.empty() || m_floors[unit] < m_best.outcome.finish());
            if (m_work.count(unit) > mostAlone && !best) continue;
            lookAtAlone(unit);
            if (m_wanted == 1) offer(inserted(m_progress, m_moves.orderOf(unit)));
        }
    }

    void lookAtAlone(std::size_t unit) {
        const std::size_t alike = m_work.alike(unit);
        if (alike < unit && m_lookedAt[alike]) {
            m_floors[unit] = m_floors[alike];
            return;
        }
        auto alone = m_work.alone(unit);
        m_floors[unit] = std::max(m_floors[unit], alone.bound);
        m_moves.setOrder(unit, std::move(alone.order));
        m_lookedAt[unit] = true;
    }

    // Whether nothing could be better: each unit as early as if it were alone, and none earlier.
    bool isAtFloors() const {
        auto floors = m_floors;
        std::sort(floors.begin(), floors.end());
        floors.resize(m_wanted);
        return m_best.outcome.ready == floors;
    }

    // Nor with less work.
    bool isBest() const {
        std::vector<Ms> attended;
        for (std::size_t unit = 0; unit < m_work.unitCount(); ++unit) {
            attended.push_back(m_work.attended(unit));
        }
        std::sort(attended.begin(), attended.end());
        const auto end = attended.begin() + static_cast<std::ptrdiff_t>(m_wanted);
        const Ms least = std::accumulate(attended.begin(), end, Ms{0});
        return isAtFloors() && m_best.outcome.attended == least;
    }

    // Takes it if it is better than the best; whether it is.
    bool offer(CrewSchedule schedule) {
        const Ms cost = costOf(schedule);
        if (m_start.order.empty() || cost < m_startCost) {
            m_start = schedule;
            m_startCost = cost;
        }
        const bool better =
            m_best.order.empty() || schedule.outcome < m_best.outcome ||
            (schedule.outcome == m_best.outcome && schedule.changes < m_best.changes);
        if (better) m_best = std::move(schedule);
        return better;
    }

    void offerLists() {
        for (int rule = 0; rule < 3; ++rule) {
            const auto units = chosen(rule);
            Order byUnit;
            for (const std::size_t unit : units) {
                const Order own = m_moves.orderOf(unit);
                byUnit.insert(byUnit.end(), own.begin(), own.end());
            }
            offer(inserted(m_progress, byUnit));
            offer(listSchedule(m_work, m_people, byUnit));
            offer(listSchedule(m_work, m_people, sortedBy(byUnit, [](const Piece& piece) {
                                   return -piece.personTail();
                               })));
            // Each unit is due when the work up to it could be done, each piece so much earlier as
            // is to follow it, or still earlier.
            const auto due = dueBy(units);
            for (const Ms haste : {1, 2, 4}) {
                const auto dueOf = [&](const Piece& piece) {
                    return due[piece.unit] - haste * piece.personTail();
                };
                offer(listSchedule(m_work, m_people, sortedBy(byUnit, dueOf)));
            }
        }
    }

    template <class Rank>
    Order sortedBy(Order order, Rank rank) const {
        std::stable_sort(order.begin(), order.end(), [&](PieceId a, PieceId b) {
            return rank(m_work.pieces()[a]) < rank(m_work.pieces()[b]);
        });
        return order;
    }

    // By unit: the work of the units up to it, shared by all.
    std::vector<Ms> dueBy(const std::vector<std::size_t>& units) const {
        std::vector<Ms> due(m_work.unitCount());
        Ms attended = 0;
        for (const std::size_t unit : units) {
            attended += m_work.attended(unit);
            due[unit] =
                std::max(attended / static_cast<Ms>(m_people), m_floors[unit] - m_work.from());
        }
        return due;
    }

    std::vector<std::size_t> chosen(int rule) const {
        std::vector<std::size_t> units(m_work.unitCount());
        std::iota(units.begin(), units.end(), std::size_t{0});
        const auto rank = [&](std::size_t unit) {
            const Ms work = m_work.attended(unit);
            const Ms alone = m_floors[unit] - m_work.from();
            if (rule == 0) return std::pair(alone, work);
            if (rule == 1) return std::pair(work, alone);
            return std::pair(work + alone, alone);
        };
        std::stable_sort(units.begin(), units.end(),
                         [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
        units.resize(m_wanted);
        return units;
    }

    // First for the finish above all, then for the others within it, at last only for the better.
    void improve(std::size_t steps) {
        if (!isAtBound()) wander(m_start, steps / 2, std::numeric_limits<Ms>::max());
        wander(m_best, steps / 4, m_best.outcome.finish());
        bringForward(steps / 8);
        tidy(steps / 2);
    }

    // Less going from unit to unit, with no unit ready later for it.
    void tidy(std::size_t steps) {
        CrewSchedule now = m_best;
        for (std::size_t step = 0; step < steps; ++step) {
            const bool any = step % 4 == 0;
            CrewSchedule next = inserted(
                m_progress, any ? m_moves.changed(now.order) : m_moves.gathered(now.order));
            if (next.outcome > m_best.outcome || next.changes > now.changes) continue;
            now = std::move(next);
            offer(now);
        }
    }

    bool isAtBound() const {
        return m_best.outcome.finish() == finishBound(m_work, m_people, m_wanted, m_floors);
    }

    // From one schedule to the next, none of which finishes after `latest`.
    void wander(CrewSchedule now, std::size_t steps, Ms latest) {
        Ms cost = costOf(now);
        std::vector<Ms> late(memory, cost);
        for (std::size_t step = 0; step < steps && !isAtFloors(); ++step) {
            CrewSchedule next = inserted(m_progress, m_moves.changed(now.order));
            const Ms nextCost = costOf(next);
            Ms& before = late[step % memory];
            const bool allowed = next.outcome.finish() <= latest;
            if (allowed && (nextCost <= cost || nextCost <= before)) {
                offer(next);
                now = std::move(next);
                cost = nextCost;
            }
            before = std::min(before, cost);
        }
    }

    // Units brought forward by more and more places, one after the other, as long as it helps.
    void bringForward(std::size_t steps) {
        for (bool better = true; better;) {
            better = false;
            for (std::size_t unit = 0; unit < m_work.unitCount(); ++unit) {
                for (std::size_t by = 1; by < m_best.order.size(); by *= 2) {
                    Unmerged parts = m_moves.takenApart(m_best.order, unit);
                    if (parts.own.empty()) break;
                    for (std::size_t& place : parts.places) place -= std::min(place, by);
                    better |= offer(inserted(m_progress, CrewMoves::merged(parts)));
                    if (steps-- == 0) return;
                }
            }
        }
    }

    const CrewWork& m_work;
    std::size_t m_wanted;
    std::size_t m_most = 0;  // pieces of the units that are taken, at most
    Effort m_effort;
    std::size_t m_people = 0;
    std::vector<Ms> m_floors;      // by unit; none is ready earlier
    std::vector<bool> m_lookedAt;  // alone; by unit
    CrewProgress m_progress;
    CrewSchedule m_best;
    CrewSchedule m_start;  // the one of the least cost
    Ms m_startCost = 0;
    CrewMoves m_moves;
};

}  // namespace

std::vector<CrewAnswer> bestSchedules(const CrewWork& work, std::size_t people, std::size_t wanted,
                                      const Effort& effort) {
    return CrewSearch(work, wanted, effort).run(people);
}

}  // namespace rules
