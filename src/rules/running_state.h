// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A log folded as it is read, without keeping it: one record after the other, or many at once,
// which comes to the same. Counts what it folds.
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
        : m_groundwork(groundwork), m_knownAt(knownAt), m_indexed(std::move(state)) {}

    // The next record in the reading order; one that does not take part changes nothing. The plain
    // way, by which the faster one is checked: shares nothing with it but what a record does.
    void add(const logbook::Record& record);
    // The next ones, in that order, which must last until it returns. They are folded unit by unit
    // where that comes to the same.
    void add(std::span<const logbook::Record* const> records);

    [[nodiscard]] const State& state() const { return m_indexed.state(); }
    // Nothing can be added or asked any more.
    [[nodiscard]] State takeState() && { return std::move(m_indexed).take(); }

    // How many records were folded here.
    [[nodiscard]] std::int64_t folded() const { return m_folded; }

    // Of those that came many at once: how often the records of one unit were folded in a row, and
    // how many they were in all.
    struct InRow {
        std::int64_t rows = 0;
        std::int64_t records = 0;
    };
    [[nodiscard]] const InRow& inRow() const { return m_inRow; }

private:
    void addAfterOthers(const logbook::Record& record, UnitBatch::Added added);
    void foldUnit(std::size_t unit);
    void foldBatch();

    const Groundwork& m_groundwork;
    Instant m_knownAt;
    IndexedState m_indexed;
    UnitBatch m_batch;
    Effect m_effect;  // of the last record; kept for its memory
    std::int64_t m_folded = 0;
    InRow m_inRow;
};

}  // namespace rules
