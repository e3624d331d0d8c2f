// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What must hold of every log, tried on some hundred random ones. Each failure names the seed that
// brings it back.
#include "support/describe.h"
#include "support/random_log.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

constexpr std::uint32_t firstSeed = 20260302;

// Calls `act` with the random log of each of `count` seeds.
template <class Act>
void forSeeds(std::uint32_t count, const RandomShape& shape, Act act) {
    for (std::uint32_t seed = firstSeed; seed < firstSeed + count; ++seed) {
        CAPTURE(seed);
        RandomLog log(seed, shape);
        act(log);
    }
}

rules::Log logOf(std::vector<logbook::Record> records) { return {std::move(records), zones()}; }

bool isReady(const rules::State& state, const std::string& serial, Instant at) {
    const auto* found = state.device(serial);
    return found && rules::assess(state, *found, {at, std::nullopt, false, false}).verdict ==
                        rules::Verdict::Ready;
}

bool isReady(const rules::Log& log, const std::string& serial, Instant at) {
    return isReady(log.stateAt(at, rules::unlimited), serial, at);
}

constexpr std::chrono::year_month march{std::chrono::year{2026}, std::chrono::March};

}  // namespace

TEST_CASE("ready until is exactly the first instant at which the verdict changes", "[property]") {
    int found = 0;
    forSeeds(300, {}, [&found](RandomLog& random) {
        const auto log = toLog(random.log());
        for (int question = 0; question < 6; ++question) {
            const Instant at = random.anyInstant();
            const auto state = log.stateAt(at, rules::unlimited);
            for (const auto& serial : random.devices()) {
                if (!isReady(state, serial, at)) continue;
                const auto until = rules::assess(state, *state.device(serial), {at}).readyUntil;
                const Instant end = until.value_or(at + minutes(400 * 1440));
                const std::int64_t step = std::max<std::int64_t>(1, (end - at).ms / 97);
                for (Instant each = at; each < end; each.ms += step) {
                    REQUIRE(isReady(state, serial, each));
                }
                REQUIRE(isReady(state, serial, justBefore(end)));
                REQUIRE(isReady(state, serial, end) == !until);
                found += until ? 1 : 0;
            }
        }
    });
    CHECK(found > 50);
}

// Only where nothing is permitted: by the law soil turns a result that is out of date into one that
// is due, and that may be what is permitted while being out of date is not.
TEST_CASE("what warns of danger never makes a device ready", "[property]") {
    int unready = 0;
    forSeeds(200, {.waivers = false}, [&unready](RandomLog& random) {
        const auto before = toLog(random.log());
        const auto& serial = random.random().pick(random.devices());
        LogBuilder with = random.log();
        Entry entry = with.on(serial);
        const Instant happened = random.anyInstant();
        entry.at(happened).station("icu-" + std::to_string(1 + random.random().below(3)));
        switch (random.random().below(4)) {
        case 0: entry.soil(); break;
        case 1: entry.alarm("zero"); break;
        case 2: entry.fault("fan"); break;
        default: entry.withdraw("repair");
        }
        const auto after = toLog(with);
        for (int question = 0; question < 8; ++question) {
            const Instant at = random.anyInstant();
            for (const auto& each : random.devices()) {
                if (isReady(before, each, at)) continue;
                ++unready;
                REQUIRE_FALSE(isReady(after, each, at));
            }
        }
    });
    CHECK(unready > 500);
}

TEST_CASE("to take back a pass never makes a device ready", "[property]") {
    int removed = 0;
    const RandomShape shape{.stations = 1, .strikes = false, .waivers = false};
    forSeeds(200, shape, [&removed](RandomLog& random) {
        const auto before = toLog(random.log());
        rules::State state;
        state.rulebook = before.firstEdition();
        for (std::size_t index = 0; index < before.records().size(); ++index) {
            const auto& record = before.records()[index];
            rules::fold(state, record, before.editions());
            const auto* attempt = std::get_if<logbook::body::Check>(&record.body);
            const auto* on = state.device(record.device);
            if (!attempt || !on || !on->checks.contains(attempt->check)) continue;
            const auto& check = on->checks.find(attempt->check)->second;
            if (!check.last || check.last->name != record.name || check.lastFailed) continue;
            if (!random.random().chance(20)) continue;
            ++removed;
            auto records = before.records();
            records.erase(records.begin() + static_cast<std::ptrdiff_t>(index));
            const auto after = logOf(std::move(records));
            for (int question = 0; question < 4; ++question) {
                const Instant at = random.anyInstant();
                if (isReady(before, record.device, at)) continue;
                REQUIRE_FALSE(isReady(after, record.device, at));
            }
        }
    });
    CHECK(removed > 100);
}

TEST_CASE("the order in which records come in changes no answer", "[property]") {
    forSeeds(200, {}, [](RandomLog& random) {
        const auto log = toLog(random.log());
        auto records = random.log().records();
        random.random().shuffle(records);
        const auto shuffled = logOf(std::move(records));
        for (int question = 0; question < 3; ++question) {
            const Instant at = random.anyInstant();
            const Instant knownAt = question == 0 ? rules::unlimited : random.anyInstant();
            if (!log.hasEdition(rules::unlimited, knownAt)) continue;
            REQUIRE(describeBoard(shuffled.stateAt(at, knownAt), at) ==
                    describeBoard(log.stateAt(at, knownAt), at));
        }
        REQUIRE(describeMonth(shuffled, {march, {}}) == describeMonth(log, {march, {}}));
    });
}

TEST_CASE("folding onto a copy leaves the original as it was", "[property]") {
    forSeeds(60, {}, [](RandomLog& random) {
        const auto log = toLog(random.log());
        rules::State state;
        state.rulebook = log.firstEdition();
        for (const auto& record : log.records()) {
            const rules::State original = state;
            const std::string before = describe(original);
            rules::fold(state, record, log.editions());
            REQUIRE(describe(original) == before);
            const std::string after = describe(state);
            rules::State again = original;
            rules::fold(again, record, log.editions());
            REQUIRE(describe(again) == after);
        }
    });
}

TEST_CASE("a struck record is one that never was", "[property]") {
    forSeeds(200, {.strikes = false, .authority = false}, [](RandomLog& random) {
        const auto& target = random.random().pick(random.log().records());
        using logbook::Kind;
        if (target.kind() == Kind::Adopt || target.kind() == Kind::Person) return;
        const Instant at = random.anyInstant();
        LogBuilder struck = random.log();
        struck.on(random.devices()[0]).at(at).station("icu-9").strike(target.name);
        LogBuilder without = random.log();
        without.on(random.devices()[0]).at(at).station("icu-9").note();
        auto records = without.records();
        std::erase_if(records, [&](const auto& each) { return each.name == target.name; });
        const auto one = toLog(struck);
        const auto other = logOf(std::move(records));
        for (int question = 0; question < 4; ++question) {
            const Instant asked = random.anyInstant();
            REQUIRE(describe(one.stateAt(asked, rules::unlimited)) ==
                    describe(other.stateAt(asked, rules::unlimited)));
        }
    });
}

TEST_CASE("nothing after an instant bears on the board at it, but strikes", "[property]") {
    forSeeds(200, {}, [](RandomLog& random) {
        const auto log = toLog(random.log());
        const Instant at = random.anyInstant();
        auto records = log.records();
        std::erase_if(records, [at](const logbook::Record& each) {
            using logbook::Kind;
            const Kind kind = each.kind();
            return each.at > at && kind != Kind::Strike && kind != Kind::Adopt &&
                   kind != Kind::Person;
        });
        REQUIRE(describeBoard(logOf(std::move(records)).stateAt(at, rules::unlimited), at) ==
                describeBoard(log.stateAt(at, rules::unlimited), at));
    });
}

TEST_CASE("what was entered later is unknown, as if it were not there", "[property]") {
    forSeeds(200, {}, [](RandomLog& random) {
        const auto log = toLog(random.log());
        const Instant at = random.anyInstant();
        const Instant knownAt = random.anyInstant();
        auto records = log.records();
        std::erase_if(records, [knownAt](const auto& each) { return each.entered > knownAt; });
        const auto known = logOf(std::move(records));
        if (!known.firstEdition()) return;
        REQUIRE(describeBoard(known.stateAt(at, rules::unlimited), at) ==
                describeBoard(log.stateAt(at, knownAt), at));
        REQUIRE(describeMonth(known, {march, at}) == describeMonth(log, {march, at, knownAt}));
    });
}

TEST_CASE("findings are sorted, and the verdict follows from them", "[property]") {
    forSeeds(100, {}, [](RandomLog& random) {
        const auto log = toLog(random.log());
        for (int question = 0; question < 6; ++question) {
            const Instant at = random.anyInstant();
            const auto state = log.stateAt(at, rules::unlimited);
            for (const auto& [serial, on] : state.devices) {
                const auto answer = rules::assess(state, *on, {at});
                for (std::size_t index = 1; index < answer.findings.size(); ++index) {
                    const auto keyOf = [](const rules::Finding& each) {
                        return std::pair(std::string(name(each.code)), each.subject);
                    };
                    REQUIRE(keyOf(answer.findings[index - 1]) < keyOf(answer.findings[index]));
                }
                if (answer.verdict == rules::Verdict::Ready) REQUIRE(blocking(answer).empty());
                if (answer.verdict == rules::Verdict::NotReady) REQUIRE(!blocking(answer).empty());
                for (const auto& found : answer.findings) {
                    if (found.record) REQUIRE(found.record->at <= at);
                    if (found.since) REQUIRE(*found.since <= at);
                    if (found.notBefore) REQUIRE(*found.notBefore > at);
                }
            }
        }
    });
}
