// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reads the scenario that is built in, and plays it.
#include "station/demo.h"

#include "airmuster_station_embedded.h"
#include "station/demo_life.h"

#include <cstdio>
#include <cstdlib>

namespace station {

namespace {

demo::Scenario readBuiltIn() {
    const auto scenario = demo::readScenario(
        {embedded::demo_kestrel_bay_scenario, embedded::demo_kestrel_bay_events,
         {{"kestrel_bay.toml", embedded::demo_kestrel_bay},
          {"kestrel_bay_2.toml", embedded::demo_kestrel_bay_2}}});
    if (!scenario) {
        std::fprintf(stderr, "demo: the scenario built in is faulty:\n%s\n",
                     scenario.error().c_str());
        std::abort();
    }
    return *scenario;
}

std::vector<demo::WrongClock> wrongClocks(const demo::World& world) {
    std::vector<demo::WrongClock> clocks;
    for (const demo::Clock& clock : world.scenario.clocks) {
        const logbook::Instant from = world.calendar.daysBack(clock.day, clock.time);
        clocks.push_back({clock.station, from, from + clock.lasts, clock.ahead});
    }
    return clocks;
}

}  // namespace

const demo::Scenario& kestrelBay() {
    static const demo::Scenario scenario = readBuiltIn();
    return scenario;
}

std::vector<logbook::Record> makeDemo(const demo::Scenario& scenario, const DemoOptions& options,
                                      const rules::Zone& zone) {
    demo::World world(scenario, options.seed, demo::Calendar(zone, options.end));
    demo::planOpening(world);
    demo::planDays(world);
    demo::planEvents(world);
    demo::planEndings(world);
    world.play();
    return world.journal.records(options.end, wrongClocks(world));
}

}  // namespace station
