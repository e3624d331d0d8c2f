// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking back by two states of knowledge.
#include "rules/look_back.h"

#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

std::vector<std::string> namesOf(const rules::Log& log, const std::vector<std::size_t>& indexes) {
    std::vector<std::string> names;
    for (const auto index : indexes) names.push_back(logbook::toText(log.records()[index].name));
    return names;
}

}  // namespace

TEST_CASE("what was entered since is not in what was known", "[unit]") {
    LogBuilder builder = logWith(bookOfLeak("voided_by = [ { event = \"soil\" } ]"));
    const auto pass = builder.on(device).at("09:00").pass("leak");
    const auto soil = builder.on(device).at("10:00").entered("14:00").soil();
    const auto log = toLog(builder);
    const auto back = rules::lookBack(log, {device, when("11:00"), when("11:00"), std::nullopt});
    REQUIRE(back.known);
    REQUIRE(back.actual);
    CHECK(verdict(*back.known) == "ready");
    CHECK(verdict(*back.actual) == "not_ready");
    CHECK(namesOf(log, back.enteredSince) == std::vector{logbook::toText(soil)});
    CHECK(back.struckSince.empty());
    CHECK(namesOf(log, back.evidence) == std::vector{logbook::toText(pass), logbook::toText(soil)});
}

TEST_CASE("what was struck since was known", "[unit]") {
    LogBuilder builder = logWith(bookOfLeak(""));
    const auto pass = builder.on(device).at("09:00").pass("leak");
    builder.on(device).at("13:00").write(
        "strike", {{"target", logbook::toText(pass)}, {"reason", "wrong unit"}});
    const auto log = toLog(builder);
    const auto back = rules::lookBack(log, {device, when("11:00"), when("11:00"), std::nullopt});
    CHECK(verdict(*back.known) == "ready");
    CHECK(verdict(*back.actual) == "not_ready");
    CHECK(namesOf(log, back.struckSince) == std::vector{logbook::toText(pass)});
    CHECK(back.enteredSince.empty());
}

TEST_CASE("a part fitted elsewhere, which was entered since, is told", "[unit]") {
    LogBuilder builder = logWith(book("[positions.sensor]\nrequired = true\n"));
    builder.on("KB-2").enrol({"adult"});
    builder.on(device).at("09:00").fit("sensor", {{"serial", "S1"}});
    const auto moved =
        builder.on("KB-2").at("10:00").entered("14:00").fit("sensor", {{"serial", "S1"}});
    builder.on("KB-2").at("10:05").entered("14:00").note();
    const auto log = toLog(builder);
    const auto back = rules::lookBack(log, {device, when("11:00"), when("11:00"), std::nullopt});
    CHECK(verdict(*back.known) == "ready");
    CHECK(blocking(*back.actual) == "missing sensor");
    CHECK(namesOf(log, back.enteredSince) == std::vector{logbook::toText(moved)});
}

TEST_CASE("signatures bear on nothing, and the department's other records are told", "[unit]") {
    LogBuilder builder = logWith(bookOfLeak(""));
    builder.department().at("10:00").person("Robin", {"lead"});
    builder.department().at("10:01").write(
        "sign", {{"scope", "month"}, {"digest", "x"}, {"known_at", "2026-03-02T10:00:00Z"},
                 {"heads", support::json::Object{}}});
    const auto log = toLog(builder);
    const auto back = rules::lookBack(log, {device, when("11:00"), when("09:00"), std::nullopt});
    REQUIRE(back.enteredSince.size() == 1);
    CHECK(log.records()[back.enteredSince[0]].kind() == logbook::Kind::Person);
}

TEST_CASE("a unit enrolled later was not known", "[unit]") {
    LogBuilder builder;
    builder.adopt(bookOfLeak(""));
    builder.on(device).at("09:00").entered("12:00").enrol({"adult"});
    const auto log = toLog(builder);
    const auto back = rules::lookBack(log, {device, when("10:00"), when("10:00"), std::nullopt});
    CHECK_FALSE(back.known.has_value());
    CHECK(back.actual.has_value());
}

namespace {

// A reusable sensor, S1, that was in KB-2 before it was put into the unit at nine.
LogBuilder logOfSensor() {
    LogBuilder builder =
        logWith(book("[positions.sensor]\nrequired = true\nreuse = \"reusable\"\n"));
    builder.on("KB-2").at("08:02").enrol({"adult"});
    builder.on("KB-2").at("08:10").fit("sensor", {{"serial", "S1"}});
    builder.on(device).at("09:00").fit("sensor", {{"serial", "S1"}});
    return builder;
}

}  // namespace

TEST_CASE("a use of another unit, in which a part was used before, is told", "[unit]") {
    LogBuilder builder = logOfSensor();
    const auto start = builder.on("KB-2").at("08:30").entered("14:00").useStart();
    const auto end = builder.on("KB-2").at("08:50").entered("14:01").useEnd();
    builder.on("KB-2").at("08:05").entered("14:02").soil();
    builder.on("KB-2").at("09:30").entered("14:03").useStart();
    const auto log = toLog(builder);
    const auto back = rules::lookBack(log, {device, when("11:00"), when("12:00"), std::nullopt});
    CHECK(verdict(*back.known) == "ready");
    CHECK(verdict(*back.actual) == "not_ready");
    CHECK(namesOf(log, back.enteredSince) ==
          std::vector{logbook::toText(start), logbook::toText(end)});
}

TEST_CASE("a use struck since, in which a part was put in elsewhere, is told", "[unit]") {
    LogBuilder builder =
        logWith(book("[positions.sensor]\nrequired = true\nreuse = \"reusable\"\n"));
    builder.on("KB-2").at("08:02").enrol({"adult"});
    const auto start = builder.on("KB-2").at("08:05").useStart();
    builder.on("KB-2").at("08:10").fit("sensor", {{"serial", "S1"}});
    builder.on(device).at("09:00").fit("sensor", {{"serial", "S1"}});
    builder.on("KB-2").at("13:00").strike(start);
    const auto log = toLog(builder);
    const auto back = rules::lookBack(log, {device, when("11:00"), when("12:00"), std::nullopt});
    CHECK(verdict(*back.known) == "not_ready");
    CHECK(verdict(*back.actual) == "ready");
    CHECK(namesOf(log, back.struckSince) == std::vector{logbook::toText(start)});
}
