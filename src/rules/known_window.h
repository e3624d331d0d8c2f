// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which records of a stretch of the log can bear on one device: its own, the department-wide ones,
// and those of the devices that a part with a serial ties to it there. For start_judge.cpp only.
#pragma once

#include "rules/log.h"

#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace rules {

struct Stretch {
    std::size_t first = 0;
    std::size_t end = 0;  // not in it
};

struct Ties {
    std::vector<bool> devices;      // by the log's number of the device; the department is in it
    std::set<std::string> serials;  // of the devices
    std::set<PartKey> parts;
};

// What ties devices together: every `fit` of a part with a serial, in order.
class SerialFits {
public:
    explicit SerialFits(const Log& log);

    // The devices and parts tied to `device` in the stretch; `before` is the state at its
    // beginning.
    [[nodiscard]] Ties tiedTo(const std::string& device, const State& before,
                              Stretch stretch) const;

private:
    struct Fit {
        std::size_t record = 0;
        std::uint32_t device = 0;
        std::uint32_t part = 0;
    };
    struct Search;

    const Log& m_log;
    std::vector<Fit> m_fits;
    std::vector<PartKey> m_parts;  // by number
    std::map<PartKey, std::uint32_t> m_numbers;
};

}  // namespace rules
