// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// How a start of use is classed: by what was recorded before it, by what could be known soon after
// it, and by what was waived. For month.cpp only.
#pragma once

#include "rules/earlier_knowledge.h"
#include "rules/month.h"

#include <cstddef>

namespace rules {

class StartJudge {
public:
    StartJudge(const Log& log, Instant knownAt);

    // The record at `index` is a counted start; `before` is the state before it.
    // Starts are judged in order.
    [[nodiscard]] StartException judge(std::size_t index, const State& before);

private:
    const Log& m_log;
    Instant m_knownAt;
    EarlierKnowledge m_earlier;
};

}  // namespace rules
