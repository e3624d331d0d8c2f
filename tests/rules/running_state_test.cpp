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

// Given many records at a time: a portion ends after one record in `cuts`; 0: all are one portion.
struct Batching {
    const rules::Log& log;
    const rules::Groundwork& groundwork;
    int cuts = 0;
    rules::RunningState::InRow inRow{};

    std::string foldedTo(Instant at, Instant knownAt, Random& dice) {
        rules::RunningState running(groundwork, knownAt);
        std::vector<const logbook::Record*> batch;
        std::int64_t takingPart = 0;
        for (std::size_t index = 0; index < log.records().size(); ++index) {
            if (log.records()[index].at > at) break;
            batch.push_back(&log.records()[index]);
            takingPart += log.takesPart(index, knownAt) ? 1 : 0;
            if (cuts > 0 && dice.below(cuts) == 0) {
                running.add(batch);
                batch.clear();
            }
        }
        running.add(batch);
        CHECK(running.folded() == takingPart);
        inRow.rows += running.inRow().rows;
        inRow.records += running.inRow().records;
        return describe(running.state());
    }
};

// Few units that swap their parts all the time, or many with parts enough.
RandomShape manyUnits(Random& dice) {
    return {.records = 300,
            .stations = 4,
            .devices = 2 + dice.below(11),
            .serials = 1 + dice.below(40),
            .serialsPercent = 85,
            .namesAnew = true};
}

}  // namespace

TEST_CASE("folding as it is read comes to the state of the whole log", "[property]") {
    int struck = 0;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 200; ++seed) {
        CAPTURE(seed);
        RandomLog random(seed, {});
        const auto log = toLog(random.log());
        const auto groundwork = groundworkOf(random.log().records());
        for (int question = 0; question < 6; ++question) {
            const Instant at = random.anyInstant();
            const Instant knownAt = question % 2 == 0 ? rules::unlimited : random.anyInstant();
            CHECK(groundwork.hasEdition(at, knownAt) == log.hasEdition(at, knownAt));
            REQUIRE(foldedTo(log, groundwork, at, knownAt) ==
                    describe(log.stateAt(at, knownAt)));
        }
        for (const auto& record : log.records()) struck += groundwork.struckBy(record) ? 1 : 0;
    }
    CHECK(struck > 50);
}

TEST_CASE("folding unit by unit comes to the state of the whole log", "[property]") {
    std::int64_t records = 0, rows = 0;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 100; ++seed) {
        CAPTURE(seed);
        Random dice(seed);
        RandomLog random(seed, manyUnits(dice));
        const auto log = toLog(random.log());
        const auto groundwork = groundworkOf(random.log().records());
        for (int question = 0; question < 4; ++question) {
            const Instant at = question == 0 ? random.end() : random.anyInstant();
            const Instant knownAt = question % 2 == 0 ? rules::unlimited : random.anyInstant();
            Batching batching{log, groundwork, question < 2 ? 0 : 1 + dice.below(60)};
            REQUIRE(batching.foldedTo(at, knownAt, dice) == describe(log.stateAt(at, knownAt)));
            if (question > 0) continue;
            records += batching.inRow.records;
            rows += batching.inRow.rows;
        }
    }
    CHECK(records > 100 * 200);
    CHECK(records > 2 * rows);
}

TEST_CASE("what comes many at once is folded unit by unit", "[unit]") {
    LogBuilder log = logWith(book("[positions.sensor]\n"));
    log.on("KB-2").enrol({"adult"});
    for (int number = 0; number < 20; ++number) log.on("KB-" + std::to_string(number % 4)).note();
    log.on("KB-1").fit("sensor", {{"serial", "P1"}});
    for (int number = 0; number < 20; ++number) log.on("KB-" + std::to_string(number % 4)).note();
    log.on("KB-2").fit("sensor", {{"serial", "P1"}});
    for (int number = 0; number < 20; ++number) log.on("KB-" + std::to_string(number % 4)).note();
    const auto all = toLog(log);
    const auto groundwork = groundworkOf(log.records());
    rules::RunningState running(groundwork, rules::unlimited);
    std::vector<const logbook::Record*> records;
    for (const auto& record : all.records()) records.push_back(&record);
    running.add(records);
    CHECK(running.folded() == static_cast<std::int64_t>(records.size()));
    // All but the edition and the part that goes over; before which its two units come, and after
    // it once more.
    CHECK(running.inRow().records == running.folded() - 2);
    CHECK(running.inRow().rows == 4 + 2);
    CHECK(describe(running.state()) == describe(stateOf(log)));
    CHECK(deviceOf(running.state(), "KB-2").fitted.contains("sensor"));
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
