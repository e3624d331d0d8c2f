// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which records of a stretch of the log can bear on one device: its own, the department-wide ones,
// and those of the devices that a part with a serial ties to it there. For start_judge.cpp only.
#pragma once

#include "rules/log.h"

#include <set>
#include <string>
#include <vector>

namespace rules {

struct Stretch {
    std::size_t first = 0;
    std::size_t end = 0;  // not in it
};

// What ties devices together: every `fit` of a part with a serial, in order.
struct SerialFit {
    std::size_t record = 0;
    PartKey part;
};

[[nodiscard]] std::vector<SerialFit> serialFits(const Log& log);

struct Ties {
    std::set<std::string> devices;
    std::set<PartKey> parts;
};

// The devices and parts tied to `device` in the stretch; `before` is the state at its beginning.
[[nodiscard]] Ties tiedTo(const std::string& device, const State& before, Stretch stretch,
                          const Log& log, const std::vector<SerialFit>& fits);

}  // namespace rules
