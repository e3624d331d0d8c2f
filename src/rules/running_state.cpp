// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Folding as records come; see running_state.h.
#include "rules/running_state.h"

namespace rules {

RunningState::RunningState(const Groundwork& groundwork, Instant knownAt)
    : m_groundwork(groundwork), m_knownAt(knownAt) {
    m_state.rulebook = groundwork.firstEdition();
}

void RunningState::add(const logbook::Record& record) {
    if (!m_groundwork.takesPart(record, m_knownAt)) return;
    fold(m_state, record, m_groundwork.editions(), m_effect);
    ++m_folded;
}

}  // namespace rules
