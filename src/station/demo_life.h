// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// An ordinary unit's days: prepared, looked after while it stands, used, cleaned, prepared again.
#pragma once

#include "station/demo_world.h"

namespace station::demo {

// From `at` on the unit has a life of its own, until its ending begins.
void wake(World& world, UnitState& unit, Instant at);

// After something else was done to the unit until `until`, its life goes on from there.
void goOn(World& world, UnitState& unit, Instant until);

// The first days: editions and persons, the fleet, the units' acceptance; arrivals later on.
void planOpening(World& world);

// What the department does by the clock: washer loads, the night round, the signed handover.
void planDays(World& world);

// What the scenario says goes wrong, and how each unit ends.
void planEvents(World& world);
void planEndings(World& world);

}  // namespace station::demo
