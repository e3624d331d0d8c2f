// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Musters of random units against their plans.
#include "rules/muster.h"
#include "rules/plan_random.h"
#include "rules/plan_world.h"

#include <catch2/catch.hpp>

#include <iostream>

using namespace support;

namespace {

constexpr std::uint32_t firstSeed = 20260401;
constexpr std::uint32_t setUps = 1500;

}  // namespace

TEST_CASE("one unit for one person is ready when its plan says", "[property]") {
    std::cout << "musters against plans, seeds from " << firstSeed << std::endl;
    int plans = 0, sooner = 0;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + setUps; ++seed) {
        const RandomSetUp setUp(seed);
        INFO("seed " << seed << ", group " << setUp.group() << "\n" << setUp.rulebook());
        const auto state = stateOf(setUp.log(), asked("10:00"));
        const auto plan = rules::plan(state, deviceOf(state), when("10:00"), setUp.group());
        const auto muster = rules::muster(state, {when("10:00"), setUp.group(), 1, 1, {}});
        REQUIRE(muster.isEnough() == plan.readyAt.has_value());
        if (!plan.readyAt) {
            REQUIRE(muster.rest.size() == 1);
            CHECK(muster.rest[0].blockers == plan.blockers);
            continue;
        }
        ++plans;
        CHECK(muster.finish == plan.readyAt);
        CHECK(muster.units[0].readyAt == plan.readyAt);
        CHECK(muster.units[0].runsOut == plan.runsOut);
        CHECK(muster.exact);
        CHECK(muster.units[0].steps.size() == plan.tasks.size());
        CHECK(muster.finishOfOneMore <= muster.finish);
        sooner += muster.finishOfOneMore < muster.finish;
    }
    CHECK(plans > 500);
    CHECK(sooner > 20);
}
