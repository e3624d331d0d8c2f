// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Published schedules and bounds for several people (machines, in their words), against the rules
// for lists and the search.
#include "rules/crew_world.h"

#include <catch2/catch.hpp>

#include <numeric>

using namespace support;

namespace {

struct Anomaly {
    rules::Ms less = 0;    // taken off each time
    bool relaxed = false;  // without 4 before 5 and 6
};

// R. L. Graham, "Bounds on multiprocessing timing anomalies", SIAM J. Appl. Math. 17 (1969)
// 416-429: nine tasks, 1 before 9, 4 before 5, 6, 7 and 8.
Units graham(const Anomaly& change = {}) {
    const std::vector<rules::Ms> times{3, 2, 2, 2, 4, 4, 4, 4, 9};
    std::vector<Job> jobs;
    for (const rules::Ms takes : times) jobs.push_back(job(takes - change.less));
    for (const std::size_t each : {4, 5, 6, 7}) {
        if (!change.relaxed || each > 5) jobs[each].predecessors = {3};
    }
    jobs[8].predecessors = {0};
    return {unit(std::move(jobs))};
}

// Times as many of each as is said.
std::vector<rules::Ms> repeated(rules::Ms time, std::size_t count) {
    return std::vector<rules::Ms>(count, time);
}

// R. L. Graham, "Bounds for certain multiprocessing anomalies", Bell System Tech. J. 45 (1966):
// m(m-1) ones, then one m; the list rule needs 2m - 1, the best is m.
Units onesAndOneLong(std::size_t people) {
    auto times = repeated(1, people * (people - 1));
    times.push_back(static_cast<rules::Ms>(people));
    return {unitOf(times)};
}

// Graham 1969, theorem 3: two each of 2m-1 … m+1, and three m; the longest first needs 4m - 1, the
// best is 3m.
Units longestFirst(rules::Ms people) {
    std::vector<rules::Ms> times;
    for (rules::Ms time = 2 * people - 1; time > people; --time) {
        times.insert(times.end(), {time, time});
    }
    times.insert(times.end(), 3, people);
    return {unitOf(times)};
}

}  // namespace

TEST_CASE("Graham's anomalies of the list rule", "[reference]") {
    // Makespans of Graham 1969; also Wikipedia, "List scheduling".
    CHECK(listFinish(graham(), 3) == 12);
    CHECK(listFinish(graham(), 4) == 15);
    CHECK(listFinish(graham({.less = 1}), 3) == 13);
    CHECK(listFinish(graham({.relaxed = true}), 3) == 16);
    CHECK(listFinish(graham(), 3, {0, 1, 3, 4, 5, 2, 8, 6, 7}) == 14);
}

TEST_CASE("the search does not fall for Graham's anomalies", "[reference]") {
    // The best of all 9! lists in each case.
    CHECK(bestFinish(graham(), 3) == 12);
    CHECK(bestFinish(graham(), 4) == 12);
    CHECK(bestFinish(graham({.less = 1}), 3) == 10);
    CHECK(bestFinish(graham({.relaxed = true}), 3) == 12);
}

TEST_CASE("the textbook's lists of five", "[reference]") {
    // Wikipedia, "List scheduling": times 4, 5, 6, 7, 8.
    const Units five{unitOf({4, 5, 6, 7, 8})};
    CHECK(listFinish(five, 2) == 18);
    CHECK(listFinish(five, 3) == 13);
}

TEST_CASE("the bound of list scheduling is reached, and searched around", "[reference]") {
    // Graham 1966: no list needs more than 2 - 1/m times the best.
    for (const std::size_t people : {2U, 3U, 4U}) {
        const auto units = onesAndOneLong(people);
        const auto best = static_cast<rules::Ms>(people);
        CHECK(listFinish(units, people) == 2 * best - 1);
        CHECK(bestFinish(units, people) == best);
    }
}

TEST_CASE("the bound of the longest first is reached, and searched around", "[reference]") {
    // Graham 1969, theorem 3: no more than 4/3 - 1/(3m) times the best.
    for (const rules::Ms people : {2, 3, 4}) {
        const auto units = longestFirst(people);
        const auto count = static_cast<std::size_t>(people);
        CHECK(listFinish(units, count) == 4 * people - 1);
        CHECK(bestFinish(units, count) == 3 * people);
    }
}

TEST_CASE("one person takes what can begin first", "[reference]") {
    // E. L. Lawler, "Optimal sequencing of a single machine subject to precedence constraints",
    // Management Science 19 (1973): releases raised along what comes before, then the earliest
    // first. A(0,3) B(2,2) C(1,4) D(9,1) E(4,2), C before B, A before E, E before D: 12.
    std::vector<Job> jobs{job(3), job(2, {2}), job(4), job(1, {4}), job(2, {0})};
    const std::vector<rules::Ms> releases{0, 2, 1, 9, 4};
    for (std::size_t index = 0; index < jobs.size(); ++index) {
        jobs[index].release = logbook::Instant{releases[index]};
    }
    const Units units{unit(std::move(jobs))};
    const auto answer = bestOf(units, 1, 1).back();
    CHECK(answer.schedule.outcome.finish() == 12);
    CHECK(answer.bound == 12);
    CHECK(rules::listSchedule(rules::CrewWork(units, {}), 1, {0, 2, 4, 1, 3}).outcome.finish() ==
          12);
}

TEST_CASE("random lists keep Graham's bound", "[reference][property]") {
    // Graham 1966, for tasks of which some come before others.
    for (std::uint32_t seed = 1; seed <= 300; ++seed) {
        Random random(seed);
        INFO("seed " << seed);
        std::vector<Job> jobs;
        for (std::size_t index = 0; index < 8; ++index) {
            jobs.push_back(job(1 + random.below(9)));
            for (std::size_t other = 0; other < index; ++other) {
                if (random.chance(20)) jobs.back().predecessors.push_back(other);
            }
        }
        const Units units{unit(std::move(jobs))};
        for (const std::size_t people : {2U, 3U}) {
            const auto count = static_cast<rules::Ms>(people);
            const auto best = bestOf(units, people, 1).back();
            REQUIRE(best.complete);
            CHECK(listFinish(units, people) * count <=
                  (2 * count - 1) * best.schedule.outcome.finish());
            CHECK(listFinish(units, people) >= best.schedule.outcome.finish());
        }
    }
}
