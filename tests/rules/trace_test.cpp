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

json::Value partOf(const std::string& position, const std::string& serial) {
    return json::Object{{"position", position}, {"serial", serial}};
}

void load(LogBuilder& log, const std::string& time, const std::string& key, json::Array parts,
          const std::string& level = "high") {
    log.on("").at(time).write("reprocess",
                              {{"parts", std::move(parts)}, {"level", level}, {"load", key}});
}

rules::Trace traced(const LogBuilder& log, rules::TraceBy by, const std::string& key) {
    return rules::trace(toLog(log), {by, key, when("23:00"), rules::unlimited});
}

// "Room 1 09:00-10:00", "Room 7 10:00-11:00 on a patient", "Room 7 11:00- paused".
std::vector<std::string> told(const rules::TraceStay& stay) {
    const auto clock = [](Instant instant) { return logbook::toText(instant).substr(11, 5); };
    std::vector<std::string> lines;
    for (const auto& span : stay.spans) {
        lines.push_back(span.location + " " + clock(span.period.from) + "-" +
                        (span.period.to ? clock(*span.period.to) : ""));
        if (span.use) lines.back() += span.paused ? " paused" : " on a patient";
    }
    return lines;
}

using Lines = std::vector<std::string>;

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
    CHECK(told(stay) ==
          Lines{"Room 1 09:00-10:00", "Room 7 10:00-11:00 on a patient", "Room 7 11:00-12:00"});
    CHECK(found.parts.empty());
    CHECK(traced(log, rules::TraceBy::Lot, "4472").stays.size() == 2);
    CHECK(traced(log, rules::TraceBy::Lot, "none").isEmpty());
}

TEST_CASE("two patients, one after the other, are two spans", "[unit]") {
    auto log = twoUnits();
    log.on("KB-1").at("09:00").useStart({{"location", "Room 3"}});
    log.on("KB-1").at("09:30").fit("circuit", {{"lot", "4471"}});
    log.on("KB-1").at("10:00").usePause();
    log.on("KB-1").at("10:20").useResume();
    log.on("KB-1").at("11:00").useStart();
    log.on("KB-1").at("12:00").useStart({{"same_patient", true}});
    const auto found = traced(log, rules::TraceBy::Lot, "4471");
    REQUIRE(found.stays.size() == 1);
    CHECK(told(found.stays[0]) == Lines{"Room 3 09:30-10:00 on a patient",
                                        "Room 3 10:00-10:20 paused",
                                        "Room 3 10:20-11:00 on a patient",
                                        "Room 3 11:00- on a patient"});
}

TEST_CASE("what happened at the very instant of the fit is told once", "[unit]") {
    auto log = twoUnits();
    log.on("KB-1").at("09:00").move("Store");
    log.on("KB-1").at("09:00").fit("circuit", {{"lot", "4471"}});
    log.on("KB-1").at("09:00").move("Room 5");
    log.on("KB-1").at("10:00").move("Room 6");
    log.on("KB-1").at("10:00").remove("circuit");
    const auto found = traced(log, rules::TraceBy::Lot, "4471");
    REQUIRE(found.stays.size() == 1);
    CHECK(told(found.stays[0]) == Lines{"Room 5 09:00-10:00"});
}

TEST_CASE("a serial is followed from unit to unit, to where it is now", "[unit]") {
    auto log = twoUnits();
    log.on("KB-1").at("09:00").fit("sensor", {{"serial", "09506000117843 S1"}});
    log.on("KB-2").at("10:00").fit("sensor", {{"serial", "09506000117843 S1"}});
    const auto found = traced(log, rules::TraceBy::Serial, "S1");
    REQUIRE(found.stays.size() == 2);
    CHECK(found.stays[0].device == "KB-1");
    CHECK(found.stays[0].period.to == when("10:00"));
    CHECK(found.stays[0].ended == found.stays[1].fit);
    CHECK(found.stays[1].device == "KB-2");
    CHECK_FALSE(found.stays[1].period.to.has_value());
    REQUIRE(found.parts.size() == 1);
    CHECK(found.parts[0].standsIn == 1U);
    CHECK(traced(log, rules::TraceBy::Serial, "09506000117843 S1").stays.size() == 2);
    CHECK(traced(log, rules::TraceBy::Serial, "1").isEmpty());
    log.on("KB-2").at("11:00").retire();
    const auto loose = traced(log, rules::TraceBy::Serial, "S1");
    CHECK(loose.stays[1].period.to == when("11:00"));
    REQUIRE(loose.parts.size() == 1);
    CHECK_FALSE(loose.parts[0].standsIn.has_value());
    CHECK(loose.parts[0].lastStay == 1U);
}

TEST_CASE("a part is found with its past, once one fit states the lot", "[unit]") {
    auto log = twoUnits();
    log.on("KB-1").at("09:00").fit("sensor", {{"serial", "S1"}});
    log.on("KB-2").at("10:00").fit("sensor", {{"serial", "S1"}, {"lot", "77"}});
    log.on("KB-1").at("11:00").fit("sensor", {{"serial", "S1"}});
    log.on("KB-2").at("12:00").fit("sensor", {{"serial", "S2"}});
    const auto found = traced(log, rules::TraceBy::Lot, "77");
    REQUIRE(found.stays.size() == 3);
    CHECK(found.stays[0].statedElsewhere);
    CHECK_FALSE(found.stays[1].statedElsewhere);
    CHECK_FALSE(found.stays[2].statedElsewhere);  // what was stated once stays
}

TEST_CASE("a trace as of an instant knows no more than that", "[unit]") {
    auto log = twoUnits();
    log.on("KB-1").at("09:00").fit("circuit", {{"lot", "4471"}});
    log.on("KB-1").at("10:00").entered("15:00").remove("circuit");
    const auto log2 = toLog(log);
    const auto before = rules::trace(log2, {rules::TraceBy::Lot, "4471", when("09:30")});
    CHECK_FALSE(before.stays.at(0).period.to.has_value());
    const auto unknown =
        rules::trace(log2, {rules::TraceBy::Lot, "4471", when("12:00"), when("12:00")});
    CHECK_FALSE(unknown.stays.at(0).period.to.has_value());
    CHECK(rules::trace(log2, {rules::TraceBy::Lot, "4471", when("08:30")}).isEmpty());
    CHECK(rules::trace(log2, {rules::TraceBy::Lot, "4471", when("12:00")}).stays.at(0).period.to ==
          when("10:00"));
}

TEST_CASE("a load is traced back and forward", "[unit]") {
    auto log = twoUnits();
    log.on("KB-1").at("09:00").fit("sensor", {{"serial", "S1"}});
    log.on("KB-1").at("09:30").remove("sensor");
    load(log, "10:00", "W-17", {partOf("sensor", "S1"), partOf("sensor", "S9")});
    log.on("KB-2").at("11:00").fit("sensor", {{"serial", "S1"}});
    log.on("KB-2").at("12:00").remove("sensor");
    load(log, "13:00", "W-18", {partOf("sensor", "S1")});
    log.on("KB-1").at("14:00").fit("sensor", {{"serial", "S1"}});
    const auto found = traced(log, rules::TraceBy::Load, "W-17");
    CHECK(traced(log, rules::TraceBy::Load, "W-18").stays.at(0).side == rules::LoadSide::Earlier);
    REQUIRE(found.stays.size() == 3);
    CHECK(found.stays[0].side == rules::LoadSide::Before);
    CHECK(found.stays[1].side == rules::LoadSide::Since);
    CHECK(found.stays[2].side == rules::LoadSide::Later);
    REQUIRE(found.reprocesses.size() == 3);
    CHECK(found.reprocesses[0].load == "W-17");
    CHECK(found.reprocesses[0].record.at == when("10:00"));
    CHECK(found.reprocesses[0].counted);
    CHECK(found.reprocesses[2].load == "W-18");
    REQUIRE(found.parts.size() == 2);
    CHECK_FALSE(found.parts[1].lastStay.has_value());  // S9 was never fitted
}

TEST_CASE("a part that stays in its unit goes through the load there", "[unit]") {
    auto log = twoUnits();
    log.on("KB-1").at("09:00").fit("sensor");
    log.on("KB-2").at("09:00").fit("sensor");
    log.on("KB-1").at("10:00").write("reprocess", {{"positions", list({"sensor", "circuit"})},
                                                   {"level", "high"},
                                                   {"load", "W-17"}});
    log.on("KB-1").at("12:00").fit("sensor");
    const auto found = traced(log, rules::TraceBy::Load, "W-17");
    REQUIRE(found.stays.size() == 1);
    CHECK(found.stays[0].device == "KB-1");
    CHECK(found.stays[0].period.from == when("09:00"));
    CHECK(found.stays[0].side == rules::LoadSide::Through);
    REQUIRE(found.reprocesses.size() == 1);
    CHECK(found.reprocesses[0].device == "KB-1");
    CHECK(found.reprocesses[0].stay == 0U);
    CHECK(found.parts.empty());
}

TEST_CASE("a reprocessing without effect is told as one, and ends nothing", "[unit]") {
    auto log = twoUnits();
    log.on("KB-1").at("09:00").fit("sensor", {{"serial", "S1"}, {"reuse", "permanent"}});
    log.on("KB-1").at("09:30").remove("sensor");
    load(log, "10:00", "W-17", {partOf("sensor", "S1")});
    log.on("KB-2").at("11:00").fit("sensor", {{"serial", "S1"}});
    load(log, "12:00", "W-18", {partOf("sensor", "S1")});
    log.on("KB-1").at("13:00").fit("sensor", {{"serial", "S1"}});
    const auto found = traced(log, rules::TraceBy::Load, "W-17");
    REQUIRE(found.reprocesses.size() == 2);
    CHECK_FALSE(found.reprocesses[0].counted);
    REQUIRE(found.stays.size() == 3);
    CHECK(found.stays[2].side == rules::LoadSide::Since);
}

TEST_CASE("a notice finds the parts, or the units, that it is about", "[unit]") {
    auto log = twoUnits();
    log.on("KB-1").at("09:00").fit("circuit", {{"lot", "4471"}});
    log.department().at("12:00").notice("by_lot", {{"lots", list({"4471"})}});
    log.department().at("12:00").notice("by_unit", {{"devices", list({"KB-2"})}});
    log.department().at("12:00").notice(
        "by_both", {{"lots", list({"4471"})}, {"devices", list({"KB-2"})}});
    const auto parts = traced(log, rules::TraceBy::Notice, "by_lot");
    REQUIRE(parts.stays.size() == 1);
    CHECK(parts.stays[0].device == "KB-1");
    CHECK(parts.stays[0].position == "circuit");
    CHECK(parts.notice->notice.title == "Notice");
    const auto units = traced(log, rules::TraceBy::Notice, "by_unit");
    REQUIRE(units.stays.size() == 1);
    CHECK(units.stays[0].device == "KB-2");
    CHECK(units.stays[0].position.empty());
    CHECK(told(units.stays[0]) == Lines{"Room 2 08:02-"});
    CHECK(traced(log, rules::TraceBy::Notice, "by_both").isEmpty());
    CHECK_FALSE(traced(log, rules::TraceBy::Notice, "other").notice.has_value());
}

TEST_CASE("a unit is concerned by a notice only while what it says holds", "[unit]") {
    auto log = twoUnits();
    log.on("KB-1").at("09:00").software("2.1");
    log.on("KB-1").at("10:00").fit("circuit", {{"lot", "4471"}});
    log.department().at("11:00").notice("software", {{"software", list({"2.1"})}});
    log.department().at("11:00").notice(
        "both", {{"software", list({"2.1"})}, {"position", "circuit"}});
    log.on("KB-1").at("13:00").software("2.2");
    log.on("KB-1").at("14:00").fit("circuit", {{"lot", "4472"}});
    const auto units = traced(log, rules::TraceBy::Notice, "software");
    REQUIRE(units.stays.size() == 1);
    CHECK(units.stays[0].period.from == when("09:00"));
    CHECK(units.stays[0].period.to == when("13:00"));
    const auto parts = traced(log, rules::TraceBy::Notice, "both");
    REQUIRE(parts.stays.size() == 1);
    CHECK(parts.stays[0].part.text("lot") == "4471");
}

TEST_CASE("a notice carried out is told where it settles the match", "[unit]") {
    auto log = twoUnits();
    log.on("KB-1").at("09:00").fit("circuit", {{"lot", "4471"}});
    log.on("KB-1").at("09:30").noticeDone("n1");
    log.department().at("10:00").notice("n1", {{"lots", list({"4471"})}});
    CHECK_FALSE(traced(log, rules::TraceBy::Notice, "n1").stays.at(0).done.has_value());
    log.on("KB-1").at("11:00").fit("circuit", {{"lot", "4480"}});
    log.on("KB-1").at("11:10").noticeDone("n1");
    log.on("KB-1").at("12:00").fit("circuit", {{"lot", "4471"}});
    auto found = traced(log, rules::TraceBy::Notice, "n1");
    REQUIRE(found.stays.size() == 2);
    REQUIRE(found.stays[0].done.has_value());
    CHECK(found.stays[0].done->at == when("11:10"));
    CHECK_FALSE(found.stays[1].done.has_value());
    log.department().at("13:00").notice("n1", {{"lots", list({"4471"})}}, "stop_use", true);
    found = traced(log, rules::TraceBy::Notice, "n1");
    CHECK(found.notice->notice.cancelled);
    CHECK(found.stays.size() == 2);
}
