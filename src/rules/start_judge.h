// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// How a start of use is classed: by what was recorded before it, by what could be known soon after
// it, and by what was waived. For month.cpp only.
#pragma once

#include "rules/known_window.h"
#include "rules/month.h"

#include <cstddef>
#include <vector>

namespace rules {

class StartJudge {
public:
    StartJudge(const Log& log, Instant knownAt);

    // Told of every record in order, before it is folded, with the state before it: places to
    // begin from when a start is judged again by an earlier knowledge.
    void passed(std::size_t index, const State& before);

    // The record at `index` is a counted start; `before` is the state before it.
    [[nodiscard]] StartException judge(std::size_t index, const State& before) const;

private:
    struct Place {
        std::size_t index;
        State state;
    };

    [[nodiscard]] std::size_t firstUnknown(std::size_t index, Instant knownAt) const;
    [[nodiscard]] bool differsFor(const Ties& ties, Stretch stretch, Instant knownAt) const;
    [[nodiscard]] State knownBefore(std::size_t index, Instant knownAt, const State& before) const;

    const Log& m_log;
    Instant m_knownAt;
    SerialFits m_fits;
    std::vector<Place> m_places;
    std::vector<Instant> m_settled;  // by index: when all records up to it, and what of them was
                                     // struck, were known; never falls
};

}  // namespace rules
