// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Plans under the rulebooks that are shipped, carried out by writing the records: the device is
// ready when the plan said, unless it said what runs out before.
#include "rules/plan_history.h"
#include "support/folder.h"
#include "support/rulebook_texts.h"

#include <catch2/catch.hpp>

#include <iostream>

using namespace support;

namespace {

constexpr std::uint32_t firstSeed = 20260302;
constexpr std::uint32_t histories = 700;

struct Tally {
    int ready = 0, runsOut = 0, blocked = 0, closing = 0, unattended = 0, waits = 0, groups = 0;

    void count(const rules::Plan& plan) {
        const auto any = [&plan](auto holds) {
            return std::any_of(plan.tasks.begin(), plan.tasks.end(), holds);
        };
        closing += any([](const auto& task) { return task.closing; });
        unattended += any([](const auto& task) { return task.attended < task.finish; });
        waits += any([](const auto& task) { return task.notBefore.has_value(); });
        groups += any([](const auto& task) { return task.kind == rules::TaskKind::Group; });
    }
};

std::ostream& operator<<(std::ostream& out, const Tally& tally) {
    return out << "ready " << tally.ready << ", something ran out " << tally.runsOut << ", blocked "
               << tally.blocked << "; with closing fits " << tally.closing << ", unattended tasks "
               << tally.unattended << ", waits " << tally.waits << ", a change of group "
               << tally.groups;
}

std::string describe(const rules::Plan& plan) {
    return joined(plan.tasks, [](const rules::Task& task) {
        return "\n" + toText(task) + " " + logbook::toText(task.start) + " " +
               logbook::toText(task.finish);
    });
}

void planAndCarryOut(RandomHistory& history, Tally& tally) {
    const auto before = history.state();
    const auto plan = rules::plan(before, deviceOf(before), history.end(), history.anyGroup());
    if (!plan.readyAt) {
        CHECK_FALSE(plan.blockers.empty());
        ++tally.blocked;
        return;
    }
    history.carryOut(plan);
    tally.count(plan);
    const auto state = history.state();
    const auto then =
        rules::assess(state, deviceOf(state), {*plan.readyAt, std::nullopt, false, false});
    INFO(describe(plan));
    INFO(findings(then));
    CHECK(then.group == plan.group);
    if (plan.runsOut.empty()) {
        CHECK(verdict(then) == "ready");
        ++tally.ready;
        return;
    }
    ++tally.runsOut;
    for (const auto& text : plan.runsOut) CHECK_NOTHROW(finding(then, text));
}

Tally planUnder(const std::string& name) {
    const auto text = bytesOf(AIRMUSTER_SOURCE_DIR "/data/rulebooks/" + name + ".toml");
    const auto book = taken(text);
    std::cout << "plans carried out, " << name << ", seeds from " << firstSeed << std::endl;
    Tally tally;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + histories; ++seed) {
        INFO(name << ", seed " << seed);
        RandomHistory history(seed, text, book);
        planAndCarryOut(history, tally);
    }
    std::cout << tally << std::endl;
    return tally;
}

}  // namespace

TEST_CASE("a plan carried out makes the device ready when it said", "[property]") {
    int closing = 0;
    for (const std::string name : {"adult_intensive_care", "neonatal_unit", "transport"}) {
        const auto tally = planUnder(name);
        INFO(name);
        CHECK(tally.ready > 0);
        CHECK(tally.runsOut > 0);
        CHECK(tally.blocked > 0);
        CHECK(tally.unattended > 0);
        CHECK(tally.waits > 0);
        CHECK(tally.groups > 0);
        closing += tally.closing;
    }
    CHECK(closing > 0);
}
