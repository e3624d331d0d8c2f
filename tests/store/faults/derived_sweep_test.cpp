// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The disk may fail, and the power go, at any call while kept states are written or thrown away: no
// entry is touched, and a state is there whole or not at all.
#include "../logbook_files.h"
#include "store/logbook.h"
#include "swept.h"

#include <catch2/catch.hpp>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Path = std::filesystem::path;

namespace {

constexpr int engine = 7;

// Longer than a page, so that half of it can be on the disk.
Snapshot snapshotAt(const Logbook& logbook, std::int64_t seq) {
    Snapshot snapshot;
    snapshot.place = placeOf(note("icu-1", seq));
    snapshot.arrival = *logbook.lastArrival();
    snapshot.heads = store::headsOf(*logbook.heads());
    snapshot.engine = engine;
    snapshot.bytes = std::string(9'000, static_cast<char>('a' + seq));
    return snapshot;
}

// With one kept state, of entry 2.
Files filesWithState() {
    const TemporaryFolder folder;
    writeBytes(folder / ward, keptFiles().at(ward));
    {
        Logbook logbook = open(folder / ward);
        REQUIRE(logbook.keepSnapshots(std::vector{snapshotAt(logbook, 2)}, {}, writing()));
    }
    return filesOf(folder.path());
}

std::vector<std::int64_t> statesIn(const Path& path) {
    const Logbook logbook = open(path, Access::Read);
    const auto states = logbook.snapshotsKept();
    REQUIRE(states);
    std::vector<std::int64_t> found;
    for (const auto& state : *states) {
        const auto whole = logbook.snapshotAt(state.place);
        REQUIRE(whole);
        REQUIRE(*whole);
        CHECK(**whole == snapshotAt(logbook, state.place.name.seq));
        found.push_back(state.place.name.seq);
    }
    return found;
}

// What it was, or what it is to be if that was confirmed.
void checkStates(const Path& folder, const Outcome& outcome,
                 const std::vector<std::int64_t>& wanted) {
    checkHolds(folder / ward, kept());
    const auto states = statesIn(folder / ward);
    CHECK((states == wanted || states == std::vector<std::int64_t>{2}));
    checkStands(states == wanted, outcome);
    checkGoesOn(folder, kept());
}

}  // namespace

TEST_CASE("The disk may fail at any call while a state is kept", "[fault]") {
    const Files files = filesWithState();
    const Snapshot fourth = [&] {
        const TemporaryFolder folder;
        writeBytes(folder / ward, files.at(ward));
        return snapshotAt(open(folder / ward, Access::Read), 4);
    }();
    const auto tally = sweep(
        {"keep states", files,
         [&](const Path& folder) -> std::optional<Trouble> {
             auto logbook = Logbook::open(folder / ward, {Access::Write});
             if (!logbook) {
                 return logbook.error();
             }
             const auto done = logbook->keepSnapshots(
                 std::vector{fourth}, std::vector{placeOf(note("icu-1", 2))}, writing());
             return done ? std::nullopt : std::optional(done.error());
         },
         [](const Path& folder, const Outcome& outcome) { checkStates(folder, outcome, {2, 4}); }});
    CHECK(tally.fired.at(Failure::Full).at(Call::Write) > 3);
    CHECK(tally.fired.at(Failure::PowerCut).at(Call::Sync) > 0);
}

TEST_CASE("The disk may fail at any call while states are thrown away", "[fault]") {
    const auto tally = sweep(
        {"throw states away", filesWithState(),
         [](const Path& folder) -> std::optional<Trouble> {
             auto logbook = Logbook::open(folder / ward, {Access::Write});
             if (!logbook) {
                 return logbook.error();
             }
             const auto done = logbook->dropDerived(writing());
             return done ? std::nullopt : std::optional(done.error());
         },
         [](const Path& folder, const Outcome& outcome) { checkStates(folder, outcome, {}); }});
    CHECK(tally.fired.at(Failure::PowerCut).at(Call::Write) > 3);
}
