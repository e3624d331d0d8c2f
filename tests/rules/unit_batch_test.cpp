// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What may be folded unit by unit, and what not: each way in which a record bears on another unit.
#include "rules/unit_batch.h"

#include "support/rules_world.h"

#include <catch2/catch.hpp>

#include <set>

using namespace support;

namespace {

using Added = rules::UnitBatch::Added;

// Three units that have nothing in them, and parts P1 and P2 of which nothing is known.
LogBuilder ward() {
    LogBuilder log = logWith(book("[positions.sensor]\n[positions.filter]\n"));
    for (const std::string unit : {"KB-2", "KB-3"}) log.on(unit).enrol({"adult"});
    return log;
}

json::Object part(const std::string& serial) { return {{"serial", serial}}; }

// The units of that many records are numbered by when they come in, from 0.
std::string inTheWay(const rules::UnitBatch& batch) {
    const auto& units = batch.unitsInTheWay();
    return joined(std::set<std::size_t>(units.begin(), units.end()),
                  [](std::size_t unit) { return std::to_string(unit); });
}

// What becomes of the records after the first `known`, which are folded beforehand: "in, in, after
// 0, 1"; "after all" for one that bears on any unit. The first that is refused is the last asked.
std::string added(const LogBuilder& log, std::size_t known) {
    const auto all = toLog(log);
    rules::State state;
    state.rulebook = all.firstEdition();
    for (std::size_t index = 0; index < known; ++index) {
        rules::fold(state, all.records()[index], all.editions());
    }
    rules::IndexedState indexed(std::move(state));
    rules::UnitBatch batch;
    std::string told;
    for (std::size_t index = known; index < all.records().size(); ++index) {
        if (!told.empty()) told += ", ";
        switch (batch.add(indexed, all.records()[index])) {
            case Added::Yes: told += "in"; break;
            case Added::NotBeforeUnits: return told + "after " + inTheWay(batch);
            case Added::NotBeforeAll: return told + "after all";
        }
    }
    return told;
}

std::string addedAfterWard(const LogBuilder& log) { return added(log, ward().records().size()); }

}  // namespace

TEST_CASE("the records of several units go into one batch, and come out unit by unit", "[unit]") {
    LogBuilder log = ward();
    const auto known = log.records().size();
    for (int number = 0; number < 300; ++number) log.on("KB-" + std::to_string(number % 3)).note();
    const auto all = toLog(log);
    rules::IndexedState indexed{rules::State{}};
    rules::UnitBatch batch;
    for (int round = 0; round < 2; ++round) {
        for (std::size_t index = known; index < all.records().size(); ++index) {
            REQUIRE(batch.add(indexed, all.records()[index]) == Added::Yes);
        }
        REQUIRE(batch.units() == 3);
        for (std::size_t unit = 0; unit < batch.units(); ++unit) {
            std::vector<std::int64_t> seqs;
            const auto serial = "KB-" + std::to_string(unit);
            CHECK(batch.foldUnit(unit, [&](const logbook::Record& record) {
                CHECK(record.device == serial);
                seqs.push_back(record.name.seq);
            }) == 100);
            CHECK(std::is_sorted(seqs.begin(), seqs.end()));
            CHECK(batch.foldUnit(unit, [](const logbook::Record&) { FAIL(); }) == 0);
        }
        batch.clear();
        CHECK(batch.units() == 0);
    }
}

TEST_CASE("what is done with the parts of one unit bears on no other", "[unit]") {
    LogBuilder log = ward();
    log.on("KB-1").fit("sensor", part("P1"));
    log.on("KB-2").fit("sensor", part("P2"));
    log.on("KB-3").fit("sensor");
    log.on("KB-2").fit("filter");
    log.on("KB-1").remove("sensor");
    log.on("KB-1").fit("sensor", part("P1"));
    log.on("KB-1").reprocess({"sensor"});
    log.on("KB-2").retire();
    log.on("KB-3").fit("filter", part("P1"));  // another position: another part
    CHECK(addedAfterWard(log) == "in, in, in, in, in, in, in, in, in");
}

TEST_CASE("a part that two units put in one after the other", "[unit]") {
    LogBuilder log = ward();
    log.on("KB-3").note();
    log.on("KB-1").fit("sensor", part("P1"));
    SECTION("as it stood in the first") {}
    SECTION("taken out of it") { log.on("KB-1").remove("sensor"); }
    SECTION("displaced there") { log.on("KB-1").fit("sensor", part("P2")); }
    SECTION("set free as it was retired") { log.on("KB-1").retire(); }
    log.on("KB-2").fit("sensor", part("P1"));
    const auto told = addedAfterWard(log);
    CHECK(told.substr(told.find("after")) == "after 1, 2");
}

TEST_CASE("a part that another unit has at the start", "[unit]") {
    LogBuilder log = ward();
    log.on("KB-1").fit("sensor", part("P1"));
    const auto known = log.records().size();
    SECTION("of which nothing is in") {
        log.on("KB-2").fit("sensor", part("P1"));
        CHECK(added(log, known) == "after 0");
    }
    SECTION("that takes it out, displaces it, or is retired") {
        switch (GENERATE(0, 1, 2)) {
        case 0: log.on("KB-1").remove("sensor"); break;
        case 1: log.on("KB-1").fit("sensor", part("P2")); break;
        default: log.on("KB-1").retire();
        }
        log.on("KB-3").note();
        log.on("KB-2").fit("sensor", part("P1"));
        CHECK(added(log, known) == "in, in, after 0, 2");
    }
    SECTION("and puts in anew") {
        log.on("KB-1").fit("sensor", part("P1"));
        CHECK(added(log, known) == "in");
    }
}

TEST_CASE("what is said of the department, or of parts anywhere, waits for all", "[unit]") {
    LogBuilder log = ward();
    log.on("KB-1").note();
    SECTION("an edition") { log.adopt(book("", {"2"})); }
    SECTION("a person") { log.department().person("Sam", {"lead"}); }
    SECTION("a notice") { log.department().notice("n1"); }
    SECTION("parts reprocessed") { log.department().reprocessPart("sensor", "P1"); }
    CHECK(addedAfterWard(log) == "in, after all");
}

TEST_CASE("what nothing is folded of waits for nothing", "[unit]") {
    LogBuilder log = ward();
    const auto note = log.on("KB-1").note();
    log.department().strike(note);
    log.on("KB-1").strike(note);
    CHECK(addedAfterWard(log) == "in, in, in");
}
