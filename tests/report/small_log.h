// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A fortnight of an invented department with a unit in each state, for tests of reports.
#pragma once

#include "report/provenance.h"
#include "words/sample.h"

namespace sample {

// Each unit at a station of its own, since they are told one after the other.
inline void enrolMore(Story& story) {
    story.on("icu-2").unit("KB-0150").tell(
        "10 07:30", "enrol",
        R"({"model":"Rowan 2","groups":["neonatal"],"features":[],)"
        R"("commissioned":"2026-11-01","location":"NICU"})");
    story.on("icu-3").unit("KB-0160").ready().tell("11 09:00", "withdraw",
                                                   R"({"hold":"repair","reason":"fan noise"})");
    story.on("icu-4").unit("KB-0170").ready().tell("11 09:00", "retire", R"({"reason":"sold"})");
    story.on("icu-5").unit("KB-0180").ready();
    story.tell("13 06:00", "check", R"({"check":"oxygen_cal","outcome":"pass"})");
    story.tell("13 07:00", "use_start", R"({"location":"ICU 4"})");
}

// KB-0142: used once as it should be, once too soon; then ready again by the 13th.
inline Story smallLog() {
    Story story;
    story.ready();
    story.tell("10 12:00", "use_start", R"({"location":"ICU 2"})");
    story.tell("10 20:00", "use_end");
    story.tell("10 21:00", "use_start", R"({"location":"ICU 3","emergency":true})");
    story.fit("11 02:00", "circuit", R"("lot":"4480")");
    story.tell("11 06:00", "use_start", R"({"location":"ICU 5"})");
    story.tell("11 08:00", "use_end");
    story.tell("13 05:00", "reprocess", R"({"positions":["flow_sensor"],"level":"high"})");
    story.fit("13 05:10", "circuit", R"("lot":"4490")");
    story.check("13 05:30");
    story.tell("13 05:40", "service", R"({"service":"maintenance","outcome":"pass"})");
    story.tell("13 05:50", "note", "{\"text\":\"turned \\u202e round\"}");
    enrolMore(story);
    story.on("nicu-2").unit("KB-0142").enteredAt("13 05:55");
    story.tell("13 05:45", "sighted", R"({"location":"ICU store"})");
    story.tell("13 05:40", "note", R"({"text":"the clock was set back"})");
    return story;
}

inline report::Provenance provenance(const Scene& scene) {
    report::Provenance known;
    known.stations = report::stationsHeard(scene.log, rules::unlimited);
    known.verified = report::Verified{local("13 00:00"), {{"icu-1", 30}, {"icu-2", 1}}};
    return known;
}

}  // namespace sample
