// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What would become of an entry, told before it is kept.
#include "station/entry_outlook.h"

#include "station/part_outlook.h"
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
    "max_reprocess = 1\nmatch_group = true\n"
    "[positions.humidifier]\nlabel = \"Humidifier\"\n"
    "[conflicts.both]\nlabel = \"HME with a heated humidifier\"\n"
    "when = { \"hme.fitted\" = true, \"humidifier.fitted\" = true }\n"
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

    static station::Entry fit(const std::string& position, json::Object part) {
        return entry("fit", {{"position", position}, {"part", std::move(part)}});
    }
    static json::Object sensor(const std::string& serial, const std::string& group = "adult") {
        return {{"serial", serial}, {"groups", json::Array{group}}};
    }
    void reprocess() {
        write("reprocess", {{"positions", json::Array{"sensor"}}, {"level", "high"}});
    }
    void use() {
        write("use_start", {{"group", "adult"}});
        write("use_end", {});
    }

    // Of one entry: that the unit is not ready with the part, and why.
    void checkUnready(const station::Entry& entry, const std::string& why) {
        const auto lines = told({entry});
        REQUIRE(lines.size() == 1);
        INFO(lines.front());
        CHECK(lines.front().starts_with("With this part KB-0001 is not ready. "));
        CHECK(lines.front().find(why) != std::string::npos);
    }

    Told told(const std::vector<station::Entry>& entries,
              const station::StillToCome& toCome = {}) {
        // Of the state alone: no log is held or folded from its beginning.
        const auto stands = station::standing(ward.surroundings, ward.logbook, {});
        REQUIRE(stands);
        return station::entryOutlook(ward.surroundings, ward.logbook, *stands, entries, toCome);
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
    scene.write("fit", {{"position", "sensor"}, {"part", Scene::sensor("S-0")}});
    const auto reprocess = [](const char* level) {
        return Scene::entry("reprocess", {{"positions", json::Array{"sensor"}}, {"level", level}});
    };
    CHECK(scene.told({reprocess("high")}).empty());
    const auto low = scene.told({reprocess("low")});
    REQUIRE(low.size() == 1);
    CHECK(low.front().starts_with("No part on KB-0001 is reprocessed by this entry"));
}

TEST_CASE("A part with which the unit is not ready is told before it is fitted", "[unit]") {
    Scene scene;
    CHECK(scene.told({Scene::fit("sensor", Scene::sensor("S-1"))}).empty());
    SECTION("expired") {
        scene.checkUnready(Scene::fit("hme", {{"expires", "2026-02-27"}}),
                           "The HME expired on 27 Feb.");
        CHECK(scene.told({Scene::fit("hme", {{"expires", "2026-03-02"}})}).empty());
    }
    SECTION("called back") {
        const json::Object match{{"position", "hme"}, {"lots", json::Array{"L7"}}};
        auto notice = Scene::entry("notice", {{"key", "fa_1"}, {"title", "Leaks"},
                                              {"action", "stop_use"}, {"match", match}});
        notice.by = scene.ward.as("mt");
        notice.device.clear();
        REQUIRE(station::writeEntry(scene.ward.surroundings, scene.ward.logbook, notice));
        scene.checkUnready(Scene::fit("hme", {{"lot", "L7"}}), "L7");
        CHECK(scene.told({Scene::fit("hme", {{"lot", "L8"}})}).empty());
        // One of the lot is in already: its like is told all the same.
        scene.write("fit", {{"position", "hme"}, {"part", json::Object{{"lot", "L7"}}}});
        scene.checkUnready(Scene::fit("hme", {{"lot", "L7"}}), "L7");
        CHECK(scene.told({Scene::fit("sensor", Scene::sensor("S-1"))}).empty());
    }
    SECTION("for another group, or for none that is stated") {
        scene.checkUnready(Scene::fit("sensor", Scene::sensor("S-1", "neonatal")), "not for adult");
        scene.checkUnready(Scene::fit("sensor", json::Object{}), "does not say for which group");
    }
    SECTION("beside what it must not be with") {
        scene.write("fit", {{"position", "humidifier"}, {"part", json::Object{}}});
        scene.checkUnready(Scene::fit("hme", json::Object{}), "HME with a heated humidifier");
    }
    SECTION("used, and used up") {
        scene.write("fit", {{"position", "sensor"}, {"part", Scene::sensor("S-1")}});
        scene.write("fit", {{"position", "hme"}, {"part", json::Object{{"serial", "H-1"}}}});
        scene.use();
        scene.checkUnready(Scene::fit("hme", {{"serial", "H-1"}}), "from the last patient");
        scene.checkUnready(Scene::fit("sensor", Scene::sensor("S-1")), "has not been reprocessed");
        scene.reprocess();
        CHECK(scene.told({Scene::fit("sensor", Scene::sensor("S-1"))}).empty());
        scene.use();
        scene.reprocess();
        scene.checkUnready(Scene::fit("sensor", Scene::sensor("S-1")), "reprocessed 2 times");
    }
}

TEST_CASE("A swap is told of the part that comes in, also one from another unit", "[unit]") {
    Scene scene;
    const std::vector swap{Scene::entry("remove", {{"position", "hme"}}),
                           Scene::fit("hme", {{"serial", "H-1"}})};
    scene.write("fit", {{"position", "hme"}, {"part", json::Object{}}});
    CHECK(scene.told(swap).empty());
    scene.ward.enrol("KB-0002");
    station::Entry there{scene.ward.as("mt"), "fit", "KB-0002",
                         {{"position", "hme"},
                          {"part", json::Object{{"serial", "H-1"}, {"expires", "2026-01-31"}}}}};
    REQUIRE(station::writeEntry(scene.ward.surroundings, scene.ward.logbook, there));
    const auto told = scene.told(swap);
    REQUIRE(told.size() == 1);
    CHECK(told.front().find("expired on 31 Jan") != std::string::npos);
}

TEST_CASE("A change of parts on a patient is never asked about", "[unit]") {
    Scene scene;
    const auto expired = Scene::fit("hme", {{"expires", "2026-02-27"}});
    CHECK(scene.told({expired}).size() == 1);
    scene.write("use_start", {{"group", "adult"}});
    CHECK(scene.told({expired}).empty());
    scene.write("use_pause", {{"reason", "CT"}});
    CHECK(scene.told({expired}).empty());
}

TEST_CASE("What stands against a part is told while it is stated, on a patient too", "[unit]") {
    Scene scene;
    const auto told = [&](const station::StatedPart& part) {
        const auto stands = station::standing(scene.ward.surroundings, scene.ward.logbook, {});
        REQUIRE(stands);
        return station::partOutlook(scene.ward.surroundings, *stands, "KB-0001", part);
    };
    const auto notice = [&](const char* key, const char* action, const char* lot) {
        station::Entry entry{scene.ward.as("mt"), "notice"};
        entry.body = {{"key", key}, {"title", "Leaks"}, {"action", action},
                      {"match", json::Object{{"lots", json::Array{lot}}}}};
        REQUIRE(station::writeEntry(scene.ward.surroundings, scene.ward.logbook, entry));
    };
    notice("fa_1", "stop_use", "L7");
    notice("fa_2", "inspect", "L8");
    scene.ward.enrol("KB-0002");
    if (GENERATE(true, false)) scene.write("use_start", {{"group", "adult"}});
    CHECK(told({"hme", {{"lot", "L1"}, {"expires", "2026-03-02"}}, {}}).empty());
    CHECK(told({"hme", {{"lot", "L1"}, {"expires", "2026-02-27"}}, {}})
              .starts_with("The HME expired on 27 Feb."));
    CHECK(told({"hme", {{"lot", "L7"}}, {}})
              .starts_with("HME lot L7 is under stop-use notice fa 1: Leaks."));
    CHECK(told({"hme", {{"lot", "L8"}}, {}})
              .starts_with("Notice fa 2 asks for an inspection of this unit: Leaks."));
    // What cannot be kept is told elsewhere.
    CHECK(told({"hme", {{"lot", "L7"}, {"expires", "soon"}}, {}}).empty());
    // A part of which more is known, from another unit.
    const station::Act there = station::fitOf({"hme", {{"serial", "H-1"}, {"lot", "L7"}}, {}});
    station::Entry fit{scene.ward.as("mt"), there.kind, "KB-0002", there.body};
    REQUIRE(station::writeEntry(scene.ward.surroundings, scene.ward.logbook, fit));
    CHECK(told({"hme", {{"serial", "H-1"}}, {}}).find("L7") != std::string::npos);
}

TEST_CASE("What becomes of the unit a part is taken from is told before", "[unit]") {
    Ward ward;
    ward.found();
    const auto three = std::string("format = 1\ntitle = \"Three\"\nedition = \"3\"\n"
                                    "time_zone = \"America/Chicago\"\n[groups.adult]\n"
                                    "[positions.circuit]\nrequired = true\n");
    const station::Adoption adoption{ward.as("mt"), ward.folder.write("three.toml", three)};
    REQUIRE(station::adopt(ward.surroundings, ward.logbook, adoption));
    ward.enrol("KB-0001");
    ward.enrol("KB-0002");
    const station::StatedPart circuit{"circuit", {{"serial", "C-1"}}, {}};
    const auto entry = [&](const std::string& device, const station::Act& act) {
        return station::Entry{ward.as("mt"), act.kind, device, act.body};
    };
    const auto write = [&](const station::Entry& each) {
        REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, each));
    };
    write(entry("KB-0002", station::fitOf(circuit)));
    const auto standing = [&] {
        auto stands = station::standing(ward.surroundings, ward.logbook, {});
        REQUIRE(stands);
        return *std::move(stands);
    };
    const auto told = [&](const std::vector<station::Entry>& entries) {
        return station::entryOutlook(ward.surroundings, ward.logbook, standing(), entries);
    };
    const std::string lost = "KB-0002 is then no longer ready: circuit missing.";
    const auto removal = entry("KB-0002", station::removeOf("circuit"));
    const auto elsewhere = entry("KB-0001", station::fitOf(circuit));
    CHECK(told({removal}) == Told{lost});
    CHECK(told({elsewhere}) == Told{lost});
    CHECK(station::partOutlook(ward.surroundings, standing(), "KB-0001", circuit) == lost);
    // Another is put in at once, or the part is put where it stands.
    CHECK(told({removal, entry("KB-0002", station::fitOf({"circuit", {{"serial", "C-2"}}, {}}))})
              .empty());
    CHECK(told({entry("KB-0002", station::fitOf(circuit))}).empty());
    // On a patient nothing is asked, but it is told while it is stated; and of the patient it was
    // taken from too.
    write(entry("KB-0001", {"use_start", {}}));
    CHECK(told({elsewhere}).empty());
    CHECK(station::partOutlook(ward.surroundings, standing(), "KB-0001", circuit) == lost);
    write(entry("KB-0002", {"use_start", {}}));
    CHECK(station::partOutlook(ward.surroundings, standing(), "KB-0001", circuit) ==
          "KB-0002 is in use, and this then stands against it: circuit missing.");
    // What is not ready loses nothing.
    write(entry("KB-0002", {"use_end", {}}));
    write(entry("KB-0002", {"withdraw", {{"hold", "repair"}, {"reason", "noise"}}}));
    CHECK(told({removal}).empty());
}
