// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A state as bytes and back: every field comes back, the records after it fold to the same, and
// bytes that are anything else are refused.
#include "rules/same_state.h"
#include "rules/state_bytes.h"
#include "support/random_log.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

constexpr std::uint32_t firstSeed = 20261128;

bool alike(const std::optional<std::vector<std::string>>& one,
           const std::optional<std::vector<std::string>>& other) {
    return one == other;
}

// What same_state.h tells of persons and notices is only which records they are.
bool sameStatements(const rules::State& one, const rules::State& other) {
    for (const auto& [key, known] : one.persons) {
        const auto& there = other.persons.at(key).person;
        const auto& here = known.person;
        if (here.person != there.person || here.name != there.name || here.roles != there.roles ||
            here.until != there.until) {
            return false;
        }
    }
    for (const auto& [key, known] : one.notices) {
        const auto& there = other.notices.at(key).notice;
        const auto& here = known.notice;
        if (here.key != there.key || here.title != there.title || here.action != there.action ||
            here.cancelled != there.cancelled || here.match.position != there.match.position ||
            !alike(here.match.lots, there.match.lots) ||
            !alike(here.match.serials, there.match.serials) ||
            !alike(here.match.partModels, there.match.partModels) ||
            !alike(here.match.deviceModels, there.match.deviceModels) ||
            !alike(here.match.devices, there.match.devices) ||
            !alike(here.match.software, there.match.software)) {
            return false;
        }
    }
    return true;
}

template <class Map>
bool allSame(const Map& one, const Map& other) {
    return std::equal(one.begin(), one.end(), other.begin(), other.end(),
                      [](const auto& a, const auto& b) {
                          return a.first == b.first && rules::same(*a.second, *b.second);
                      });
}

bool isSame(const rules::State& one, const rules::State& other) {
    return rules::sameAuthority(one, other) && rules::sameNotices(one, other) &&
           sameStatements(one, other) && allSame(one.parts, other.parts) &&
           allSame(one.devices, other.devices);
}

rules::State readBack(const rules::State& state, const rules::Editions& editions) {
    auto read = rules::stateFromBytes(rules::toBytes(state, editions), editions);
    REQUIRE(read);
    return *std::move(read);
}

// One that has most of what a state can hold.
RandomLog anyLog(std::uint32_t seed) {
    return {seed, {.records = 40 + static_cast<int>(seed % 7) * 40, .devices = 3}};
}

}  // namespace

TEST_CASE("every state comes back as it was", "[property]") {
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 200; ++seed) {
        CAPTURE(seed);
        RandomLog random = anyLog(seed);
        const auto log = toLog(random.log());
        const auto state = log.stateAt(random.anyInstant(), rules::unlimited);
        const auto read = readBack(state, log.editions());
        REQUIRE(isSame(state, read));
        REQUIRE(rules::toBytes(read, log.editions()) == rules::toBytes(state, log.editions()));
    }
}

TEST_CASE("what is folded onto a state read back has the same outcome", "[property]") {
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 200; ++seed) {
        CAPTURE(seed);
        RandomLog random = anyLog(seed);
        const auto log = toLog(random.log());
        const Instant place = random.anyInstant();
        auto state = readBack(log.stateAt(place, rules::unlimited), log.editions());
        for (std::size_t index = 0; index < log.records().size(); ++index) {
            if (log.records()[index].at > place && log.takesPart(index, rules::unlimited)) {
                rules::fold(state, log.records()[index], log.editions());
            }
        }
        REQUIRE(isSame(state, log.stateAt(rules::unlimited, rules::unlimited)));
    }
}

TEST_CASE("of bytes that were changed none brings down the reader", "[property]") {
    int read = 0;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 3; ++seed) {
        CAPTURE(seed);
        RandomLog random = anyLog(seed);
        const auto log = toLog(random.log());
        const auto bytes =
            rules::toBytes(log.stateAt(rules::unlimited, rules::unlimited), log.editions());
        for (std::size_t place = 0; place < bytes.size(); ++place) {
            auto changed = bytes;
            changed[place] = static_cast<char>(changed[place] ^ (1 << random.random().below(8)));
            auto state = rules::stateFromBytes(changed, log.editions());
            if (!state) continue;
            ++read;
            // Other values in the same shape: to be folded onto and judged like any state.
            REQUIRE(rules::toBytes(*state, log.editions()) == changed);
            for (const auto& record : log.records()) rules::fold(*state, record, log.editions());
            for (const auto& [serial, unit] : state->devices) {
                (void)rules::assess(*state, *unit, {when("04-02 08:00")});
            }
        }
    }
    CHECK(read > 300);
}

TEST_CASE("bytes cut short, or with more after them, are no state", "[exhaustive]") {
    RandomLog random = anyLog(firstSeed);
    const auto log = toLog(random.log());
    const auto bytes =
        rules::toBytes(log.stateAt(rules::unlimited, rules::unlimited), log.editions());
    for (std::size_t size = 0; size < bytes.size(); ++size) {
        REQUIRE_FALSE(rules::stateFromBytes(bytes.substr(0, size), log.editions()));
    }
    REQUIRE_FALSE(rules::stateFromBytes(bytes + '\0', log.editions()));
}

TEST_CASE("a state whose edition is not there is not read", "[unit]") {
    const auto log = toLog(logWith(bookOfLeak("")));
    const auto bytes =
        rules::toBytes(log.stateAt(rules::unlimited, rules::unlimited), log.editions());
    REQUIRE(rules::stateFromBytes(bytes, log.editions()));
    REQUIRE_FALSE(rules::stateFromBytes(bytes, {}));
}

TEST_CASE("a state of another revision of the engine is not read", "[unit]") {
    const auto log = toLog(logWith(bookOfLeak("")));
    auto bytes = rules::toBytes(log.stateAt(rules::unlimited, rules::unlimited), log.editions());
    const auto revision = std::string_view("airmuster state").size();
    REQUIRE(bytes[revision] == static_cast<char>(rules::engineRevision));
    ++bytes[revision];
    REQUIRE_FALSE(rules::stateFromBytes(bytes, log.editions()));
}
