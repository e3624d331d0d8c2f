// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The fleet of a logbook read again and again: nothing is folded twice, what was found of a model
// or of a place is not looked for again, and another file in the place of the one that is open is
// noticed.
#include "desktop/shell/fleet_view.h"

#include "logbook/record_reader.h"
#include "support/statement_moments.h"
#include "window_world.h"

namespace {

using support::WindowWorld;

struct Source {
    WindowWorld world;
    station::Surroundings surroundings{world.clock, station::system::systemZones(),
                                       *words::Words::builtIn(), "desk"};
    desktop::FleetSource source;
    int added = 0;

    Source() { world.makeDemo(); }

    desktop::SharedFleetView read() {
        auto view = source.read(surroundings, world.file);
        REQUIRE(view);
        return *view;
    }

    // A note of another station on a unit that is there.
    void note(const std::string& device) { add(device, "note", R"({"text":"x"})"); }

    void add(const std::string& device, const std::string& kind, const std::string& body) {
        const auto at = toText(world.clock.now());
        const auto record = logbook::readRecord(
            R"({"station":"other-1","seq":)" + std::to_string(++added) + R"(,"at":")" + at +
            R"(","entered":")" + at + R"(","by":"m.toller","device":")" + device +
            R"(","kind":")" + kind + R"(","body":)" + body + "}");
        REQUIRE(record);
        auto logbook = station::openLogbook(surroundings, world.file, station::Access::Write);
        REQUIRE(logbook);
        REQUIRE(logbook->append(std::vector{*record}, {"m.toller", world.clock.now()}));
    }
};

}  // namespace

TEST_CASE("what has been folded for the fleet is not folded again", "[unit]") {
    Source source;
    const auto first = source.read();
    CHECK_FALSE(first->board.rows.empty());
    CHECK(source.read() == first);
    source.world.clock.advance(logbook::Duration{1000});
    const auto second = source.read();
    CHECK(second != first);
    CHECK(second->standing->folded == 0);
    source.note(first->board.rows.front().assessment.device);
    const auto third = source.read();
    CHECK(third->standing->folded == 1);
    CHECK(third->standing->facts.arrival == first->standing->facts.arrival + 1);
}

TEST_CASE("where a unit is that left without a place is looked up once", "[unit]") {
    Source source;
    // Of the statements of reading it again with nothing entered since.
    const auto readAgain = [&] {
        source.world.clock.advance(logbook::Duration{1000});
        const support::StatementMoments counted(0, {});
        (void)source.read();
        return counted.seen();
    };
    const auto first = source.read();
    const auto before = readAgain();
    const auto unit = std::ranges::find_if(first->board.rows, [](const report::BoardRow& row) {
        return row.assessment.verdict == rules::Verdict::Ready;
    });
    REQUIRE(unit != first->board.rows.end());
    const auto lineOf = [&](const desktop::FleetView& view) {
        const auto row = std::ranges::find_if(view.board.rows, [&](const report::BoardRow& each) {
            return each.assessment.device == unit->assessment.device;
        });
        return view.lines[static_cast<std::size_t>(row - view.board.rows.begin())].place;
    };
    const auto place = lineOf(*first);
    source.add(unit->assessment.device, "use_start", R"({"emergency":true})");
    CHECK(lineOf(*source.read()) != place);
    CHECK(readAgain() == before);
    CHECK(lineOf(*source.read()) != place);
    source.add(unit->assessment.device, "sighted", R"({"location":"Store 2"})");
    CHECK(lineOf(*source.read()) == "Store 2");
}

TEST_CASE("views share what was found of a model", "[unit]") {
    Source source;
    const auto logOf = [&](const desktop::FleetView& view) {
        const auto whole = view.models->of(source.surroundings, source.world.file, *view.standing,
                                           "nothing of that name");
        REQUIRE(whole);
        return (*whole)->log;
    };
    const auto first = source.read();
    const auto log = logOf(*first);
    CHECK(log->log.firstEdition());
    source.note(first->board.rows.front().assessment.device);
    CHECK(logOf(*source.read()) == log);
}

TEST_CASE("a file that takes the place of the logbook is read in its stead", "[unit]") {
    Source source;
    const auto kept = source.world.folder.file("kept.logbook");
    std::filesystem::copy_file(source.world.file.path, kept);
    const auto before = source.read()->standing->facts.arrival;
    source.note(source.read()->board.rows.front().assessment.device);
    CHECK(source.read()->standing->facts.arrival == before + 1);
    std::filesystem::rename(kept, source.world.file.path);
    CHECK(source.read()->standing->facts.arrival == before);
    std::filesystem::remove(source.world.file.path);
    CHECK_FALSE(source.source.read(source.surroundings, source.world.file));
}
