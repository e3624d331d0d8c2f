// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Schedules of a crew's work: who begins which piece when. Two rules that make one from a list, the
// search for the best one, and what no schedule betters.
#pragma once

#include "rules/crew_work.h"

#include <compare>
#include <optional>
#include <vector>

namespace rules {

// What is compared: the instant at which the last unit is ready; then the instants at which the
// others are, the earliest first; then the work. Less is better.
struct Outcome {
    std::vector<Ms> ready;  // sorted; of the units that are made ready
    Ms attended = 0;        // the time of people that they take

    [[nodiscard]] Ms finish() const { return ready.back(); }
    [[nodiscard]] std::strong_ordering operator<=>(const Outcome& other) const;
    [[nodiscard]] bool operator==(const Outcome& other) const = default;
};

struct CrewSchedule {
    Order order;             // in which the pieces are begun
    std::vector<Ms> starts;  // by place in `order`; never falling
    Outcome outcome;
    std::size_t changes = 0;  // how often somebody goes from one unit to another
};

// The pieces in that order, each as early as those before it in the list allow. The list holds all
// pieces of the units that are to be made ready and no others, each after what it needs.
[[nodiscard]] CrewSchedule insertSchedule(const CrewWork& work, std::size_t people,
                                          const Order& order);

// Whenever somebody is free, the first piece of the list that can begin then is begun (Graham,
// "Bounds on multiprocessing timing anomalies", 1969).
[[nodiscard]] CrewSchedule listSchedule(const CrewWork& work, std::size_t people,
                                        const Order& list);

// Pieces that take no time put off until just before the first piece that needs them, so that
// whoever comes to do that does them too. Nothing else moves.
[[nodiscard]] CrewSchedule settled(const CrewWork& work, CrewSchedule schedule);

// By whom each piece of a settled schedule is done, from 0, by place in its order: whoever was at
// the unit last goes on there, if they are free.
[[nodiscard]] std::vector<std::size_t> peopleOf(const CrewWork& work, std::size_t people,
                                                const CrewSchedule& schedule);

// No schedule has a unit ready earlier with so many people.
[[nodiscard]] Ms finishBound(const CrewWork& work, std::size_t people, std::size_t unit);

// No schedule has `wanted` units ready earlier; `floors` are such bounds for each unit alone.
[[nodiscard]] Ms finishBound(const CrewWork& work, std::size_t people, std::size_t wanted,
                             const std::vector<Ms>& floors);

// Betters `best`, if there is a better schedule; looks at no more than `nodes` beginnings. Whether
// it is sure that there is none that is better still.
[[nodiscard]] bool proveSchedule(const CrewWork& work, std::size_t people, CrewSchedule& best,
                                 const std::vector<Ms>& floors, std::uint64_t nodes);

struct CrewAnswer {
    CrewSchedule schedule;
    bool complete = false;  // it is sure that none is better in any respect
    Ms bound = 0;           // no schedule has so many ready earlier
};

// How much is looked at: counted, not timed, so that every computer finds the same.
struct Effort {
    std::size_t steps = 12'000;    // of the search, for each number of people
    std::uint64_t nodes = 30'000;  // of a proof
};

// The best for 1, 2, … `people` people, each no worse than for fewer. `wanted` is at least 1 and at
// most the number of units.
[[nodiscard]] std::vector<CrewAnswer> bestSchedules(const CrewWork& work, std::size_t people,
                                                    std::size_t wanted, const Effort& effort = {});

}  // namespace rules
