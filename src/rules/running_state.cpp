// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Folding as records come; see running_state.h.
#include "rules/running_state.h"

namespace rules {
namespace {

State nothingKnown(const Groundwork& groundwork) {
    State state;
    state.rulebook = groundwork.firstEdition();
    return state;
}

}  // namespace

RunningState::RunningState(const Groundwork& groundwork, Instant knownAt)
    : RunningState(groundwork, knownAt, nothingKnown(groundwork)) {}

void RunningState::add(const logbook::Record& record) {
    if (!m_groundwork.takesPart(record, m_knownAt)) return;
    fold(m_indexed.state(), record, m_groundwork.editions(), m_effect);
    ++m_folded;
}

void RunningState::add(std::span<const logbook::Record* const> records) {
    for (const auto* record : records) {
        if (!m_groundwork.takesPart(*record, m_knownAt)) continue;
        ++m_folded;
        const auto added = m_batch.add(m_indexed, *record);
        if (added != UnitBatch::Added::Yes) addAfterOthers(*record, added);
    }
    foldBatch();
}

void RunningState::addAfterOthers(const logbook::Record& record, UnitBatch::Added added) {
    if (added == UnitBatch::Added::NotBeforeAll) {
        foldBatch();
    } else {
        for (const std::size_t unit : m_batch.unitsInTheWay()) foldUnit(unit);
    }
    foldStateOnly(m_indexed, record, m_groundwork.editions(), Reach::All);
}

void RunningState::foldUnit(std::size_t unit) {
    const auto count = m_batch.foldUnit(unit, [&](const logbook::Record& record) {
        foldStateOnly(m_indexed, record, m_groundwork.editions(), Reach::OwnUnit);
    });
    m_inRow.rows += count > 0 ? 1 : 0;
    m_inRow.records += static_cast<std::int64_t>(count);
}

void RunningState::foldBatch() {
    for (std::size_t unit = 0; unit < m_batch.units(); ++unit) foldUnit(unit);
    m_batch.clear();
}

}  // namespace rules
