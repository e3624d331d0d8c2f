// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reprocessing: which parts it acts on, fitted or not, and what it leaves alone.
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

const std::string sensors = book(R"(
[positions.sensor]
reuse = "reusable"
reprocess_level = "high"
[positions.valve]
reuse = "reusable"
[positions.cell]
)");

// With a sensor and a valve used from 09:00 to 09:30.
LogBuilder usedDevice(const json::Object& sensor = {{"serial", "S1"}}) {
    LogBuilder log = logWith(sensors);
    log.on(device).fit("sensor", sensor);
    log.on(device).fit("valve");
    log.on(device).fit("cell");
    log.on(device).at("09:00").useStart();
    log.on(device).at("09:30").useEnd();
    return log;
}

rules::PartLife lifeIn(const LogBuilder& log, const std::string& position) {
    const auto state = stateOf(log);
    return state.life(deviceOf(state).fitted.at(position), position);
}

}  // namespace

TEST_CASE("reprocessing on a device", "[unit]") {
    LogBuilder log = usedDevice();
    CHECK(findings(assessed(log)) == "unprocessed sensor, unprocessed valve");
    SECTION("renews the parts listed") {
        log.on(device).reprocess({"valve", "sensor"});
        CHECK(did(log) == "KB-1 reprocess sensor, KB-1 reprocess valve /  / effective");
        for (const std::string position : {"sensor", "valve"}) {
            CHECK_FALSE(lifeIn(log, position).used);
            CHECK_FALSE(lifeIn(log, position).firstUse);
            CHECK(lifeIn(log, position).cycles == 1);
        }
        CHECK(findings(assessed(log)).empty());
        log.on(device).reprocess({"sensor"});
        CHECK(lifeIn(log, "sensor").cycles == 2);
        CHECK(lifeIn(log, "valve").cycles == 1);
    }
    SECTION("a position listed twice is one") {
        log.on(device).reprocess({"sensor", "sensor"});
        CHECK(lifeIn(log, "sensor").cycles == 1);
    }
    SECTION("at too low a level acts only where that will do") {
        log.on(device).reprocess({"sensor", "valve"}, "low");
        CHECK(did(log) == "KB-1 reprocess valve /  / effective");
        CHECK(lifeIn(log, "sensor").used);
        CHECK(lifeIn(log, "sensor").cycles == 0);
    }
    SECTION("at a higher level than asked acts") {
        log.on(device).reprocess({"sensor"}, "sterile");
        CHECK(lifeIn(log, "sensor").cycles == 1);
    }
    SECTION("a part that is not reusable is left alone") {
        log.on(device).reprocess({"cell"});
        CHECK(did(log) == " /  / effective");
        CHECK(lifeIn(log, "cell").used);
    }
    SECTION("an empty position is no matter") {
        log.on(device).remove("sensor");
        log.on(device).reprocess({"sensor"});
        CHECK(did(log) == " /  / effective");
    }
    SECTION("of several positions the known ones act") {
        log.on(device).reprocess({"hme", "sensor"});
        CHECK(did(log) == "KB-1 reprocess sensor / unknown_key / effective");
        CHECK(lifeIn(log, "sensor").cycles == 1);
    }
}

TEST_CASE("a part's own reuse wins over that of its position", "[unit]") {
    LogBuilder log = usedDevice({{"serial", "S1"}, {"reuse", "single_use"}});
    log.on(device).reprocess({"sensor"});
    CHECK(did(log) == " /  / effective");
    CHECK(lifeIn(log, "sensor").used);
    log.on(device).fit("cell", {{"reuse", "reusable"}});
    log.on(device).reprocess({"cell"});
    CHECK(did(log) == "KB-1 reprocess cell /  / effective");
}

TEST_CASE("nothing is reprocessed on a patient", "[unit]") {
    LogBuilder log = usedDevice();
    log.on(device).at("10:00").useStart();
    log.on(device).reprocess({"sensor", "valve"});
    CHECK(did(log) == " /  / effective");
    log.department().reprocessPart("sensor", "S1");
    CHECK(did(log) == " /  / effective");
    CHECK(lifeIn(log, "sensor").used);
    CHECK(lifeIn(log, "sensor").cycles == 0);
    log.on(device).usePause();
    log.on(device).reprocess({"valve"});
    CHECK(did(log) == "KB-1 reprocess valve /  / effective");
    log.department().reprocessPart("sensor", "S1");
    CHECK(did(log) == "KB-1 reprocess sensor /  / effective");
    CHECK_FALSE(lifeIn(log, "sensor").used);
}

TEST_CASE("a part can be reprocessed anywhere, known by its serial", "[unit]") {
    LogBuilder log = usedDevice();
    SECTION("in a device: the event is raised there") {
        log.department().reprocessPart("sensor", "S1");
        CHECK(did(log) == "KB-1 reprocess sensor /  / effective");
        CHECK_FALSE(lifeIn(log, "sensor").used);
        CHECK(lifeIn(log, "sensor").cycles == 1);
    }
    SECTION("on the shelf: no event") {
        log.on(device).remove("sensor");
        log.department().reprocessPart("sensor", "S1");
        CHECK(did(log) == " /  / effective");
        const auto state = stateOf(log);
        CHECK_FALSE(state.parts.at({"sensor", "S1"})->life.used);
        CHECK(state.parts.at({"sensor", "S1"})->life.cycles == 1);
    }
    SECTION("too low a level") {
        log.department().reprocessPart("sensor", "S1", "low");
        CHECK(did(log) == " /  / effective");
        CHECK(lifeIn(log, "sensor").used);
    }
    SECTION("an unknown position") {
        log.department().reprocessPart("hme", "S1");
        CHECK(did(log) == " / unknown_key / effective");
    }
    SECTION("one that nobody has seen before, by the reuse of its position") {
        log.department().reprocessPart("sensor", "S7");
        CHECK(did(log) == " /  / effective");
        log.department().reprocessPart("sensor", "S7");
        log.on(device).fit("sensor", {{"serial", "S7"}});
        CHECK(lifeIn(log, "sensor").cycles == 2);
        CHECK(deviceOf(stateOf(log)).fitted.at("sensor").attributes.serial() == "S7");
    }
    SECTION("one of a position whose parts are not reusable") {
        log.department().reprocessPart("cell", "X1");
        log.on(device).fit("cell", {{"serial", "X1"}});
        CHECK(lifeIn(log, "cell").cycles == 0);
    }
    SECTION("listed twice it is one") {
        const json::Object part{{"position", "sensor"}, {"serial", "S1"}};
        log.department().write("reprocess",
                               {{"parts", json::Array{json::Value(part), json::Value(part)}},
                                {"level", "high"}});
        CHECK(lifeIn(log, "sensor").cycles == 1);
    }
}

TEST_CASE("reprocessing is an event of the position", "[unit]") {
    LogBuilder log = logWith(bookOfLeak(R"(voided_by = [{ event = "reprocess sensor" }])",
                                        "[positions.sensor]\nreuse = \"reusable\"\n"));
    log.on(device).fit("sensor", {{"serial", "S1"}});
    log.on(device).pass("leak");
    SECTION("on the device") {
        log.on(device).reprocess({"sensor"});
        CHECK(restsOn(finding(assessed(log), "due leak")) == "icu-1/5");
    }
    SECTION("by its serial") {
        log.department().reprocessPart("sensor", "S1");
        CHECK(restsOn(finding(assessed(log), "due leak")) == "icu-1/5");
    }
    SECTION("without effect it voids nothing") {
        log.on(device).fit("sensor", {{"serial", "S2"}, {"reuse", "permanent"}});
        log.on(device).reprocess({"sensor"});
        CHECK(status(assessed(log)) == "current");
    }
}
