// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Tracing parts by lot, serial, load and notice.
#include "rules/trace.h"

#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

const std::string positions =
    book("[positions.circuit]\n[positions.sensor]\nreuse = \"reusable\"\n");

LogBuilder twoUnits() {
    LogBuilder log;
    log.adopt(positions);
    log.on("KB-1").at("08:01").enrol({"adult"}, {}, {{"location", "Room 1"}});
    log.on("KB-2").at("08:02").enrol({"adult"}, {}, {{"location", "Room 2"}});
    return log;
}

rules::Trace traced(const LogBuilder& log, rules::TraceBy by, const std::string& key) {
    return rules::trace(toLog(log), {by, key, when("23:00"), rules::unlimited});
}

}  // namespace

TEST_CASE("a lot is found in every unit, with places and uses", "[unit]") {
    auto log = twoUnits();
    log.on("KB-1").at("09:00").fit("circuit", {{"lot", "4471"}});
    log.on("KB-2").at("09:10").fit("circuit", {{"lot", "4472"}});
    log.on("KB-1").at("10:00").useStart({{"location", "Room 7"}});
    log.on("KB-1").at("11:00").useEnd();
    log.on("KB-1").at("12:00").fit("circuit", {{"lot", "4472"}});
    const auto found = traced(log, rules::TraceBy::Lot, "4471");
    REQUIRE(found.stays.size() == 1);
    const auto& stay = found.stays.front();
    CHECK(stay.device == "KB-1");
    CHECK(stay.position == "circuit");
    CHECK(stay.period.from == when("09:00"));
    CHECK(stay.period.to == when("12:00"));
    REQUIRE(stay.places.size() == 2);
    CHECK(stay.places[0].location == "Room 1");
    CHECK(stay.places[1].location == "Room 7");
    CHECK(stay.places[1].since == when("10:00"));
    REQUIRE(stay.uses.size() == 1);
    CHECK(stay.uses[0].from == when("10:00"));
    CHECK(stay.uses[0].to == when("11:00"));
    CHECK(traced(log, rules::TraceBy::Lot, "4472").stays.size() == 2);
    CHECK(traced(log, rules::TraceBy::Lot, "none").stays.empty());
}

TEST_CASE("a serial is followed from unit to unit, to where it is now", "[unit]") {
    auto log = twoUnits();
    log.on("KB-1").at("09:00").fit("sensor", {{"serial", "09506000117843 S1"}});
    log.on("KB-2").at("10:00").fit("sensor", {{"serial", "09506000117843 S1"}});
    const auto found = traced(log, rules::TraceBy::Serial, "S1");
    REQUIRE(found.stays.size() == 2);
    CHECK(found.stays[0].device == "KB-1");
    CHECK(found.stays[0].period.to == when("10:00"));
    CHECK(found.stays[1].device == "KB-2");
    CHECK_FALSE(found.stays[1].period.to.has_value());
    CHECK(traced(log, rules::TraceBy::Serial, "09506000117843 S1").stays.size() == 2);
    CHECK(traced(log, rules::TraceBy::Serial, "1").stays.empty());
}

TEST_CASE("a load is traced back and forward", "[unit]") {
    auto log = twoUnits();
    log.on("KB-1").at("09:00").fit("sensor", {{"serial", "S1"}});
    log.on("KB-1").at("09:30").remove("sensor");
    const json::Object part{{"position", "sensor"}, {"serial", "S1"}};
    log.on("").at("10:00").write(
        "reprocess",
        {{"parts", json::Array{json::Value(part)}}, {"level", "high"}, {"load", "W-17"}});
    log.on("KB-2").at("11:00").fit("sensor", {{"serial", "S1"}});
    const auto found = traced(log, rules::TraceBy::Load, "W-17");
    REQUIRE(found.stays.size() == 2);
    CHECK(found.stays[0].device == "KB-1");
    CHECK(found.stays[0].afterLoad == false);
    CHECK(found.stays[1].device == "KB-2");
    CHECK(found.stays[1].afterLoad == true);
    REQUIRE(found.reprocesses.size() == 1);
    CHECK(found.reprocesses[0].load == "W-17");
    CHECK(found.reprocesses[0].record.at == when("10:00"));
}

TEST_CASE("a notice finds the parts, or the units, that it is about", "[unit]") {
    auto log = twoUnits();
    log.on("KB-1").at("09:00").fit("circuit", {{"lot", "4471"}});
    const auto notice = [&log](const std::string& key, json::Object match) {
        log.on("").at("12:00").write("notice", {{"key", key},
                                                {"title", "Field notice"},
                                                {"action", "stop_use"},
                                                {"match", std::move(match)}});
    };
    notice("by_lot", {{"lots", list({"4471"})}});
    notice("by_unit", {{"devices", list({"KB-2"})}});
    const auto parts = traced(log, rules::TraceBy::Notice, "by_lot");
    REQUIRE(parts.stays.size() == 1);
    CHECK(parts.stays[0].device == "KB-1");
    CHECK(parts.stays[0].position == "circuit");
    const auto units = traced(log, rules::TraceBy::Notice, "by_unit");
    REQUIRE(units.stays.size() == 1);
    CHECK(units.stays[0].device == "KB-2");
    CHECK(units.stays[0].position.empty());
}
