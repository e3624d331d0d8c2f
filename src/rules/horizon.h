// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking ahead: with nothing further recorded, which units stop being ready when, which groups
// fall below their par, and the least work that prevents it.
#pragma once

#include "rules/plan.h"

#include <optional>
#include <string>
#include <vector>

namespace rules {

// A ready unit that stops being ready.
struct Lapse {
    std::string device;
    std::optional<std::string> group;
    Instant at{};
    std::vector<Finding> findings;  // those that block then
};

// Work on a unit in one go: what it lacks by then, as its plan orders it.
struct Session {
    Instant begin{};            // of the first task; of a unit that is off: it is switched on
    Instant by{};               // all is finished; a renewal in time: by when it lapses
    Duration attended{};        // the time a person is busy with it
    std::vector<Task> tasks{};  // in order, at the times of this session
};

// Work on one unit that keeps it, or makes it, ready to the end of the horizon.
struct Remedy {
    std::string device;
    bool renewal = false;  // of a ready unit that would lapse; else of one that is not ready now
    Instant from{};        // it counts as ready from then on, thanks to this
    Duration attended{};   // of all sessions
    std::vector<Session> sessions;
};

struct GroupHorizon {
    std::string group;
    int par = 0;
    int ready = 0;                     // at the start
    int least = 0;                     // the lowest number within the horizon
    std::optional<Instant> belowFrom;  // the first instant below par; the start if it is so already
    std::vector<Remedy> remedies;      // by (first session's begin, device)
    std::optional<Instant> heldFrom;   // with the remedies the group is at par from then to the end
    std::optional<Instant> shortFrom;  // with them it falls below par for good then
    int lacking = 0;                   // units below par at the end, with the remedies
    std::vector<std::string> beyond;   // units of the group that no work here can help; by serial
};

struct Horizon {
    Instant from{}, to{};
    std::vector<Lapse> lapses;         // by (instant, device)
    std::vector<GroupHorizon> groups;  // those with a par, by key
};

// The most sessions by which a unit is kept ready; one that asks for more is no remedy.
inline constexpr std::size_t mostSessions = 64;

// Units count, and are prepared, for their selected group; one that has none selected may be
// prepared for any of its groups.
//
// What may be chosen from: of a ready unit that lapses in time, its renewals; of one that is not
// ready, its plan by one person, begun at once, and the renewals after that. Each counts only if it
// lasts to the end of the horizon: renewed each time something lapses, alone or with what lapses
// before it is due again, or all that lapses done in one go at the first; whichever asks least of a
// person, and of those that ask the same the one of the fewest sessions. Units in use, held, or
// whose plan has blockers are no remedy. While a ready unit is worked on it counts as ready.
//
// Of these the choice is the one that fills most of what the groups lack, all groups together;
// among those, that which is too late for the fewest; among those, that of the least attended time.
// What is lacking at the start cannot be filled in time, and whatever fills it within the horizon
// counts as not late.
[[nodiscard]] Horizon horizon(const State& state, Instant at, Duration ahead);

}  // namespace rules
