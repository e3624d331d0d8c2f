// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What changed the answer since is listed, on random logs whose units share parts: with late
// entries and strikes as they come, and with a single one on another unit.
#include "rules/look_back.h"
#include "support/describe.h"
#include "support/random_log.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <iostream>

using namespace support;

namespace {

constexpr std::uint32_t firstSeed = 20261128;

// They share parts, and all is entered as it happens.
constexpr RandomShape twoUnits{.serialsPercent = 100, .lateEntries = false, .strikes = false,
                               .authority = false};

std::string answerOf(const std::optional<rules::Assessment>& assessment) {
    return assessment ? describe(*assessment) : "not enrolled";
}

bool differs(const rules::LookBack& back) { return answerOf(back.known) != answerOf(back.actual); }

bool lists(const rules::Log& log, const std::vector<std::size_t>& indexes, const RecordName& name) {
    return std::any_of(indexes.begin(), indexes.end(), [&](std::size_t index) {
        return log.records()[index].name == name;
    });
}

// One more record on a unit, entered when all else had long been known.
RecordName addLate(LogBuilder& log, RandomLog& random, const std::string& serial, Instant late) {
    Random& chance = random.random();
    const Instant first = when("03-25 08:00");
    const auto span = (random.end() - first).ms / 60'000;
    const Instant at = first + minutes(chance.below(static_cast<int>(span)));
    Entry entry = log.on(serial);
    entry.at(at).entered(late).station("icu-9");
    const Texts positions{"circuit", "sensor"};
    switch (chance.below(9)) {
    case 0: return entry.useStart();
    case 1: return entry.useResume();
    case 2: return entry.useEnd();
    case 3: return entry.soil();
    case 4: return entry.reprocess({chance.pick(positions)}, "high");
    case 5: return entry.remove(chance.pick(positions));
    case 6: return entry.fit(chance.pick(positions));
    case 7: return entry.usePause();
    default: break;
    }
    const Texts serials{"P1", "P2", "P3"};
    return entry.fit(chance.pick(positions), {{"serial", chance.pick(serials)}});
}

}  // namespace

TEST_CASE("where the answer is another by now, something came in since", "[property]") {
    std::cout << "looks back, seeds from " << firstSeed << std::endl;
    int others = 0;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 150; ++seed) {
        RandomLog random(seed, {.devices = 3, .serialsPercent = 90});
        const auto log = toLog(random.log());
        for (int question = 0; question < 8; ++question) {
            const Instant at = random.anyInstant(), knownAt = random.anyInstant();
            if (!log.hasEdition(at, knownAt)) continue;
            const auto& serial = random.random().pick(random.devices());
            CAPTURE(seed, serial, logbook::toText(at), logbook::toText(knownAt));
            const auto back = rules::lookBack(log, {serial, at, knownAt, std::nullopt});
            if (!differs(back)) continue;
            ++others;
            CHECK_FALSE((back.enteredSince.empty() && back.struckSince.empty()));
        }
    }
    CHECK(others > 100);
}

TEST_CASE("a late entry on another unit is listed where it changes the answer", "[property]") {
    std::cout << "late entries elsewhere, seeds from " << firstSeed << std::endl;
    int changed = 0, listed = 0, tried = 0;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 250; ++seed) {
        RandomLog random(seed, twoUnits);
        const Instant late = random.end() + minutes(10'000);
        LogBuilder builder = random.log();
        const auto name = addLate(builder, random, "KB-2", late);
        const auto log = toLog(builder);
        for (int question = 0; question < 10; ++question) {
            const Instant at = random.anyInstant();
            CAPTURE(seed, toText(name), logbook::toText(at));
            const auto back = rules::lookBack(log, {"KB-1", at, justBefore(late), std::nullopt});
            const bool isListed = lists(log, back.enteredSince, name);
            ++tried;
            listed += isListed;
            if (!differs(back)) continue;
            ++changed;
            CHECK(isListed);
        }
    }
    CHECK(changed > 20);
    CHECK(listed < tried / 2);
}

TEST_CASE("a strike on another unit is listed where it changes the answer", "[property]") {
    std::cout << "strikes elsewhere, seeds from " << firstSeed << std::endl;
    int changed = 0;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 250; ++seed) {
        RandomLog random(seed, twoUnits);
        const Instant late = random.end() + minutes(10'000);
        auto target = random.random().pick(random.log().records());
        while (target.device != "KB-2") target = random.random().pick(random.log().records());
        LogBuilder builder = random.log();
        builder.on("KB-2").at(late).station("icu-9").strike(target.name);
        const auto log = toLog(builder);
        for (int question = 0; question < 10; ++question) {
            const Instant at = random.anyInstant();
            CAPTURE(seed, toText(target.name), logbook::toText(at));
            const auto back = rules::lookBack(log, {"KB-1", at, justBefore(late), std::nullopt});
            if (!differs(back)) continue;
            ++changed;
            CHECK(lists(log, back.struckSince, target.name));
        }
    }
    CHECK(changed > 20);
}
