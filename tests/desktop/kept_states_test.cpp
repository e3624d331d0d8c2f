// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// States of a long logbook are kept beside what the window does: once one that has none was
// opened and verified, and after an entry was told as kept, not before.
#include "desktop/shell/workplace.h"
#include "station/rescue.h"
#include "station/snapshots.h"
#include "station/system.h"
#include "station/upkeep.h"
#include "support/folder.h"
#include "support/moved_clock.h"
#include "support/rules_world.h"

#include <QtTest/QTest>
#include <catch2/catch.hpp>
#include <functional>
#include <optional>
#include <utility>

namespace {

struct LongWorld {
    support::Folder folder;
    support::MovedClock clock{logbook::Instant{1'795'874'400'000}};  // 28 November 2026
    station::LogbookFile file{folder.file("long.logbook")};
    station::Surroundings surroundings{clock, station::system::systemZones(),
                                       *words::Words::builtIn(), "desk"};

    // Of one unit, so many records, with nothing kept of them.
    explicit LongWorld(std::int64_t records) {
        auto log = support::logWith(support::bookOfLeak("voided_by = [{ event = \"soil\" }]"));
        for (auto count = std::ssize(log.records()); count < records; ++count) {
            log.on(support::device)
                .at(support::when("03-03 00:00") + support::minutes(10 * count))
                .note();
        }
        REQUIRE(log.records().back().at < clock.now());
        REQUIRE(station::foundStation(surroundings, file, "icu-9"));
        auto logbook = station::openLogbook(surroundings, file, station::Access::Write);
        REQUIRE(logbook);
        REQUIRE(logbook->append(log.records(), {"mt", clock.now()}));
    }

    [[nodiscard]] desktop::Start start() const {
        return {file, clock, *words::Words::builtIn(), &station::system::systemZones, "desk"};
    }
    [[nodiscard]] std::size_t states() const {
        const auto logbook = station::openLogbook(surroundings, file, station::Access::Read);
        REQUIRE(logbook);
        return logbook->snapshotsKept()->size();
    }
    void awaitStates() const {
        waitUntil([this] { return states() > 0; });
    }
    static void waitUntil(const std::function<bool()>& isSo) {
        REQUIRE(QTest::qWaitFor(isSo, 120'000));
    }
};

}  // namespace

TEST_CASE("A restored logbook gets its states once it is opened", "[unit]") {
    LongWorld world(station::mostFolded + 100);
    const auto backup = world.folder.file("copy");
    REQUIRE(station::backUp(world.surroundings, world.file, backup));
    REQUIRE(station::restore(world.surroundings, backup, world.file, "icu-10"));
    REQUIRE(world.states() == 0);
    desktop::Workplace workplace(world.start());
    // As the window does with the first fleet.
    bool isOpened = false;
    QObject::connect(&workplace, &desktop::Workplace::fleetChanged, [&] {
        if (!std::exchange(isOpened, true)) workplace.verify();
    });
    workplace.refresh();
    world.awaitStates();
}

TEST_CASE("An entry is told as kept before states are kept", "[unit]") {
    LongWorld world(station::mostFolded);
    desktop::Workplace workplace(world.start());
    QObject::connect(&workplace, &desktop::Workplace::writerWanted,
                     [](const auto&, const auto& then) { then(station::Writer("mt")); });
    std::optional<std::size_t> whenTold;
    QObject::connect(&workplace, &desktop::Workplace::kept,
                     [&](const auto&) { whenTold = world.states(); });
    workplace.refresh();
    LongWorld::waitUntil([&] { return workplace.fleet() != nullptr; });
    station::Entry start{"mt", "use_start", support::device};
    SECTION("of a start") {}
    SECTION("of an emergency start") {
        start.body = {{"emergency", true}};
    }
    REQUIRE(world.states() == 0);
    workplace.keep({start}, &workplace);
    LongWorld::waitUntil([&] { return whenTold.has_value(); });
    CHECK(*whenTold == 0);
    world.awaitStates();
}
