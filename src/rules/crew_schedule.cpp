// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Schedules from lists; see crew_schedule.h.
#include "rules/crew_schedule.h"

#include "rules/crew_progress.h"

#include <algorithm>
#include <tuple>

namespace rules {

std::strong_ordering Outcome::operator<=>(const Outcome& other) const {
    if (const auto order = finish() <=> other.finish(); order != 0) return order;
    if (const auto order = ready <=> other.ready; order != 0) return order;
    return attended <=> other.attended;
}

namespace {

// By start; pieces that start together stay as they were, but for those that `first` names.
template <class IsFirst>
void sortByStart(CrewSchedule& schedule, IsFirst isFirst) {
    std::vector<std::tuple<Ms, bool, std::size_t>> places;
    for (std::size_t place = 0; place < schedule.order.size(); ++place) {
        places.emplace_back(schedule.starts[place], !isFirst(schedule.order[place]), place);
    }
    std::sort(places.begin(), places.end());
    CrewSchedule sorted;
    for (const auto& [start, isLater, place] : places) {
        sorted.order.push_back(schedule.order[place]);
        sorted.starts.push_back(start);
    }
    schedule.order = std::move(sorted.order);
    schedule.starts = std::move(sorted.starts);
}

}  // namespace

CrewSchedule inserted(CrewProgress& progress, const Order& order) {
    progress.clear();
    CrewSchedule schedule;
    schedule.order = order;
    schedule.starts.reserve(order.size());
    for (const PieceId piece : order) {
        const Ms start = progress.earliest(piece);
        progress.begin(piece, start);
        schedule.starts.push_back(start);
    }
    schedule.outcome = progress.outcome();
    schedule.changes = progress.changes();
    if (!std::is_sorted(schedule.starts.begin(), schedule.starts.end())) {
        sortByStart(schedule, [](PieceId) { return false; });
    }
    return schedule;
}

CrewSchedule insertSchedule(const CrewWork& work, std::size_t people, const Order& order) {
    CrewProgress progress(work, people);
    return inserted(progress, order);
}

CrewSchedule listSchedule(const CrewWork& work, std::size_t people, const Order& list) {
    CrewProgress progress(work, people);
    CrewSchedule schedule;
    Order open = list;
    while (!open.empty()) {
        auto next = open.end();
        Ms start = 0;
        for (auto piece = open.begin(); piece != open.end(); ++piece) {
            if (!progress.canBegin(*piece)) continue;
            const Ms earliest = progress.earliest(*piece);
            if (next != open.end() && earliest >= start) continue;
            next = piece;
            start = earliest;
        }
        progress.begin(*next, start);
        schedule.order.push_back(*next);
        schedule.starts.push_back(start);
        open.erase(next);
    }
    schedule.outcome = progress.outcome();
    schedule.changes = progress.changes();
    return schedule;
}

CrewSchedule settled(const CrewWork& work, CrewSchedule schedule) {
    const auto isMoment = [&work](PieceId piece) { return work.pieces()[piece].takes == 0; };
    for (std::size_t place = schedule.order.size(); place-- > 0;) {
        const PieceId id = schedule.order[place];
        const Piece& piece = work.pieces()[id];
        if (!isMoment(id)) continue;
        std::optional<Ms> until;
        bool stays = piece.alone || !piece.waits.empty();
        for (std::size_t other = 0; other < schedule.order.size(); ++other) {
            const Piece& later = work.pieces()[schedule.order[other]];
            for (const auto& [before, wait] : later.waits) stays |= before == id;
            const auto& needs = later.needs;
            if (std::find(needs.begin(), needs.end(), id) == needs.end()) continue;
            // While that begins no check is under way that hands would disturb.
            stays |= piece.handsOff && !later.alone && !later.handsOff;
            until = std::min(until.value_or(schedule.starts[other]), schedule.starts[other]);
        }
        if (until && !stays) schedule.starts[place] = *until;
    }
    sortByStart(schedule, isMoment);
    return schedule;
}

namespace {

class Staff {
public:
    Staff(const CrewWork& work, std::size_t people, const CrewSchedule& schedule)
        : m_work(work), m_people(people), m_schedule(schedule), m_by(schedule.order.size()) {}

    std::vector<std::size_t> find() {
        findForPieces();
        for (std::size_t place = m_by.size(); place-- > 0;) {
            if (at(place).takes == 0) m_by[place] = forMoment(place);
        }
        return m_by;
    }

private:
    const Piece& at(std::size_t place) const { return m_work.pieces()[m_schedule.order[place]]; }

    void findForPieces() {
        std::vector<Ms> free(m_people, m_work.from());
        std::vector<std::size_t> lastAt(m_people, m_work.unitCount());
        for (std::size_t place = 0; place < m_by.size(); ++place) {
            if (at(place).takes == 0) continue;
            const Ms start = m_schedule.starts[place];
            std::size_t person = m_people;
            for (std::size_t each = 0; each < m_people; ++each) {
                if (free[each] > start) continue;
                const bool stays = lastAt[each] == at(place).unit;
                if (person == m_people || stays || free[each] > free[person]) person = each;
                if (stays) break;
            }
            free[person] = start + at(place).attended;
            lastAt[person] = at(place).unit;
            m_by[place] = person;
        }
    }

    // Whoever goes on at the unit at the same time, or else anybody who is not busy.
    std::size_t forMoment(std::size_t place) const {
        const Ms start = m_schedule.starts[place];
        for (std::size_t next = place + 1; next < m_by.size(); ++next) {
            if (m_schedule.starts[next] != start) break;
            if (at(next).unit == at(place).unit) return m_by[next];
        }
        std::vector<bool> busy(m_people);
        for (std::size_t other = 0; other < m_by.size(); ++other) {
            const Ms from = m_schedule.starts[other];
            if (from < start && start < from + at(other).attended) busy[m_by[other]] = true;
        }
        return static_cast<std::size_t>(std::find(busy.begin(), busy.end(), false) - busy.begin());
    }

    const CrewWork& m_work;
    std::size_t m_people;
    const CrewSchedule& m_schedule;
    std::vector<std::size_t> m_by;
};

}  // namespace

std::vector<std::size_t> peopleOf(const CrewWork& work, std::size_t people,
                                  const CrewSchedule& schedule) {
    return Staff(work, people, schedule).find();
}

}  // namespace rules
