// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Situations at the bedside as stories, each with what it is meant to bring about: for the approved
// transcript and for the tests that every sentence can be said.
#pragma once

#include "words/sample.h"

#include <functional>
#include <string>
#include <vector>

namespace sample {

struct Situation {
    std::string title;
    std::string asked;                      // "14 02:30"
    std::function<void(Story&)> tell;       // after a unit that was ready on the 10th
    std::optional<std::string> group = {};  // asked for
    bool bare = false;                      // without that unit
};

inline std::string check(const std::string& key, const std::string& outcome,
                         const std::string& more = "") {
    return R"({"check":")" + key + R"(","outcome":")" + outcome + "\"" + more + "}";
}

inline std::string leak(int value) {
    return R"(,"measures":{"leak":{"value":)" + std::to_string(value) + R"(,"unit":"mL/min"}})";
}

inline Story& enrolSecond(Story& story, const std::string& groups,
                          const std::string& commissioned) {
    return story.unit("KB-0200").tell("10 07:00", "enrol",
                                      R"({"model":"Larch 3","groups":[)" + groups +
                                          R"(],"features":[],"commissioned":")" + commissioned +
                                          "\"}");
}

inline Story& giveNotice(Story& story, const std::string& body) {
    return story.as("lead").tell("10 12:00", "notice", body, "");
}

// Of the set-up and of services. The numbers are those of the model sentences.
inline std::vector<Situation> setUpSituations() {
    return {
        {"1 The circuit was changed after the leak test", "10 12:30",
         [](Story& s) { s.fit("10 12:10", "circuit", R"("lot":"4472")"); }},
        {"2 A leak test failed by its value", "10 12:30",
         [](Story& s) {
             s.tell("10 12:20", "group", R"({"group":"pediatric"})");
             s.tell("10 12:25", "check", check("leak", "pass", leak(180)));
         }},
        {"3 The HME was still in line", "10 12:30",
         [](Story& s) {
             s.tell("10 12:10", "remove", R"({"position":"humidifier"})");
             s.fit("10 12:11", "hme", "").fit("10 12:12", "circuit", "");
             s.tell("10 12:25", "check", check("leak", "pass", leak(80)));
         }},
        {"4 The oxygen sensor has to warm up", "10 12:18",
         [](Story& s) { s.fit("10 12:00", "oxygen_sensor", R"("serial":"O2-9")"); }},
        {"5 Set up for adults, wanted for a newborn", "10 12:30", [](Story&) {}, "neonatal"},
        {"6 A lot under a stop-use notice", "10 12:30",
         [](Story& s) {
             giveNotice(s, R"({"key":"n26_03","title":"Connector may crack",)"
                           R"("action":"stop_use","match":{"lots":["4471"]}})");
         }},
        {"7 HME and heated humidifier together", "10 12:30",
         [](Story& s) { s.fit("10 12:00", "hme", ""); }},
        {"8, 9 After the last patient", "10 14:00",
         [](Story& s) {
             s.fit("10 08:10", "expiratory_filter", "").fit("10 08:10", "exhalation_valve", "");
             s.tell("10 12:00", "use_start", R"({"location":"room 12"})");
             s.tell("10 13:30", "use_end");
         }},
        {"10 A filter out of date", "10 12:30",
         [](Story& s) { s.fit("10 12:00", "expiratory_filter", R"("expires":"2026-10-31")"); }},
        {"11 Maintenance overdue",
         "10 12:30",
         [](Story& s) { enrolSecond(s, R"("adult")", "2025-06-01"); },
         {},
         true},
        {"12 Maintenance due",
         "10 12:30",
         [](Story& s) { enrolSecond(s, R"("adult")", "2025-10-20"); },
         {},
         true},
    };
}

// Of holds, of what was recorded when and by whom; numbered likewise.
inline std::vector<Situation> standingSituations() {
    return {
        {"13 On hold after an incident", "14 12:30",
         [](Story& s) {
             s.tell("14 03:40", "withdraw", R"({"hold":"incident","reason":"see report"})");
         }},
        {"14 Out of service for repair", "10 12:30",
         [](Story& s) {
             s.tell("10 09:00", "withdraw", R"({"hold":"repair","reason":"fan noise"})");
             s.tell("10 09:00", "fault", R"({"code":"fan_noise","text":"at start"})");
             s.tell("10 09:00", "fault", R"({"code":"worn_wheel"})");
         }},
        {"15 A new unit",
         "10 12:30",
         [](Story& s) { enrolSecond(s, R"("adult","neonatal")", "2026-11-09"); },
         {},
         true},
        {"17 Nothing recorded for nine days", "19 08:30", [](Story&) {}},
        {"22 Two stations within five minutes", "10 12:30",
         [](Story& s) {
             s.fit("10 12:10", "circuit", R"("lot":"4472")");
             s.on("nicu-2").tell("10 12:12", "check", check("leak", "pass", leak(80)));
         }},
        {"24 Battery too low for a transport", "10 12:30",
         [](Story& s) {
             s.tell("10 12:00", "power", R"({"on":false})");
             s.tell("10 12:05", "power", R"({"on":true})");
             s.tell("10 12:20", "check",
                    check("battery", "pass", R"(,"measures":{"charge":{"value":62,"unit":"%"}})"));
         }},
        {"25 A deviation is permitted", "10 12:30",
         [](Story& s) {
             s.fit("10 12:10", "circuit", R"("lot":"4472")");
             s.as("lead").tell("10 12:20", "waive",
                               R"({"finding":"due","subject":"leak",)"
                               R"("until":"2026-11-12T06:00:00Z","reason":"surge plan"})");
         }},
    };
}

inline std::vector<Situation> modelSituations() {
    auto all = setUpSituations();
    for (auto& situation : standingSituations()) all.push_back(std::move(situation));
    return all;
}

inline std::vector<Situation> partSituations() {
    return {
        {"A check failed without a value", "10 12:30",
         [](Story& s) { s.tell("10 12:25", "check", check("alarm_test", "fail")); }},
        {"A check out of date", "12 12:30", [](Story&) {}},
        {"A part missing, a choice unmade", "10 12:30",
         [](Story& s) {
             s.tell("10 12:00", "remove", R"({"position":"circuit"})");
             s.tell("10 12:00", "remove", R"({"position":"humidifier"})");
         }},
        {"Parts that must not be together", "10 12:30",
         [](Story& s) {
             s.tell("10 12:00", "remove", R"({"position":"humidifier"})");
             s.fit("10 12:00", "hme", "").fit("10 12:00", "water_trap", "");
         }},
        {"A part for another group, and one that does not say", "10 12:30",
         [](Story& s) {
             s.fit("10 12:00", "flow_sensor", R"("serial":"FS-9","groups":["neonatal"])");
         }},
        {"A part that states no group", "10 12:30",
         [](Story& s) { s.fit("10 12:00", "flow_sensor", R"("serial":"FS-8")"); }},
        {"A circuit due for change", "18 12:30", [](Story&) {}},
        {"A worn-out sensor", "10 12:30",
         [](Story& s) {
             for (const auto* time : {"10 09:00", "10 09:10", "10 09:20"})
                 s.tell(time, "reprocess", R"({"positions":["flow_sensor"],"level":"sterile"})");
         }},
        {"Soiled without a use", "10 12:30",
         [](Story& s) { s.tell("10 12:00", "soil", R"({"reason":"isolation room"})"); }},
    };
}

inline std::vector<Situation> deviceSituations() {
    return {
        {"No group selected",
         "10 12:30",
         [](Story& s) { enrolSecond(s, R"("adult","neonatal")", "2026-11-09"); },
         {},
         true},
        {"Not meant for the group", "10 12:30",
         [](Story& s) { enrolSecond(s, R"("adult")", "2026-11-09"); }, "neonatal", true},
        {"A failed service", "10 12:30",
         [](Story& s) {
             s.as("lead").tell("10 12:00", "service",
                               R"({"service":"maintenance","outcome":"fail"})");
         }},
        {"A service to be done after a repair", "10 12:30",
         [](Story& s) {
             s.tell("10 12:00", "fault", R"({"code":"fan_noise"})");
             s.as("lead").tell("10 12:10", "clear", R"({"code":"fan_noise"})");
         }},
        {"A notice to inspect and one to read", "10 12:30",
         [](Story& s) {
             giveNotice(s, R"({"key":"n26_04","title":"Look at the hose","action":"inspect",)"
                           R"("match":{"device_models":["Larch 3"]}})");
             giveNotice(s, R"({"key":"n26_05","title":"New manual","action":"information",)"
                           R"("match":{"device_models":["Larch 3"]}})");
             giveNotice(s, R"({"key":"n26_06","title":"Board fault","action":"stop_use",)"
                           R"("match":{"device_models":["Larch 3"]}})");
             giveNotice(s, R"({"key":"n26_07","title":"Sensor drifts","action":"stop_use",)"
                           R"("match":{"serials":["FS-1"]}})");
         }},
    };
}

inline std::vector<Situation> attemptSituations() {
    return {
        {"Carried out too early, by nobody else, out of turn", "10 12:18",
         [](Story& s) {
             s.fit("10 12:00", "oxygen_sensor", R"("serial":"O2-9")");
             s.tell("10 12:05", "check", check("oxygen_cal", "pass"));
             s.fit("10 12:06", "circuit", "");
             s.tell("10 12:07", "check", check("alarm_test", "pass"));
         }},
        {"Not finished, not warm, without a value", "11 12:30",
         [](Story& s) {
             s.tell("11 12:00", "check", check("leak", "incomplete"));
             s.tell("11 12:01", "power", R"({"on":false})");
             s.tell("11 12:02", "check", check("oxygen_cal", "pass"));
             s.tell("11 12:03", "check", check("battery", "pass"));
         }},
        {"Tried during use, and with the wrong sensor", "11 12:30",
         [](Story& s) {
             s.tell("11 10:00", "use_start");
             s.fit("11 10:30", "flow_sensor", R"("serial":"FS-9","groups":["neonatal"])");
             s.fit("11 10:31", "circuit", "");
             s.tell("11 10:40", "check", check("leak", "pass", leak(80)));
             s.tell("11 10:41", "check", check("oxygen_cal", "pass"));
         }},
        {"A value without a limit for the group",
         "11 12:30",
         [](Story& s) {
             enrolSecond(s, R"("adult","neonatal")", "2026-11-09");
             s.fit("10 12:00", "flow_sensor", R"("serial":"FS-8","groups":["adult"])");
             s.tell("11 10:40", "check", check("leak", "pass", leak(80)));
         },
         {},
         true},
        {"Moved, and nothing tested since",
         "11 12:30",
         [](Story& s) {
             enrolSecond(s, R"("adult")", "2026-11-09");
             s.tell("11 10:40", "move", R"({"location":"ICU"})");
             s.tell("11 10:41", "alarm", R"({"code":"low_supply"})");
         },
         {},
         true},
    };
}

inline std::vector<Situation> situations() {
    std::vector<Situation> all;
    for (const auto& some :
         {modelSituations(), partSituations(), deviceSituations(), attemptSituations()})
        all.insert(all.end(), some.begin(), some.end());
    return all;
}

inline Scene sceneOf(const Situation& situation) {
    Story story;
    if (!situation.bare) story.ready();
    situation.tell(story);
    Scene scene(story, situation.asked);
    scene.group = situation.group;
    return scene;
}

}  // namespace sample
