// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking ahead from the start of a shift: its text and its JSON.
#include "report/horizon.h"
#include "report/small_log.h"
#include "words/approved.h"

namespace {

const words::Words& english() {
    return *words::Words::builtIn();
}

constexpr std::int64_t hourMs = 3'600'000;

report::Horizon ahead(const sample::Scene& scene, std::int64_t hours,
                      report::Provenance provenance = {}) {
    return report::makeHorizon(scene.state, scene.lookup(), {scene.asked, {hours * hourMs}},
                               std::move(provenance));
}

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("what comes in a day is told as approved", "[golden]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    const auto horizon = ahead(scene, 24, sample::provenance(scene));
    support::requireApproved("tests/report/approved/horizon.txt",
                             report::toText(horizon, english()));
    support::requireApproved("tests/report/approved/horizon.json",
                             logbook::json::pretty(report::toJson(horizon)) + "\n");
}

TEST_CASE("where nothing lapses and no group is short, that is said", "[unit]") {
    sample::Story story;
    story.ready().unit("KB-0143").ready();
    story.unit("KB-0144").ready().tell("10 08:10", "group", R"({"group":"neonatal"})");
    story.fit("10 08:20", "flow_sensor", R"("serial":"FS-N","groups":["neonatal"])");
    const auto text = report::toText(ahead(sample::Scene(story, "10 09:00"), 12), english());
    CHECK(says(text, "Looking ahead from 09:00 to 21:00, 12 h"));
    CHECK(says(text, "2 ready, 2 wanted: at par to the end"));
    CHECK(says(text, "Nothing stops being ready before 21:00."));
    CHECK(says(text, "None is needed: every group stays at par."));
}

TEST_CASE("a fall below par names the work that prevents it, and until when", "[unit]") {
    sample::Story story;
    story.ready().unit("KB-0143").ready();
    const sample::Scene scene(story, "11 06:00");
    const auto text = report::toText(ahead(scene, 12), english());
    CHECK(says(text, "2 ready, 2 wanted: below par from 08:00, 0 ready at the lowest"));
    CHECK(says(text, "oxygen sensor calibration out of date"));
    CHECK(says(text, "Adult: units to work on: 2; a person is busy for 10 min in all. With this "
                     "the group stays at par"));
    CHECK(says(text, "07:55     08:00    KB-0142"));
    CHECK(says(text, "Neonatal: no work on its units makes one ready in this time."));
}

TEST_CASE("in doubt nothing is told of what is ready", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    report::Provenance provenance;
    provenance.problems = {"Record icu-1/3 is not as it was written."};
    provenance.devicesInDoubt = {"KB-0142"};
    const auto horizon = ahead(scene, 24, provenance);
    const auto text = report::toText(horizon, english());
    CHECK(says(text, "which units are ready, and until when, is not known"));
    CHECK_FALSE(says(text, "READY AGAINST PAR"));
    const auto json = logbook::json::canonical(report::toJson(horizon));
    CHECK(says(json, R"("groups":{},"in_doubt":true,"lapses":[])"));
}
