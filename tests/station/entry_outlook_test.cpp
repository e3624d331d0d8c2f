// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What would become of an entry, told before it is kept.
#include "station/entry_outlook.h"

#include "station/ward.h"

using support::utc;
using support::Ward;
using Told = std::vector<std::string>;

namespace {

namespace json = logbook::json;

constexpr std::string_view policy =
    "format = 1\ntitle = \"Small\"\nedition = \"2\"\ntime_zone = \"America/Chicago\"\n"
    "[groups.adult]\n"
    "[positions.hme]\nlabel = \"HME\"\nreuse = \"single_patient\"\n"
    "[positions.sensor]\nreuse = \"reusable\"\nreprocess_level = \"high\"\n"
    "[checks.flow]\nlabel = \"Flow sensor calibration\"\ntakes = \"PT2M\"\n"
    "not_with = [{ position = \"hme\" }]\nneeds = [\"mains_power\"]\n"
    "[checks.oxygen]\nlabel = \"Oxygen sensor calibration\"\ntakes = \"PT2M\"\nafter = [\"flow\"]\n"
    "not_before = [{ event = \"power_on\", wait = \"PT10M\" }]\n"
    "[checks.alarm]\nlabel = \"Alarm test\"\ntakes = \"PT2M\"\nneeds_second = true\n"
    "[checks.alarm.measures.tone]\nunit = \"dB\"\nrequired = true\n"
    "[authority]\nadopt = [\"lead\"]\ncheck = [\"therapist\"]\n";

struct Scene {
    Ward ward;

    Scene() {
        ward.found();
        const station::Adoption adoption{ward.as("mt"), ward.folder.write("two.toml", policy)};
        REQUIRE(station::adopt(ward.surroundings, ward.logbook, adoption));
        ward.enrol("KB-0001");
        write("power", {{"on", true}});
        ward.clock.advance(logbook::Duration{3'600'000});
    }

    void write(const std::string& kind, json::Object body) {
        station::Entry entry{ward.as("mt"), kind, "KB-0001", std::move(body)};
        REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
    }

    // Of somebody who has not signed in yet.
    static station::Entry entry(const std::string& kind, json::Object body) {
        return {station::Writer(""), kind, "KB-0001", std::move(body)};
    }
    static station::Entry check(const std::string& key) {
        return entry("check", {{"check", key},
                               {"outcome", "pass"},
                               {"conditions", json::Array{"mains_power"}}});
    }

    Told told(const std::vector<station::Entry>& entries,
              const station::StillToCome& toCome = {}) {
        const auto stands = station::wholeStanding(ward.surroundings, ward.logbook, {});
        REQUIRE(stands);
        return station::whyUncounted(ward.surroundings, *stands, entries, toCome);
    }
};

}  // namespace

TEST_CASE("What would count is not told, whoever may write it", "[unit]") {
    Scene scene;
    CHECK(scene.told({Scene::check("flow")}).empty());
    CHECK(scene.told({Scene::check("flow"), Scene::check("oxygen")}).empty());
    auto failure = Scene::check("flow");
    failure.body[1].second = "fail";
    scene.write("fit", {{"position", "hme"}, {"part", json::Object{}}});
    CHECK(scene.told({failure}).empty());
}

TEST_CASE("What would not count is told with every reason", "[unit]") {
    Scene scene;
    scene.write("fit", {{"position", "hme"}, {"part", json::Object{}}});
    auto flow = Scene::check("flow");
    const auto fitted = scene.told({flow});
    REQUIRE(fitted.size() == 1);
    CHECK(fitted.front().starts_with("The 09:00 flow sensor calibration does not count: "));
    CHECK(fitted.front().find("HME") != std::string::npos);
    flow.body.pop_back();
    const auto both = scene.told({flow}).front();
    CHECK(both.find("HME") != std::string::npos);
    CHECK(both.find("mains power") != std::string::npos);
    CHECK(scene.told({Scene::check("oxygen")}).front().find("flow sensor calibration") !=
          std::string::npos);
}

TEST_CASE("An entry for the past is judged by how the unit stood then", "[unit]") {
    Scene scene;
    scene.write("power", {{"on", false}});
    scene.write("power", {{"on", true}});
    CHECK(scene.told({Scene::check("flow"), Scene::check("oxygen")}).size() == 1);
    auto flow = Scene::check("flow");
    auto oxygen = Scene::check("oxygen");
    flow.at = oxygen.at = scene.ward.clock.now() - logbook::Duration{600'000};
    CHECK(scene.told({flow, oxygen}).empty());
    scene.write("fit", {{"position", "hme"}, {"part", json::Object{}}});
    CHECK(scene.told({flow}).empty());
    CHECK(scene.told({Scene::check("flow")}).size() == 1);
}

TEST_CASE("What is asked for later is no reason yet", "[unit]") {
    Scene scene;
    CHECK(scene.told({Scene::check("alarm")}, {true, true}).empty());
    CHECK(scene.told({Scene::check("alarm")}, {true, false}).size() == 1);
    CHECK(scene.told({Scene::check("alarm")}, {false, true}).size() == 1);
}

TEST_CASE("What would change nothing is told, but never of what cannot wait", "[unit]") {
    Scene scene;
    CHECK(scene.told({Scene::entry("power", {{"on", true}})}) ==
          Told{"KB-0001 was so already, so this entry changes nothing."});
    CHECK(scene.told({Scene::entry("use_end", {})}).empty());
    scene.write("fit", {{"position", "sensor"}, {"part", json::Object{}}});
    const auto reprocess = [](const char* level) {
        return Scene::entry("reprocess", {{"positions", json::Array{"sensor"}}, {"level", level}});
    };
    CHECK(scene.told({reprocess("high")}).empty());
    const auto low = scene.told({reprocess("low")});
    REQUIRE(low.size() == 1);
    CHECK(low.front().starts_with("No part on KB-0001 is reprocessed by this entry"));
}
