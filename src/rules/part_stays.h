// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The parts with a serial that stood in one unit, and what else they went through in others. For
// look_back.cpp only.
#pragma once

#include "rules/log.h"

#include <map>
#include <string>
#include <vector>

namespace rules {

class PartStays {
public:
    // Those that a record up to `at` fits to that unit, whoever knew of it when.
    PartStays(const Log& log, std::string device, Instant at);

    // The state at the instant, as known at another; the stays of the parts by it are taken in.
    State follow(Instant knownAt);

    // Whether a record on another unit can change what the parts had been through when they stood
    // in this one, by any of the states followed: their moves, their reprocessing, and what
    // happened to those units while, or in a use in which, they stood there.
    [[nodiscard]] bool bears(const logbook::Record& record) const;

private:
    struct Stay {
        std::string device;
        Instant from{};  // the fit; in a use, the start of that
        Instant to{};
    };
    struct Past {
        std::string standsIn;  // while a state is followed; "" if in none
        Instant since{};
        std::vector<Stay> elsewhere;
        std::optional<Instant> lastHere;  // the last instant in this unit; none: never there
    };

    void look(const State& state, const logbook::Record& record);
    void leave(Past& past, Instant at) const;
    static bool bearsOn(const PartKey& part, const Past& past, const logbook::Record& record);

    const Log& m_log;
    std::string m_device;
    Instant m_at;
    std::map<PartKey, Past> m_parts;
};

}  // namespace rules
