// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// How long each device had which verdict, how long a group was below its par, and how long units
// took from the end of a use to ready: exact times over a period.
#pragma once

#include "rules/assess.h"
#include "rules/fold.h"

#include <array>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

namespace rules {

// Time in each verdict but retired, by Verdict.
struct DeviceTime {
    std::string device;
    std::array<Duration, 4> times{};
};

struct GroupTime {
    std::string group;
    Duration belowPar{};
};

// From the end of a use to ready; censored: cut off before the device was ready.
struct Turnaround {
    std::string device;
    Instant from{};
    Duration took{};
    bool censored = false;
};

// Follows a log over a period [from, to): begin() with the state before it, then each record with
// folded(), and settle() when all records of one instant are folded; finish() at last.
class Timeline {
public:
    struct Period {
        Instant from{}, to{};
        Instant countFrom{};  // the first adopt, or `from` if that is later: times count from here
    };

    explicit Timeline(const Period& period) : m_period(period) {}

    void begin(const State& state);
    void folded(const logbook::Record& record, const Effect& effect);
    void settle(Instant at, const State& state);
    void finish();

    [[nodiscard]] std::vector<DeviceTime> deviceTimes() const;  // by device; those with any time
    [[nodiscard]] std::vector<GroupTime> groupTimes() const;    // by group; those with a par
    [[nodiscard]] std::vector<Turnaround> turnarounds() const;  // by (from, device)

private:
    struct Track {
        Verdict verdict = Verdict::Retired;
        std::optional<std::string> group;
        Instant since{};
        std::optional<Instant> readyUntil;
        std::array<Duration, 4> times{};
    };
    struct Span {
        Instant from{}, to{};
    };
    struct ParChange {
        Instant at{};
        std::optional<int> par;
    };

    void look(const std::string& device, const State& state, Instant at);
    void advance(Track& track, Instant to);
    void count(Track& track, Instant to);
    void noteEdition(const State& state, Instant at);
    [[nodiscard]] Duration belowPar(const std::vector<ParChange>& pars,
                                    const std::vector<Span>& ready) const;

    Period m_period;
    std::map<std::string, Track> m_tracks;
    std::set<std::string> m_touched;  // at the instant being folded
    bool m_touchedAll = false;
    std::shared_ptr<const Rulebook> m_rulebook;
    std::map<std::string, std::vector<ParChange>> m_pars;  // by group
    std::map<std::string, std::vector<Span>> m_ready;      // by group
    std::map<std::string, Instant> m_waiting;              // end of use, by device
    std::vector<Turnaround> m_turnarounds;
};

}  // namespace rules
