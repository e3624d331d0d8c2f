// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Schedules from lists; see crew_schedule.h.
#include "rules/crew_schedule.h"

#include "rules/crew_progress.h"

#include <algorithm>

namespace rules {

std::strong_ordering Outcome::operator<=>(const Outcome& other) const {
    if (const auto order = finish() <=> other.finish(); order != 0) return order;
    if (const auto order = ready <=> other.ready; order != 0) return order;
    return attended <=> other.attended;
}

namespace {

// By start; pieces that start together stay as they were.
void sortByStart(CrewSchedule& schedule) {
    if (std::is_sorted(schedule.starts.begin(), schedule.starts.end())) return;
    std::vector<std::pair<Ms, std::size_t>> places;
    for (std::size_t place = 0; place < schedule.order.size(); ++place) {
        places.emplace_back(schedule.starts[place], place);
    }
    std::sort(places.begin(), places.end());
    CrewSchedule sorted;
    for (const auto& [start, place] : places) {
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
    sortByStart(schedule);
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
    return schedule;
}

std::vector<std::size_t> peopleOf(const CrewWork& work, std::size_t people,
                                  const CrewSchedule& schedule) {
    std::vector<Ms> free(people, work.from());
    std::vector<std::size_t> lastAt(work.unitCount(), people);
    std::vector<std::size_t> by;
    for (std::size_t place = 0; place < schedule.order.size(); ++place) {
        const Piece& piece = work.pieces()[schedule.order[place]];
        const Ms start = schedule.starts[place];
        std::size_t person = lastAt[piece.unit];
        if (person == people || free[person] > start) {
            person =
                static_cast<std::size_t>(std::min_element(free.begin(), free.end()) - free.begin());
        }
        free[person] = start + piece.attended;
        lastAt[piece.unit] = person;
        by.push_back(person);
    }
    return by;
}

}  // namespace rules
