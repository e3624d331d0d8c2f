// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A state on its way through a long log, with what finds its units and parts sooner.
#pragma once

#include "rules/fold.h"
#include "rules/state_index.h"

namespace rules {

struct IndexedState {
    State state;
    StateIndex index;
};

// As onto a state alone, but that `effect` tells of no event and of no use resumed unready.
void fold(IndexedState& indexed, const logbook::Record& record, const Editions& editions,
          Effect& effect);

}  // namespace rules
