// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The demo's hospital while it is being played: where each unit stands, who is at work, what is to
// happen next. Judges nothing: whether a unit is ready is never asked here.
#pragma once

#include "station/demo_calendar.h"
#include "station/demo_dice.h"
#include "station/demo_journal.h"
#include "station/demo_shelf.h"

#include <functional>
#include <map>
#include <queue>
#include <string>
#include <string_view>
#include <vector>

namespace station::demo {

struct FittedItem {
    std::string part;    // key in Scenario::parts
    std::string serial;  // "" of a disposable
    std::string lot;
};

struct UnitState {
    const Unit* plan = nullptr;
    const Kit* kit = nullptr;
    const Area* area = nullptr;
    const Life* life = nullptr;
    std::string group, location, room;
    ByKey<FittedItem> fitted;
    bool enrolled = false, retired = false, on = false, inUse = false, paused = false;
    bool prepared = false;       // its people take it for ready
    bool flawed = false;         // something went wrong when it was last prepared
    bool precautions = false;    // of the last use
    bool pinned = false;         // its ending has begun: it has no life of its own any more
    bool midUse = false;         // something is planned before this use ends
    Instant useAt{}, useUntil{}, lastRecheck{}, busyUntil{};
    Instant maintenanceDue{};
    std::string lastStation;
    Instant lastAt{};
    int token = 0;               // of the latest wake: earlier ones are void

    [[nodiscard]] bool alive() const { return enrolled && !retired; }
    [[nodiscard]] bool stored() const { return alive() && prepared && !inUse; }
};

class World {
public:
    World(const Scenario& wanted, std::uint64_t seed, Calendar days);

    const Scenario& scenario;
    Calendar calendar;
    Dice dice;
    Journal journal;
    Shelf shelf;
    std::vector<UnitState> units;
    int forms = 0;    // paper forms filled in so far
    int batches = 0;  // sessions so far

    // Later, at `at`. Things of one instant happen in the order in which they were planned.
    void plan(Instant at, std::function<void(Instant)> what);

    // Plays what is planned, and what that plans, until the end.
    void play();

    // Null if there is no such unit.
    [[nodiscard]] UnitState* unit(std::string_view serial);

    // One of those at work at that station who hold one of the roles; if there is none, one who
    // would be at another time.
    [[nodiscard]] const Person& someone(const std::vector<std::string>& roles,
                                        std::string_view station, Instant at);

    // From 1; by the true time.
    [[nodiscard]] int editionAt(Instant at) const;

    [[nodiscard]] Instant adoptedAt(const Edition& edition) const;

private:
    struct Planned {
        Instant at{};
        std::uint64_t order = 0;
        std::function<void(Instant)> what;
        bool operator>(const Planned& other) const {
            return at != other.at ? at > other.at : order > other.order;
        }
    };

    std::priority_queue<Planned, std::vector<Planned>, std::greater<>> m_agenda;
    std::uint64_t m_planned = 0;
};

}  // namespace station::demo
