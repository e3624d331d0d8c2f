// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The search for the best schedule of several people against a second model that tries everything,
// and what holds for all schedules.
#include "rules/crew_world.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <iostream>

using namespace support;

namespace {

constexpr std::uint32_t firstSeed = 20260306;
constexpr int crews = 1000;

// Nobody does two things at once, nothing begins before it can, each unit is left alone by others
// while it is checked.
void checkAllowed(const Units& units, std::size_t people, const rules::CrewSchedule& schedule) {
    const rules::CrewWork work(units, {});
    const auto by = rules::peopleOf(work, people, schedule);
    CHECK(std::is_sorted(schedule.starts.begin(), schedule.starts.end()));
    for (std::size_t then = 0; then < schedule.order.size(); ++then) {
        const auto& late = work.pieces()[schedule.order[then]];
        const Job& job = units[late.unit].jobs[late.job];
        CHECK(by[then] < people);
        if (job.release) CHECK(schedule.starts[then] >= job.release->ms);
        for (std::size_t first = 0; first < then; ++first) {
            const auto& early = work.pieces()[schedule.order[first]];
            const rules::Ms start = schedule.starts[first];
            if (by[first] == by[then]) CHECK(start + early.attended <= schedule.starts[then]);
            if (early.unit != late.unit) continue;
            const rules::Ms over = start + early.takes;
            const bool apart =
                (early.alone && (late.alone || late.handsOff)) || (early.handsOff && late.alone);
            if (apart) CHECK(over <= schedule.starts[then]);
            for (const auto& lag : job.lags) {
                if (lag.task == early.job) CHECK(over + lag.wait.ms <= schedule.starts[then]);
            }
        }
        for (const auto before : job.predecessors) {
            const auto place = std::find(schedule.order.begin(), schedule.order.end(),
                                         work.first(late.unit) + before);
            REQUIRE(place != schedule.order.end());
            const auto start = schedule.starts[place - schedule.order.begin()];
            CHECK(start + units[late.unit].jobs[before].takes.ms <= schedule.starts[then]);
        }
    }
}

// No bound is higher than what can be done.
void checkBounds(const RandomCrew& crew, rules::Ms best) {
    const rules::CrewWork work(crew.units(), {});
    std::vector<rules::Ms> floors;
    for (std::size_t unit = 0; unit < crew.units().size(); ++unit) {
        floors.push_back(rules::finishBound(work, crew.people(), unit));
        const auto alone = outcomeByClock({crew.units()[unit]}, crew.people(), 1);
        CHECK(floors.back() <= alone.finish());
    }
    CHECK(rules::finishBound(work, crew.people(), crew.wanted(), floors) <= best);
}

}  // namespace

TEST_CASE("a crew's schedule is the best of all", "[property]") {
    std::cout << "crews against all schedules, seeds from " << firstSeed << std::endl;
    int choices = 0, several = 0;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + crews; ++seed) {
        const RandomCrew crew(seed);
        INFO("seed " << seed << "\n" << crew.text());
        const auto answer = bestOf(crew.units(), crew.people(), crew.wanted()).back();
        const auto expected = outcomeByClock(crew.units(), crew.people(), crew.wanted());
        CHECK(answer.schedule.outcome.ready == expected.ready);
        CHECK(answer.schedule.outcome.attended == expected.attended);
        CHECK(answer.complete);
        CHECK(answer.bound == expected.finish());
        checkAllowed(crew.units(), crew.people(), answer.schedule);
        checkBounds(crew, expected.finish());
        choices += crew.wanted() < crew.units().size();
        several += crew.people() > 1 && crew.wanted() > 1;
    }
    CHECK(choices > crews / 5);
    CHECK(several > crews / 5);
}

TEST_CASE("more people are never later", "[property]") {
    for (std::uint32_t seed = 1; seed <= 12; ++seed) {
        Random random(seed);
        Units units;
        for (int count = 8 + random.below(8); count > 0; --count) {
            std::vector<Job> jobs;
            for (int left = 2 + random.below(6); left > 0; --left) {
                const rules::Ms takes = 1 + random.below(20);
                jobs.push_back(random.chance(40) ? fit(takes) : check(takes, takes / 2));
                if (jobs.size() > 1 && random.chance(50)) jobs.back().predecessors = {0};
            }
            units.push_back(unit(std::move(jobs)));
        }
        const std::size_t wanted = units.size() / 2;
        const rules::CrewWork work(units, {});
        const rules::Effort little{500, 500};
        const auto answers = rules::bestSchedules(work, 6, wanted, little);
        for (std::size_t people = 1; people <= answers.size(); ++people) {
            INFO("seed " << seed << ", " << people << " people");
            const auto& answer = answers[people - 1];
            // Asked for so many alone, the answer is the same.
            const auto again = rules::bestSchedules(work, people, wanted, little).back();
            CHECK(again.schedule.order == answer.schedule.order);
            CHECK(again.schedule.starts == answer.schedule.starts);
            CHECK(answer.bound <= answer.schedule.outcome.finish());
            checkAllowed(units, people, answer.schedule);
            if (people > 1) CHECK(answer.schedule.outcome <= answers[people - 2].schedule.outcome);
        }
    }
}
