// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a change of a part on a patient takes: no more than it makes due, in an order that counts.
#include "rules/change.h"

#include "rules/plan_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

// In use with a circuit and an HME; nothing was ever checked.
LogBuilder inUse(const std::string& checks) {
    LogBuilder log = logWith(book("[positions.circuit]\nrequired = true\n[positions.hme]\n"
                                  "[positions.filter]\n" + checks));
    for (const auto* position : {"circuit", "hme", "filter"})
        log.on(device).fit(position, {{"groups", list({"adult"})}});
    log.on(device).useStart();
    return log;
}

std::string tasksOf(const LogBuilder& log, const rules::Change& change) {
    const auto state = stateOf(log, asked("10:00"));
    return joined(rules::tasksOf(state, deviceOf(state), when("10:00"), change),
                  [](const rules::Task& each) { return toText(each); });
}

const std::string leak =
    "[checks.leak]\ntakes = \"PT2M\"\nvoided_by = [{ event = \"change circuit\" }]\n";
const std::string notWithHme = "not_with = [{ position = \"hme\" }]\n";
const std::string alarmTest =
    "[checks.alarm]\ntakes = \"PT1M\"\nvoided_by = [{ event = \"fit hme\" }]\n";

}  // namespace

TEST_CASE("a change in use takes what it makes due and no more", "[unit]") {
    const rules::Change circuit{{"circuit"}, {}};
    // The alarm test is due too, but not by the circuit.
    CHECK(tasksOf(inUse(leak + alarmTest), circuit) == "fit circuit, check leak");
    CHECK(tasksOf(inUse(leak + "after = [\"alarm\"]\n" + alarmTest), circuit) ==
          "fit circuit, check alarm, check leak");
    CHECK(tasksOf(inUse(leak), {{"filter"}, {}}) == "fit filter");
    CHECK(tasksOf(inUse(leak), {{}, {"leak"}}) == "check leak");
    CHECK(tasksOf(inUse(leak), {}).empty());
    // What lacks in another position is put right besides where that is asked.
    LogBuilder bare = inUse(leak);
    bare.on(device).remove("circuit");
    CHECK(tasksOf(bare, {{"filter"}, {}}) == "fit filter");
    CHECK(tasksOf(bare, {{"filter"}, {}, true}) == "fit circuit, fit filter, check leak");
}

TEST_CASE("what is in line of a check comes out before it and goes back after", "[unit]") {
    const auto log = inUse(leak + notWithHme + alarmTest);
    CHECK(tasksOf(log, {{"circuit"}, {}}) ==
          "remove hme, fit circuit, check leak, fit hme, check alarm");
    CHECK(tasksOf(log, {{}, {"leak"}}) == "remove hme, check leak, fit hme, check alarm");
    // Nothing is in line of the alarm test.
    CHECK(tasksOf(log, {{}, {"alarm"}}) == "check alarm");
    // No order allows what has to be before and after at once.
    CHECK(tasksOf(inUse("[checks.leak]\ntakes = \"PT2M\"\n" + notWithHme +
                        "needs_match = [\"hme\"]\n"),
                  {{}, {"leak"}})
              .empty());
}
