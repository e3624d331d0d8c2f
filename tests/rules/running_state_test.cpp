// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A log folded as it is read, by what its groundwork says, against the whole log.
#include "rules/running_state.h"

#include "support/describe.h"
#include "support/random_log.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

constexpr std::uint32_t firstSeed = 20261128;

bool isStrike(const logbook::Record& record) { return record.kind() == logbook::Kind::Strike; }

// The strikes in the order of the records given.
rules::Groundwork groundworkOf(const std::vector<logbook::Record>& records) {
    rules::Groundwork groundwork(records, zones());
    for (const auto& record : records) {
        if (isStrike(record)) groundwork.addStrike(record);
    }
    return groundwork;
}

std::string foldedTo(const rules::Log& log, const rules::Groundwork& groundwork, Instant at,
                     Instant knownAt) {
    rules::RunningState running(groundwork, knownAt);
    std::int64_t takingPart = 0;
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        if (log.records()[index].at > at) break;
        running.add(log.records()[index]);
        takingPart += log.takesPart(index, knownAt) ? 1 : 0;
    }
    CHECK(running.folded() == takingPart);
    return describe(running.state());
}

// The same, given a random number of records at a time.
std::string foldedByBatches(const rules::Log& log, const rules::Groundwork& groundwork, Instant at,
                            Random& dice) {
    rules::RunningState running(groundwork, rules::unlimited);
    std::vector<const logbook::Record*> batch;
    std::int64_t takingPart = 0;
    for (std::size_t index = 0; index < log.records().size(); ++index) {
        if (log.records()[index].at > at) break;
        batch.push_back(&log.records()[index]);
        takingPart += log.takesPart(index, rules::unlimited) ? 1 : 0;
        if (dice.chance(5)) {
            running.add(batch);
            batch.clear();
        }
    }
    running.add(batch);
    CHECK(running.folded() == takingPart);
    return describe(running.state());
}

}  // namespace

TEST_CASE("folding as it is read comes to the state of the whole log", "[property]") {
    int struck = 0;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 200; ++seed) {
        CAPTURE(seed);
        RandomLog random(seed, {});
        Random dice(seed);
        const auto log = toLog(random.log());
        const auto groundwork = groundworkOf(random.log().records());
        for (int question = 0; question < 6; ++question) {
            const Instant at = random.anyInstant();
            const Instant knownAt = question % 2 == 0 ? rules::unlimited : random.anyInstant();
            CHECK(groundwork.hasEdition(at, knownAt) == log.hasEdition(at, knownAt));
            REQUIRE(foldedTo(log, groundwork, at, knownAt) ==
                    describe(log.stateAt(at, knownAt)));
            REQUIRE(foldedByBatches(log, groundwork, at, dice) ==
                    describe(log.stateAt(at, rules::unlimited)));
        }
        for (const auto& record : log.records()) struck += groundwork.struckBy(record) ? 1 : 0;
    }
    CHECK(struck > 50);
}

TEST_CASE("the order in which strikes are added changes nothing", "[property]") {
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 100; ++seed) {
        CAPTURE(seed);
        RandomLog random(seed, {});
        auto records = random.log().records();
        const auto groundwork = groundworkOf(records);
        Random dice(seed);
        dice.shuffle(records);
        const auto shuffled = groundworkOf(records);
        for (const auto& record : records) {
            CHECK(groundwork.struckBy(record) == shuffled.struckBy(record));
            const Instant knownAt = random.anyInstant();
            CHECK(groundwork.takesPart(record, knownAt) == shuffled.takesPart(record, knownAt));
        }
    }
}
