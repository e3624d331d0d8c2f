// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The work that keeps one unit ready to the end of a horizon. For horizon.cpp only.
#pragma once

#include "rules/horizon.h"

namespace rules {

struct RemedyQuestion {
    const State& state;
    std::string device;
    std::string group;
    Instant from{}, to{};          // the horizon
    std::optional<Instant> lapse;  // of a ready unit: when it lapses; none: it is not ready now
};

// None if no such work lasts to the end.
[[nodiscard]] std::optional<Remedy> remedyFor(const RemedyQuestion& question);

}  // namespace rules
