// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Parts: put in and taken out, one thing throughout the log if they have a serial.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

const std::string twoPositions = book("[positions.circuit]\n[positions.sensor]\n");

const rules::PartAttributes fittedIn(const LogBuilder& log, const std::string& position) {
    return deviceOf(stateOf(log)).fitted.at(position).attributes;
}

rules::PartLife lifeIn(const LogBuilder& log, const std::string& position) {
    const auto state = stateOf(log);
    return state.life(deviceOf(state).fitted.at(position), position);
}

}  // namespace

TEST_CASE("a part is put in and taken out", "[unit]") {
    LogBuilder log = logWith(twoPositions);
    log.on(device).remove("circuit");
    CHECK(did(log) == " /  / without effect");
    log.on(device).at("09:00").fit("circuit", {{"lot", "L7"}, {"layout", "coaxial"}});
    CHECK(did(log) == "KB-1 fit circuit /  / effective");
    CHECK(fittedIn(log, "circuit").text("lot") == "L7");
    CHECK(fittedIn(log, "circuit").text("layout") == "coaxial");
    CHECK(fittedIn(log, "circuit").serial().empty());
    CHECK(deviceOf(stateOf(log)).fitted.at("circuit").fit.at == when("09:00"));
    log.on(device).fit("circuit", {{"lot", "L8"}});
    CHECK(did(log) == "KB-1 fit circuit /  / effective");  // no `remove` for what it displaces
    CHECK(fittedIn(log, "circuit").text("lot") == "L8");
    CHECK(fittedIn(log, "circuit").text("layout").empty());
    log.on(device).remove("circuit");
    CHECK(did(log) == "KB-1 remove circuit /  / effective");
    CHECK(deviceOf(stateOf(log)).fitted.empty());
    CHECK(deviceOf(stateOf(log)).lastHeld.at("circuit").text("lot") == "L8");
    log.on(device).remove("circuit");
    CHECK(did(log) == " /  / without effect");
}

TEST_CASE("a position that the edition does not name takes nothing", "[unit]") {
    LogBuilder log = logWith(twoPositions);
    log.on(device).fit("hme");
    CHECK(did(log) == " / unknown_key / without effect");
    CHECK(deviceOf(stateOf(log)).fitted.empty());
    log.on(device).remove("hme");
    CHECK(did(log) == " / unknown_key / without effect");
}

TEST_CASE("what is known of a serial stays until it is stated anew or cleared", "[unit]") {
    LogBuilder log = logWith(twoPositions);
    log.on(device).fit("circuit", {{"serial", "C1"}, {"lot", "L7"}, {"reuse", "reusable"},
                                   {"expires", "2026-10-31"}, {"groups", list({"adult"})}});
    log.on(device).fit("circuit", {{"serial", "C2"}});
    CHECK(fittedIn(log, "circuit").text("lot").empty());
    log.on(device).fit("circuit", {{"serial", "C1"}, {"layout", "coaxial"}});
    const auto known = fittedIn(log, "circuit");
    CHECK(known.text("lot") == "L7");
    CHECK(known.text("layout") == "coaxial");
    CHECK(known.reuse == logbook::Reuse::Reusable);
    CHECK(known.expires == logbook::parseDay("2026-10-31"));
    CHECK(known.groups == Texts{"adult"});
    log.on(device).fit("circuit", {{"serial", "C1"}, {"lot", ""}, {"reuse", ""}, {"expires", ""},
                                   {"groups", json::Array{}}});
    const auto cleared = fittedIn(log, "circuit");
    CHECK(cleared.serial() == "C1");
    CHECK(cleared.text("lot").empty());
    CHECK(cleared.text("layout") == "coaxial");
    CHECK_FALSE(cleared.reuse);
    CHECK_FALSE(cleared.expires);
    CHECK_FALSE(cleared.groups);
}

TEST_CASE("an empty serial is none", "[unit]") {
    LogBuilder log = logWith(twoPositions);
    log.on(device).fit("circuit", {{"serial", ""}, {"lot", "L7"}});
    log.on(device).useStart();
    log.on(device).useEnd();
    log.on(device).fit("circuit", {{"serial", ""}});
    CHECK_FALSE(lifeIn(log, "circuit").used);
    CHECK(fittedIn(log, "circuit").text("lot").empty());
    CHECK(stateOf(log).parts.empty());
}

TEST_CASE("a part with a serial stays used wherever it goes, one without begins anew", "[unit]") {
    LogBuilder log = logWith(twoPositions);
    log.on("KB-2").enrol({"adult"});
    log.on(device).fit("circuit", {{"serial", "C1"}});
    log.on(device).fit("sensor", {{"lot", "L1"}});
    log.on(device).at("09:00").useStart();
    log.on(device).useEnd();
    log.on(device).remove("circuit");
    log.on(device).fit("sensor", {{"lot", "L1"}});
    CHECK_FALSE(lifeIn(log, "sensor").used);
    log.on("KB-2").fit("circuit", {{"serial", "C1"}});
    CHECK(did(log) == "KB-2 fit circuit /  / effective");
    const auto state = stateOf(log);
    const auto& life = state.life(deviceOf(state, "KB-2").fitted.at("circuit"), "circuit");
    CHECK(life.used);
    CHECK(text(life.firstUse) == "2026-03-02T09:00:00Z");
}

TEST_CASE("the same serial in another position is another part", "[unit]") {
    LogBuilder log = logWith(twoPositions);
    log.on(device).fit("circuit", {{"serial", "X1"}});
    log.on(device).useStart();
    log.on(device).useEnd();
    log.on(device).fit("sensor", {{"serial", "X1"}});
    CHECK(did(log) == "KB-1 fit sensor /  / effective");
    CHECK(lifeIn(log, "circuit").used);
    CHECK_FALSE(lifeIn(log, "sensor").used);
}

TEST_CASE("a part that stands in another device is removed there", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(R"(voided_by = [{ event = "remove circuit" }])",
                                        "[positions.circuit]\nrequired = true\n"));
    log.on(device).fit("circuit", {{"serial", "C1"}});
    log.on(device).pass("leak");
    CHECK(verdict(assessed(log)) == "ready");
    log.on("KB-2").enrol({"adult"});
    log.on("KB-2").fit("circuit", {{"serial", "C9"}});
    const auto moved = log.on("KB-2").fit("circuit", {{"serial", "C1"}});
    CHECK(did(log) == "KB-1 remove circuit, KB-2 fit circuit / part_moved / effective");
    const auto robbed = assessed(log);
    CHECK(findings(robbed) == "due leak, missing circuit");
    CHECK(restsOn(finding(robbed, "due leak")) == toText(moved));
    CHECK(toText(robbed.last->name) == "icu-1/4");  // that record is one of the other device
    const auto state = stateOf(log);
    CHECK(state.parts.at({"circuit", "C1"})->device == "KB-2");
    CHECK(state.parts.at({"circuit", "C9"})->device.empty());
    CHECK(deviceOf(state, "KB-2").fitted.at("circuit").attributes.serial() == "C1");
}

TEST_CASE("putting a part in again where it stands moves nothing", "[unit]") {
    LogBuilder log = logWith(twoPositions);
    log.on(device).fit("circuit", {{"serial", "C1"}});
    log.on(device).useStart();
    log.on(device).useEnd();
    log.on(device).at("12:00").fit("circuit", {{"serial", "C1"}});
    CHECK(did(log) == "KB-1 fit circuit /  / effective");
    CHECK(lifeIn(log, "circuit").used);
    CHECK(deviceOf(stateOf(log)).fitted.at("circuit").fit.at == when("12:00"));
    CHECK(stateOf(log).parts.at({"circuit", "C1"})->device == device);
}

TEST_CASE("a part taken out stands nowhere, so that it can be put in elsewhere", "[unit]") {
    LogBuilder log = logWith(twoPositions);
    log.on("KB-2").enrol({"adult"});
    log.on(device).fit("circuit", {{"serial", "C1"}});
    SECTION("by removal") { log.on(device).remove("circuit"); }
    SECTION("by another part") { log.on(device).fit("circuit", {{"serial", "C2"}}); }
    SECTION("by another part without a serial") { log.on(device).fit("circuit"); }
    SECTION("by retirement") { log.on(device).retire(); }
    CHECK(stateOf(log).parts.at({"circuit", "C1"})->device.empty());
    log.on("KB-2").fit("circuit", {{"serial", "C1"}});
    CHECK(did(log) == "KB-2 fit circuit /  / effective");
}

TEST_CASE("soil makes the parts used without a first use", "[unit]") {
    LogBuilder log = logWith(twoPositions);
    log.on(device).fit("circuit", {{"serial", "C1"}});
    log.on(device).fit("sensor");
    log.on(device).at("09:00").soil();
    CHECK(did(log) == "KB-1 soil /  / effective");
    for (const std::string position : {"circuit", "sensor"}) {
        CHECK(lifeIn(log, position).used);
        CHECK_FALSE(lifeIn(log, position).firstUse);
    }
    log.on(device).at("10:00").useStart();
    CHECK(text(lifeIn(log, "circuit").firstUse) == "2026-03-02T10:00:00Z");
}
