// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The state folded as the file is read, against the state of the whole log: the same answer for
// every time and every knowledge.
#include "station/answers.h"

#include "station/ward.h"
#include "support/random_log.h"

using support::utc;
using support::Ward;

namespace {

constexpr std::uint32_t firstSeed = 20261128;

void keep(Ward& ward, const std::vector<logbook::Record>& records) {
    auto file = station::openLogbook(ward.surroundings, ward.logbook, station::Access::Create);
    REQUIRE(file);
    REQUIRE(file->append(records, {"mt", ward.clock.now()}));
}

// All that a board shows; why there is none, where there is none.
template <class Standing>
std::string shown(Ward& ward, const station::Result<Standing>& standing) {
    if (!standing) return standing.error().code;
    const auto board = station::board(ward.surroundings, *standing);
    std::string all = toText(board, ward.surroundings.words) + logbook::json::pretty(toJson(board));
    for (const auto& later : standing->later) all += toText(later.name) + " ";
    for (const auto& unread : standing->facts.unread) all += toText(unread) + " ";
    return all;
}

void compare(Ward& ward, const station::Asked& asked) {
    CAPTURE(toText(asked.at.value_or(logbook::Instant{})));
    CAPTURE(toText(asked.knownAt.value_or(logbook::Instant{})));
    const auto folded = station::standing(ward.surroundings, ward.logbook, asked);
    const auto whole = station::wholeStanding(ward.surroundings, ward.logbook, asked);
    CHECK(shown(ward, folded) == shown(ward, whole));
}

}  // namespace

TEST_CASE("A board folded as it is read is that of the whole log", "[property]") {
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 12; ++seed) {
        CAPTURE(seed);
        support::RandomLog random(seed, {});
        Ward ward;
        keep(ward, random.log().records());
        for (int question = 0; question < 4; ++question) {
            compare(ward, {random.anyInstant(), {}, {}});
            compare(ward, {random.anyInstant(), random.anyInstant(), {}});
            ward.clock.moveTo(random.anyInstant());
            compare(ward, {});
            compare(ward, {{}, random.anyInstant(), "adult"});
        }
    }
}

TEST_CASE("An entry of the second that the clock shows belongs to now", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    for (const int ms : {0, 1, 500, 999, 1000, 61'000}) {
        ward.clock.moveTo({utc(2026, 3, 2, 15).ms + ms});
        REQUIRE(ward.check("KB-0001", "pass"));
        ward.clock.moveTo(utc(2026, 3, 2, 15));
        CAPTURE(ms);
        compare(ward, {});
        compare(ward, {{}, utc(2026, 3, 2, 15), {}});
        const auto now = station::standing(ward.surroundings, ward.logbook, {});
        REQUIRE(now);
        CHECK(now->at.ms == utc(2026, 3, 2, 15).ms + std::min(ms, 999));
    }
}

TEST_CASE("No more is folded than takes part", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    REQUIRE(ward.check("KB-0001", "pass"));
    ward.clock.moveTo(utc(2026, 3, 2, 16));
    REQUIRE(ward.check("KB-0001", "pass"));
    const auto folded = [&](const station::Asked& asked) {
        return station::standing(ward.surroundings, ward.logbook, asked)->folded;
    };
    CHECK(folded({}) == 5);
    CHECK(folded({utc(2026, 3, 2, 15)}) == 4);
}
