// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// When the clock of a computer is doubted: set back behind the last entry, or set ahead of the time
// since the computer started.
#include "station/clock_doubt.h"

#include "station/system.h"
#include "station/ward.h"

using support::utc;
using support::Ward;

namespace {

using Code = station::ClockDoubt::Code;

std::optional<station::ClockDoubt> doubt(const Ward& ward) {
    const auto logbook =
        station::openLogbook(ward.surroundings, ward.logbook, station::Access::Read);
    REQUIRE(logbook);
    const auto log = station::readWholeLog(ward.surroundings, ward.logbook);
    REQUIRE(log);
    const auto found = station::doubtClock(ward.surroundings, *logbook, *log);
    REQUIRE(found);
    return *found;
}

void note(Ward& ward) {
    auto logbook = station::openLogbook(ward.surroundings, ward.logbook, station::Access::Write);
    REQUIRE(logbook);
    REQUIRE(station::noteClock(ward.surroundings, *logbook));
}

constexpr logbook::Duration minutes(std::int64_t count) {
    return {count * 60'000};
}

}  // namespace

TEST_CASE("A clock that is behind the last entry of this station is doubted", "[unit]") {
    Ward ward;
    ward.found();
    CHECK_FALSE(doubt(ward));
    ward.clock.moveTo(utc(2026, 3, 2, 13, 59));
    const auto found = doubt(ward);
    REQUIRE(found);
    CHECK(found->code == Code::SetBack);
    CHECK(found->expected == utc(2026, 3, 2, 14));
}

TEST_CASE("A clock that was set ahead by more than five minutes is doubted", "[unit]") {
    Ward ward;
    ward.clock.startComputer("one");
    ward.found();
    note(ward);
    ward.clock.advance(minutes(600));  // time goes by
    CHECK_FALSE(doubt(ward));
    const auto before = ward.clock.now();
    ward.clock.set(before + minutes(5));
    CHECK_FALSE(doubt(ward));
    ward.clock.set(before + minutes(5) + logbook::Duration{1});
    const auto found = doubt(ward);
    REQUIRE(found);
    CHECK(found->code == Code::SetAhead);
    CHECK(found->expected == before);
    note(ward);  // an entry was written by it all the same
    CHECK_FALSE(doubt(ward));
}

TEST_CASE("After another start of the computer there is nothing to hold the clock against",
          "[unit]") {
    Ward ward;
    ward.clock.startComputer("one");
    ward.found();
    note(ward);
    ward.clock.advance(minutes(60));
    ward.clock.startComputer("two");
    ward.clock.set(ward.clock.now() + minutes(90));
    CHECK_FALSE(doubt(ward));
}

TEST_CASE("That the clock goes as it did is not noted again", "[unit]") {
    Ward ward;
    ward.clock.startComputer("one");
    ward.found();
    note(ward);
    const auto before = ward.bytes();
    ward.clock.advance(minutes(60));
    ward.clock.set(ward.clock.now() + logbook::Duration{900});
    note(ward);
    CHECK((ward.bytes() == before));
    ward.clock.set(ward.clock.now() + minutes(1));
    note(ward);
    CHECK_FALSE((ward.bytes() == before));
}

TEST_CASE("This computer says how long it has been running", "[unit]") {
    const station::system::SystemClock clock;
    const auto first = clock.sinceStart();
    REQUIRE(first);
    CHECK(first->start.size() == 36);  // a UUID, by proc(5)
    CHECK(first->span.ms > 0);
    const auto second = clock.sinceStart();
    CHECK(second->start == first->start);
    CHECK(second->span >= first->span);
}
