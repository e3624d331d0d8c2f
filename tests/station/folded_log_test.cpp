// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A log folded bit by bit is the log folded whole: with bounds so small that a short log has many
// portions, many states side by side and some that give way; and after a reading that failed.
#include "station/folded_log.h"

#include "rules/state_bytes.h"
#include "station/folded_ward.h"
#include "support/statement_moments.h"

#include <algorithm>
#include <future>

using namespace support;
using station::FoldedLog;
using station::FoldingLimits;

namespace {

constexpr std::uint32_t firstSeed = 20261129;

std::string bytesAt(FoldedLog& log, Instant at) {
    const auto folded = log.stateAt(at);
    REQUIRE(folded);
    CHECK(folded->unread.empty());
    return rules::toBytes(*folded->state, log.groundwork().editions());
}

// Of one that is asked once, and gives the state away.
std::string bytesTaken(const FoldedWard& ward, const store::Logbook& logbook, Instant at) {
    FoldedLog log(ward.surroundings, logbook, FoldedLog::Kept::Use, {.isAskedOnce = true});
    REQUIRE(log.catchUp());
    const auto folded = log.stateAt(at);
    REQUIRE(folded);
    return rules::toBytes(log.take(*folded), log.groundwork().editions());
}

std::string bytesAnew(const FoldedWard& ward, Instant at, const FoldingLimits& limits = {}) {
    const auto logbook = ward.open();
    FoldedLog log(ward.surroundings, logbook, FoldedLog::Kept::PassOver, limits);
    REQUIRE(log.catchUp());
    return bytesAt(log, at);
}

// Of the records themselves, in no file, each folded by itself.
std::string bytesOf(const std::vector<logbook::Record>& records, Instant at) {
    const rules::Log log(records, zones());
    return rules::toBytes(log.stateAt(at, rules::unlimited), log.editions());
}

// Some instants of the log behind its first edition, in their order, and one after all.
std::vector<Instant> someInstants(RandomLog& random) {
    std::vector<Instant> all{when("12-31 00:00")};
    for (int count = random.random().below(4); count > 0; --count) {
        all.push_back(std::max(random.anyInstant(), when("03-25 09:00")));
    }
    std::ranges::sort(all);
    return all;
}

FoldingLimits smallLimits(Random& random) {
    return {.recordsAtFirst = 1 + static_cast<std::size_t>(random.below(4)),
            .recordsAtOnce = 1 + static_cast<std::size_t>(random.below(12)),
            .recordsAhead = 1 + static_cast<std::size_t>(random.below(12)),
            .recordsApart = random.below(20),
            .mostMarks = 2 + static_cast<std::size_t>(random.below(4)),
            .isOneByOne = random.chance(25)};
}

}  // namespace

TEST_CASE("a log folded bit by bit is the log folded whole", "[property]") {
    std::int64_t folded = 0, inAll = 0;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 4; ++seed) {
        CAPTURE(seed);
        const FoldedWard ward;
        Arriving arriving(seed, 200);
        auto all = arriving.first();
        ward.add(all);
        const auto logbook = ward.open();
        FoldedLog log(ward.surroundings, logbook, FoldedLog::Kept::Use,
                      smallLimits(arriving.random().random()));
        for (int round = 0; round < 12; ++round) {
            CAPTURE(round);
            if (arriving.random().random().chance(10)) (void)ward.rebuild();
            const auto next = arriving.next();
            ward.add(next);
            all.insert(all.end(), next.begin(), next.end());
            REQUIRE(log.catchUp());
            for (const Instant at : someInstants(arriving.random())) {
                CAPTURE(logbook::toText(at));
                const auto state = log.stateAt(at);
                REQUIRE(state);
                folded += state->folded;
                const auto cold = ward.askCold({at});
                inAll += cold.folded;
                REQUIRE(bytesAt(log, at) == bytesAnew(ward, at));
                if (at != when("12-31 00:00")) continue;
                REQUIRE(bytesAt(log, at) == bytesOf(all, at));
                REQUIRE(bytesTaken(ward, logbook, at) == bytesAnew(ward, at));
                auto warm = cold;
                warm.state = *log.stateAt(at)->state;
                REQUIRE(answersOf(ward, warm) == answersOf(ward, cold));
            }
        }
    }
    CHECK(folded < inAll);
}

TEST_CASE("a log folded bit by bit is that of its records, however many are read ahead",
          "[property]") {
    RandomLog random(firstSeed, {.records = 600, .stations = 4, .devices = 6, .serials = 20});
    const FoldedWard ward;
    const auto& all = random.log().records();
    ward.add(all);
    const auto end = when("12-31 00:00");
    const auto expected = bytesOf(all, end);
    for (const std::size_t rows : {1U, 7U, 20U, 60U, 1000U}) {
        CAPTURE(rows);
        FoldingLimits limits{.recordsAtFirst = 3, .recordsAtOnce = 5, .recordsAhead = rows};
        REQUIRE(bytesAnew(ward, end, limits) == expected);
        limits.isOneByOne = true;
        REQUIRE(bytesAnew(ward, end, limits) == expected);
    }
}

TEST_CASE("a log whose state was taken is folded anew the next time", "[unit]") {
    const FoldedWard ward;
    ward.add(quietLog(2).records());
    const auto logbook = ward.open();
    FoldedLog log(ward.surroundings, logbook);
    REQUIRE(log.catchUp());
    const auto end = when("12-31 00:00");
    for (const auto at : {end, when("03-04 00:30"), end}) {
        REQUIRE(log.stateAt(end));
        const auto folded = log.stateAt(at);  // in the midst of the log, and behind it
        REQUIRE(folded);
        const auto taken = log.take(*folded);
        CHECK(rules::toBytes(taken, log.groundwork().editions()) == bytesAnew(ward, at));
    }
}

TEST_CASE("a log is folded bit by bit while other threads look at its states",
          "[unit][threads]") {
    const FoldedWard ward;
    auto log = quietLog(1);
    ward.add(log.records());
    const auto logbook = ward.open();
    FoldedLog folded(ward.surroundings, logbook);
    std::vector<std::future<std::string>> looks;
    std::vector<std::string> expected;
    for (int round = 0; round < 30; ++round) {
        log.on(device).soil();
        ward.add({log.records().back()});
        REQUIRE(folded.catchUp());
        const auto state = folded.stateAt(when("12-31 00:00"));
        REQUIRE(state);
        const auto& editions = folded.groundwork().editions();
        expected.push_back(rules::toBytes(*state->state, editions));
        looks.push_back(
            std::async(std::launch::async, [copy = *state->state, &editions]() mutable {
                const rules::State own = std::move(copy);  // it ends there, and not with its future
                return rules::toBytes(own, editions);
            }));
    }
    for (std::size_t look = 0; look < looks.size(); ++look) {
        CHECK(looks[look].get() == expected[look]);
    }
}

TEST_CASE("a log that could not be read once is read whole the next time", "[fault]") {
    const FoldedWard ward;
    auto log = quietLog(3);
    ward.add(log.records());
    const StatementMoments watched(0, {});
    const auto logbook = ward.open();
    FoldedLog folded(ward.surroundings, logbook, FoldedLog::Kept::Use,
                     {.recordsAtFirst = 2, .recordsAtOnce = 5, .recordsApart = 4, .mostMarks = 3});
    const auto end = when("12-31 00:00");
    int failed = 0, moment = 1;
    for (bool came = true; came && moment < 100; ++moment) {
        CAPTURE(moment);
        // Late and in the order, a unit struck; sometimes a new person, so that all is read.
        const auto late = log.nextInstant() - minutes(700);
        const auto unit = log.on("KC-" + std::to_string(moment)).at(late).enrol({"adult"});
        log.on(device).at("04-01 08:00").soil();
        log.takeTime(when("04-01 08:00") + minutes(moment));
        log.on(device).strike(unit);
        if (moment % 3 == 0) log.department().person("p" + std::to_string(moment), {"lead"});
        const auto& all = log.records();
        ward.add({all.end() - (moment % 3 == 0 ? 4 : 3), all.end()});
        {
            const StatementMoments moments(moment, sqlite3_interrupt);
            const bool isRead = folded.catchUp() && folded.stateAt(end);
            came = moments.came();
            // One that fails while kept states are looked for is read without them.
            if (!came) CHECK(isRead);
            failed += isRead ? 0 : 1;
        }
        REQUIRE(folded.catchUp());
        REQUIRE(bytesAt(folded, end) == bytesAnew(ward, end));
    }
    CHECK(failed > 4);
    CHECK(moment < 100);
}
