// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A log folded record by record as it is read, without keeping it. Counts what it folds.
#pragma once

#include "rules/groundwork.h"

#include <cstdint>
#include <utility>

namespace rules {

class RunningState {
public:
    // Nothing known yet. `groundwork`, which has a first edition, must outlive this.
    RunningState(const Groundwork& groundwork, Instant knownAt);

    // Goes on from `state`, which holds all up to a place in the reading order.
    RunningState(const Groundwork& groundwork, Instant knownAt, State state)
        : m_groundwork(groundwork), m_knownAt(knownAt), m_state(std::move(state)) {}

    // The next record in the reading order; one that does not take part changes nothing.
    void add(const logbook::Record& record);

    [[nodiscard]] const State& state() const { return m_state; }
    [[nodiscard]] State takeState() { return std::move(m_state); }

    // How many records were folded here.
    [[nodiscard]] std::int64_t folded() const { return m_folded; }

private:
    const Groundwork& m_groundwork;
    Instant m_knownAt;
    State m_state;
    Effect m_effect;  // of the last record; kept for its memory
    std::int64_t m_folded = 0;
};

}  // namespace rules
