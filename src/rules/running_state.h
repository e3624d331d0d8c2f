// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A log folded record by record as it is read, without keeping it. Counts what it folds.
#pragma once

#include "rules/groundwork.h"
#include "rules/unit_batch.h"

#include <cstdint>
#include <span>
#include <utility>

namespace rules {

class RunningState {
public:
    // Nothing known yet. `groundwork`, which has a first edition, must outlive this.
    RunningState(const Groundwork& groundwork, Instant knownAt);

    // Goes on from `state`, which holds all up to a place in the reading order.
    RunningState(const Groundwork& groundwork, Instant knownAt, State state)
        : m_groundwork(groundwork), m_knownAt(knownAt), m_indexed{std::move(state), {}} {}

    // The next record in the reading order; one that does not take part changes nothing.
    void add(const logbook::Record& record);
    // The next ones, in that order. Faster than one by one: they are folded unit by unit where that
    // comes to the same.
    void add(std::span<const logbook::Record* const> records);

    [[nodiscard]] const State& state() const { return m_indexed.state; }
    [[nodiscard]] State takeState() { return std::exchange(m_indexed, {}).state; }

    // How many records were folded here.
    [[nodiscard]] std::int64_t folded() const { return m_folded; }

private:
    void foldBatch();

    const Groundwork& m_groundwork;
    Instant m_knownAt;
    IndexedState m_indexed;
    UnitBatch m_batch;
    Effect m_effect;  // of the last record; kept for its memory
    std::int64_t m_folded = 0;
};

}  // namespace rules
