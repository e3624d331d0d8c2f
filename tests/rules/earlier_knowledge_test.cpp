// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The pass by earlier knowledge on random logs: each state it gives is the fold of all that was
// known, from the beginning of the log, in every field of every unit and part.
#include "rules/earlier_knowledge.h"

#include "rules/same_state.h"
#include "support/describe.h"
#include "support/random_log.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

constexpr std::uint32_t firstSeed = 20260901;

rules::State foldedBefore(const rules::Log& log, std::size_t index, Instant knownAt) {
    rules::State state;
    state.rulebook = log.firstEdition();
    for (std::size_t each = 0; each < index; ++each) {
        if (log.takesPart(each, knownAt)) rules::fold(state, log.records()[each], log.editions());
    }
    return state;
}

template <class Map>
void checkSame(const Map& found, const Map& wanted) {
    REQUIRE(found.size() == wanted.size());
    for (const auto& [key, value] : wanted) {
        REQUIRE(found.contains(key));
        REQUIRE(same(*found.find(key)->second, *value));
    }
}

void checkSame(const rules::State& found, const rules::State& wanted, Instant at) {
    REQUIRE(sameAuthority(found, wanted));
    REQUIRE(sameNotices(found, wanted));
    checkSame(found.devices, wanted.devices);
    checkSame(found.parts, wanted.parts);
    for (const auto& [serial, device] : wanted.devices) {
        const auto findings = [&](const rules::State& state) {
            const auto assessment = assess(state, *state.device(serial), {at, std::nullopt});
            return joined(assessment.findings, [](const auto& each) { return describe(each); });
        };
        CAPTURE(serial);
        REQUIRE(findings(found) == findings(wanted));
    }
}

// Asked again and again on the way through the log, for up to as many minutes before and after.
void checkPass(RandomLog& random, int records, int minutesApart) {
    const auto log = toLog(random.log());
    rules::EarlierKnowledge earlier(log);
    std::size_t index = 0;
    while (true) {
        index += static_cast<std::size_t>(random.random().below(records));
        if (index >= log.records().size()) return;
        const Instant at = log.records()[index].at;
        const int apart = random.random().below(2 * minutesApart) - minutesApart;
        const Instant knownAt = at + minutes(apart);
        CAPTURE(index, toText(knownAt));
        checkSame(earlier.before(index, knownAt), foldedBefore(log, index, knownAt), at);
    }
}

}  // namespace

TEST_CASE("what was known earlier is what is folded from the beginning", "[property]") {
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 40; ++seed) {
        CAPTURE(seed);
        RandomLog random(seed, {.records = 150});
        checkPass(random, 20, 3000);
    }
}

TEST_CASE("likewise where it is mended over several places kept", "[property]") {
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 6; ++seed) {
        CAPTURE(seed);
        const bool few = seed % 2 == 0;  // parts that move, so that devices are apart from others
        const RandomShape shape{.records = 1400, .devices = 9, .serialsPercent = few ? 5 : 60};
        RandomLog random(seed, shape);
        checkPass(random, 150, 60'000);
    }
}

TEST_CASE("an instant may be asked for that lies before the last one", "[property]") {
    RandomLog random(firstSeed, {.records = 600});
    const auto log = toLog(random.log());
    rules::EarlierKnowledge earlier(log);
    for (const std::size_t index : {300U, 400U, 400U, 590U}) {
        for (const int days : {40, 0, 3, -20, 1}) {
            const Instant at = log.records()[index].at;
            const Instant knownAt = at + minutes(days * 1440);
            CAPTURE(index, days);
            checkSame(earlier.before(index, knownAt), foldedBefore(log, index, knownAt), at);
        }
    }
}
