// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The state before a record by what was known at an earlier instant, for one record after the
// other: one pass over the log. Where knowledge moves on and a record comes in (or is struck) that
// lies before the place reached, only what it changes is folded again, as far as it makes a
// difference.
// For start_judge.cpp only.
#pragma once

#include "rules/part_ties.h"

#include <optional>
#include <vector>

namespace rules {

class EarlierKnowledge {
public:
    explicit EarlierKnowledge(const Log& log);

    // The state before the record at `index`, which never falls from one call to the next;
    // `knownAt` may.
    const State& before(std::size_t index, Instant knownAt);

private:
    // A record begins, or ends, to take part.
    struct Turn {
        Instant at{};
        std::size_t record = 0;
    };
    // What of a place is not what it was.
    struct Difference {
        Tied tied;
        bool authority = false;  // editions or persons: whatever follows
        bool notices = false;

        [[nodiscard]] bool none() const { return tied.empty() && !authority && !notices; }
    };

    [[nodiscard]] std::vector<std::size_t> turned(Instant knownAt) const;
    void correct(const std::vector<std::size_t>& records, Instant knownAt);
    void addTurned(std::size_t index, Difference& difference) const;
    [[nodiscard]] Difference foldAgain(State& state, std::size_t place,
                                       const Difference& difference, Instant knownAt);
    [[nodiscard]] Difference store(const State& state, const Tied& tied, const Difference& before,
                                   std::size_t place);
    [[nodiscard]] State& stateAt(std::size_t place);
    void walk(std::size_t index, Instant knownAt);

    const Log& m_log;
    std::size_t m_between;  // records from one place to the next
    PartTies m_ties;
    std::vector<Turn> m_turns;    // by instant
    std::vector<State> m_places;  // before each m_between records, as known at m_knownAt
    State m_state;                // before m_index
    std::size_t m_index = 0;
    Instant m_knownAt{};
};

}  // namespace rules
