// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One unit's life, step by step: each step plans the next.
#include "station/demo_life.h"

#include "station/demo_script.h"

#include <algorithm>

namespace station::demo {

namespace {

Instant later(World& world, Instant from, Range range) {
    return from + minutes(world.dice.between(range.low * 60LL, range.high * 60LL));
}

// Some sessions are typed in when there is time for it.
void maybeLate(World& world, Script& script) {
    if (world.dice.perMille(world.scenario.chances.late)) {
        script.enterLate(minutes(world.dice.between(150, 900)));
    } else if (world.dice.perMille(world.scenario.chances.slow)) {
        script.enterLate(minutes(world.dice.between(10, 90)));
    }
}

bool mayStillBeUsed(const World& world, const UnitState& unit, Instant now) {
    return !unit.plan->lastUseDay || world.calendar.dayBackOf(now) > *unit.plan->lastUseDay;
}

Instant maintenanceAt(const World& world, const UnitState& unit, Instant now) {
    if (!unit.plan->maintenance) {
        return Instant{INT64_MAX};
    }
    const Instant soonest = std::max(now, unit.maintenanceDue - days(20));
    return world.calendar.nextOffice(soonest, hours(9));
}

Instant recheckAt(const UnitState& unit) {
    return unit.lastRecheck + days(unit.life->recheckDays);
}

void planStored(World& world, UnitState& unit, Instant now) {
    if (unit.useAt <= unit.lastRecheck || unit.useAt <= now) {
        unit.useAt = later(world, now, unit.life->idle);
    }
    wake(world, unit, std::max(now + minutes(10), std::min({unit.useAt, recheckAt(unit),
                                                            maintenanceAt(world, unit, now)})));
}

void planUse(World& world, UnitState& unit, Instant now) {
    unit.useUntil = later(world, now, unit.life->use);
    unit.midUse = world.dice.perMille(unit.life->midUsePerMille);
    const Duration length = unit.useUntil - now;
    wake(world, unit, unit.midUse ? now + Duration{length.ms / 2} : unit.useUntil);
}

void liveInUse(World& world, UnitState& unit, Instant now) {
    Script script(world, &unit, now);
    if (unit.midUse) {
        unit.midUse = false;
        const std::string& what = world.dice.pick(unit.life->midUse);
        if (script.knows(what)) {
            script.runNamed(what);
        }
        unit.busyUntil = script.now();
        wake(world, unit, std::max(unit.useUntil, script.now() + minutes(30)));
        return;
    }
    if (now < unit.useUntil) {
        wake(world, unit, unit.useUntil);
        return;
    }
    script.allowMishaps();
    script.run({{"do", {"end_use"}, {}, {}}});
    unit.busyUntil = script.now();
    if (unit.inUse) {
        planUse(world, unit, script.now());
    } else {
        wake(world, unit, later(world, script.now(), unit.life->turnaround));
    }
}

void prepare(World& world, UnitState& unit, Instant now) {
    Script script(world, &unit, now);
    script.allowMishaps();
    maybeLate(world, script);
    script.run({{"do", {"prepare"}, {}, {}}});
    unit.prepared = true;
    unit.lastRecheck = script.now();
    unit.busyUntil = script.now();
    planStored(world, unit, script.now());
}

void liveStored(World& world, UnitState& unit, Instant now) {
    Script script(world, &unit, now);
    const bool officeHours = world.calendar.atWork("office", now);
    if (unit.plan->maintenance && officeHours && unit.maintenanceDue - days(20) <= now) {
        script.runNamed("maintenance");
        unit.prepared = true;
        unit.lastRecheck = script.now();
        unit.maintenanceDue = now + days(365);
    } else if (unit.useAt <= now && mayStillBeUsed(world, unit, now)) {
        script.allowMishaps();
        script.run({{"do", {"deploy"}, {}, {}}});
        unit.busyUntil = script.now();
        planUse(world, unit, script.now());
        return;
    } else if (recheckAt(unit) <= now) {
        maybeLate(world, script);
        script.run({{"do", {"recheck"}, {}, {}}});
    }
    unit.busyUntil = script.now();
    planStored(world, unit, script.now());
}

void live(World& world, UnitState& unit, Instant now) {
    if (unit.pinned || !unit.alive()) {
        return;
    }
    if (now < unit.busyUntil) {
        wake(world, unit, unit.busyUntil);
    } else if (unit.inUse) {
        liveInUse(world, unit, now);
    } else if (!unit.prepared) {
        prepare(world, unit, now);
    } else {
        liveStored(world, unit, now);
    }
}

}  // namespace

void wake(World& world, UnitState& unit, Instant at) {
    const int token = ++unit.token;
    UnitState* const which = &unit;  // the fleet never grows: it stays where it is
    world.plan(at, [&world, which, token](Instant now) {
        if (which->token == token) {
            live(world, *which, now);
        }
    });
}

void goOn(World& world, UnitState& unit, Instant until) {
    unit.busyUntil = std::max(unit.busyUntil, until);
    if (unit.inUse) {
        unit.useUntil = std::max(unit.useUntil, later(world, until, {6, 40}));
        wake(world, unit, unit.useUntil);
    } else if (!unit.prepared) {
        wake(world, unit, later(world, until, unit.life->turnaround));
    } else {
        planStored(world, unit, until);
    }
}

}  // namespace station::demo
