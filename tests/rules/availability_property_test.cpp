// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Times of the month on random logs against a dense sample: all that happens in these logs, and all
// that runs out in them, does so on whole minutes, so that a look in the middle of each minute adds
// up to the exact time.
#include "rules/month.h"
#include "support/random_log.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

constexpr std::uint32_t firstSeed = 20260701;
constexpr std::int64_t minuteMs = 60'000;

using Counts = std::map<std::string, std::map<std::string, std::int64_t>>;  // minutes

struct Sample {
    Counts devices;                              // by device and verdict
    std::map<std::string, std::int64_t> below;   // by group
    std::map<std::string, std::vector<Instant>> ready;  // by device, middles of minutes
};

// Looks at the log in the middle of each minute of [from, to).
class Sampling {
public:
    Sampling(const rules::Log& log, Instant knownAt) : m_log(log), m_knownAt(knownAt) {
        m_state.rulebook = log.firstEdition();
    }

    Sample run(Instant from, Instant to) {
        for (Instant middle{from.ms + minuteMs / 2}; middle < to; middle.ms += minuteMs) {
            foldUntil(middle);
            look(middle);
        }
        return std::move(m_sample);
    }

private:
    void foldUntil(Instant at) {
        for (; m_next < m_log.records().size() && m_log.records()[m_next].at <= at; ++m_next) {
            if (!m_log.takesPart(m_next, m_knownAt)) continue;
            rules::fold(m_state, m_log.records()[m_next], m_log.editions());
        }
    }

    void look(Instant middle) {
        std::map<std::string, int> ready;
        if (!m_state.adopted) return;
        for (const auto& [serial, device] : m_state.devices) {
            if (device->retired) continue;
            const auto found =
                rules::assess(m_state, *device, {middle, std::nullopt, false, false, false});
            ++m_sample.devices[serial][std::string(rules::name(found.verdict))];
            if (found.verdict != rules::Verdict::Ready) continue;
            m_sample.ready[serial].push_back(middle);
            if (found.group) ++ready[*found.group];
        }
        for (const auto& group : m_state.rulebook->groups) {
            if (group.par && ready[group.key] < *group.par) ++m_sample.below[group.key];
        }
    }

    const rules::Log& m_log;
    Instant m_knownAt;
    rules::State m_state;
    std::size_t m_next = 0;
    Sample m_sample;
};

std::int64_t minutesOf(logbook::Duration time) {
    REQUIRE(time.ms % minuteMs == 0);
    return time.ms / minuteMs;
}

void checkTurnaround(const rules::Turnaround& turnaround, const std::vector<Instant>& ready) {
    const Instant end = turnaround.from + turnaround.took;
    for (const Instant each : ready) REQUIRE_FALSE((each > turnaround.from && each < end));
    if (turnaround.censored) return;
    const Instant after{end.ms + minuteMs / 2};
    REQUIRE(std::find(ready.begin(), ready.end(), after) != ready.end());
}

void checkMonth(const rules::Log& log, std::chrono::month month, Instant knownAt,
                std::map<std::string, int>& seen) {
    const std::chrono::year_month asked{std::chrono::year{2026}, month};
    const auto answer = rules::month(log, {asked, std::nullopt, knownAt});
    if (!answer) return;
    // By default the month ends 1 ms after the last entry, which is whole minutes and no time.
    const Instant to{answer->to.ms - answer->to.ms % minuteMs};
    auto cut = rules::month(log, {asked, to, knownAt});
    REQUIRE(cut);
    auto sample = Sampling(log, knownAt).run(cut->from, cut->to);
    REQUIRE(cut->devices.size() == sample.devices.size());
    for (const auto& device : cut->devices) {
        auto& counts = sample.devices[device.device];
        CAPTURE(device.device);
        for (const auto verdict : {rules::Verdict::Ready, rules::Verdict::InUse,
                                   rules::Verdict::Withdrawn, rules::Verdict::NotReady}) {
            CAPTURE(rules::name(verdict));
            const auto index = static_cast<std::size_t>(verdict);
            REQUIRE(minutesOf(device.times.at(index)) == counts[std::string(rules::name(verdict))]);
        }
        for (const auto& [verdict, count] : counts) seen[verdict] += count > 0;
    }
    for (const auto& group : cut->groups) {
        REQUIRE(minutesOf(group.belowPar) == sample.below[group.group]);
        seen["below"] += sample.below[group.group] > 0;
    }
    for (const auto& turnaround : cut->turnarounds) {
        checkTurnaround(turnaround, sample.ready[turnaround.device]);
        ++seen[turnaround.censored ? "censored" : "turnaround"];
    }
}

}  // namespace

TEST_CASE("times of the month are those of a look at every minute", "[property]") {
    std::map<std::string, int> seen;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 12; ++seed) {
        CAPTURE(seed);
        RandomLog random(seed, {.records = 90});
        const auto log = toLog(random.log());
        for (const auto month : {std::chrono::March, std::chrono::April}) {
            checkMonth(log, month, rules::unlimited, seen);
            checkMonth(log, month, random.anyInstant(), seen);
        }
    }
    for (const std::string each : {"ready", "in_use", "withdrawn", "not_ready", "below",
                                   "turnaround", "censored"}) {
        CAPTURE(each);
        CHECK(seen[each] > 0);
    }
}
