// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The department's loose parts: clean ones on the shelf, soiled ones that wait for the washer, and
// the lots that disposables come from. A part with a serial is in one place only.
#pragma once

#include "station/demo_scenario.h"

#include <string>
#include <string_view>
#include <vector>

namespace station::demo {

using logbook::Instant;

struct SoiledPart {
    std::string part;      // key in Scenario::parts
    std::string position;
    std::string serial;
    Instant since{};
};

class Shelf {
public:
    explicit Shelf(const Scenario& scenario);

    // A clean one, the one that has lain longest; a newly bought one if none is clean by then.
    // Precondition: the part has a prefix.
    [[nodiscard]] std::string takeClean(std::string_view part, Instant now);

    // One that should have gone to the washer; "" if there is none.
    [[nodiscard]] std::string takeSoiled(std::string_view part);

    void putSoiled(SoiledPart part) { m_soiled.push_back(std::move(part)); }

    // Everything soiled since before `start`; it lies clean on the shelf from `finish`.
    [[nodiscard]] std::vector<SoiledPart> wash(Instant start, Instant finish);

private:
    struct CleanPart {
        std::string serial;
        Instant from{};
    };

    [[nodiscard]] std::string buy(std::string_view part);

    const Scenario& m_scenario;
    ByKey<std::vector<CleanPart>> m_clean;
    ByKey<int> m_bought;
    std::vector<SoiledPart> m_soiled;
};

// The lots of `part` that are handed out `day` days before the end; never empty.
[[nodiscard]] std::vector<Lot> lotsOn(const Part& part, int day);

}  // namespace station::demo
