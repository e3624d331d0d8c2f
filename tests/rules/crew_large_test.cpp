// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Crews on a whole fleet: soon answered, and close to what cannot be bettered.
#include "rules/crew_world.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <iostream>

using namespace support;

namespace {

constexpr rules::Ms minute = 60'000;

// The search counts its steps, so it ends by itself; this only notices if it grows out of all
// proportion. It takes about a second, and many times that under sanitizers on a busy computer.
constexpr double farTooLong = 120.0;

// A unit after use: some parts to fit, one to reprocess, checks after them, a new oxygen cell to
// wait for. How long things take is common practice, no source.
Sequencing anyUnit(Random& random) {
    std::vector<Job> jobs;
    std::vector<std::size_t> parts;
    if (random.chance(30)) {
        parts.push_back(jobs.size());
        jobs.push_back(job(30 * minute));
        jobs.back().attended = {5 * minute};
    }
    for (const int percent : {80, 40, 50}) {
        if (!random.chance(percent)) continue;
        parts.push_back(jobs.size());
        jobs.push_back(fit((1 + random.below(3)) * minute));
    }
    jobs.push_back(check((2 + random.below(3)) * minute, 2 * minute, parts));
    if (random.chance(70)) jobs.push_back(check(2 * minute, minute, parts));
    if (random.chance(30)) {
        const std::size_t cell = jobs.size();
        jobs.push_back(fit(2 * minute));
        jobs.push_back(check(5 * minute, minute, {cell}));
        jobs.back().lags.push_back({cell, {20 * minute}});
    }
    if (random.chance(60)) jobs.push_back(check(4 * minute, 4 * minute, {}));
    return unit(std::move(jobs));
}

}  // namespace

TEST_CASE("many people are never later for being more", "[property]") {
    Random random(4);
    Units units;
    while (units.size() < 20) units.push_back(anyUnit(random));
    const auto answers = bestOf(units, 101, 20);
    REQUIRE(answers.size() == 101);
    for (std::size_t people = 1; people < answers.size(); ++people) {
        CHECK(answers[people].schedule.outcome <= answers[people - 1].schedule.outcome);
        CHECK(answers[people].bound <= answers[people].schedule.outcome.finish());
    }
    CHECK(answers.back().bound == answers.back().schedule.outcome.finish());
}

TEST_CASE("twelve of sixty units are close to the bound and soon found", "[property]") {
    rules::Ms above = 0, finishes = 0;
    for (std::uint32_t seed = 1; seed <= 3; ++seed) {
        INFO("seed " << seed);
        Random random(seed);
        Units units;
        while (units.size() < 60) units.push_back(anyUnit(random));
        const auto before = std::chrono::steady_clock::now();
        const auto answers = bestOf(units, 5, 12);
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - before;
        std::cout << "twelve of sixty units, seed " << seed << ": " << took.count() << " s\n";
        CHECK(took.count() < farTooLong);
        for (const auto& answer : answers) {
            CHECK(answer.bound <= answer.schedule.outcome.finish());
            CHECK(answer.schedule.outcome.ready.size() == 12);
            above += answer.schedule.outcome.finish() - answer.bound;
            finishes += answer.schedule.outcome.finish();
        }
    }
    CHECK(above * 100 <= finishes * 3);
}
