// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The demo: three months of an invented hospital as records, made from a scenario that is data and
// from a seed. Knows no clock, no file and no rule of the trade: what is done in which order stands
// in data/demo, and whether that makes a unit ready is for the rulebook to say.
#pragma once

#include "logbook/record.h"
#include "rules/zone.h"
#include "station/demo_scenario.h"

#include <cstdint>
#include <string_view>
#include <vector>

namespace station {

// The station under which whoever tries the demo writes. The scenario's stations are others.
inline constexpr std::string_view demoStation = "demo-desk";

// The years in which a demo can end: what is told in it reaches some years on either side.
inline constexpr int firstDemoYear = 1971, lastDemoYear = 9990;

struct DemoOptions {
    std::uint64_t seed = 1;
    logbook::Instant end{};  // no record is entered later
};

// Kestrel Bay Hospital, as built into the program (data/demo).
[[nodiscard]] const demo::Scenario& kestrelBay();

// The records in the order in which they were written down; of each station `seq` is 1, 2, 3 …
// without a gap. The first is the adoption of the first edition, the persons follow. The same
// scenario, options and zone give the same records, byte for byte. `zone` is that of the rulebook.
// Precondition: the end is in one of those years, and `zone` covers the days before it.
[[nodiscard]] std::vector<logbook::Record> makeDemo(const demo::Scenario& scenario,
                                                    const DemoOptions& options,
                                                    const rules::Zone& zone);

}  // namespace station
