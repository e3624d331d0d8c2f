// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Folding as records come; see running_state.h.
#include "rules/running_state.h"

namespace rules {

RunningState::RunningState(const Groundwork& groundwork, Instant knownAt)
    : m_groundwork(groundwork), m_knownAt(knownAt) {
    m_indexed.state.rulebook = groundwork.firstEdition();
}

void RunningState::add(const logbook::Record& record) {
    if (!m_groundwork.takesPart(record, m_knownAt)) return;
    fold(m_indexed, record, m_groundwork.editions(), m_effect);
    ++m_folded;
}

void RunningState::add(std::span<const logbook::Record* const> records) {
    for (const auto* record : records) {
        if (!m_groundwork.takesPart(*record, m_knownAt)) continue;
        ++m_folded;
        if (m_batch.add(m_indexed, *record)) continue;
        foldBatch();
        fold(m_indexed, *record, m_groundwork.editions(), m_effect);
    }
    foldBatch();
}

void RunningState::foldBatch() {
    for (std::size_t unit = 0; unit < m_batch.units(); ++unit) {
        m_batch.forEach(unit, [&](const logbook::Record& record) {
            fold(m_indexed, record, m_groundwork.editions(), m_effect);
        });
    }
    m_batch.clear();
}

}  // namespace rules
