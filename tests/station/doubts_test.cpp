// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is asked about before an entry is kept: a text that seems to name a patient, a clock that
// cannot be right, and the second person's PIN. All names and numbers are made up.
#include "station/entry.h"

#include "station/upkeep.h"
#include "station/ward.h"

using support::ScriptedTerminal;
using support::utc;
using support::Ward;

namespace {

namespace json = logbook::json;

struct Scene {
    Ward ward;
    ScriptedTerminal terminal;

    Scene() {
        ward.clock.startComputer("one");
        ward.found();
        ward.enrol("KB-0001");
        ward.surroundings.terminal = &terminal;
    }

    station::Result<station::Written> write(const station::Entry& entry) {
        return station::writeEntry(ward.surroundings, ward.logbook, entry);
    }

    station::Entry entryOf(const std::string& kind, json::Object body) {
        return {ward.as("mt"), kind, "KB-0001", std::move(body)};
    }

    [[nodiscard]] logbook::Record last() const {
        const auto logbook =
            station::openLogbook(ward.surroundings, ward.logbook, station::Access::Read);
        auto records = logbook->records()->records;
        return *std::max_element(records.begin(), records.end(), [](const auto& a, const auto& b) {
            return a.name.seq < b.name.seq;
        });
    }
};

const json::Object patientNote{{"text", "MRN 4471203"}};

}  // namespace

TEST_CASE("A text that seems to name a patient is asked about before it is kept", "[unit]") {
    Scene scene;
    const auto entry = scene.entryOf("note", patientNote);
    const auto before = scene.ward.bytes();
    scene.terminal.answer("no");
    CHECK(scene.write(entry).error().code == "entry.patient_text");
    CHECK((scene.ward.bytes() == before));
    const auto asked = scene.terminal.takeQuestions();
    REQUIRE(asked.size() == 1);
    CHECK(asked.front().find("\"MRN 4471203\"") != std::string::npos);
    scene.terminal.answer("");  // not sure is no
    CHECK(scene.write(entry).error().code == "entry.patient_text");
    scene.terminal.answer("Yes");
    CHECK(scene.write(entry));
    CHECK(std::get<logbook::body::Note>(scene.last().body).text == "MRN 4471203");
}

TEST_CASE("Asked in Spanish, yes may be written with its accent or without", "[unit]") {
    Scene scene;
    const station::Surroundings spanish{scene.ward.clock, scene.ward.surroundings.zones,
                                        *words::Words::builtIn("es"), "desk", &scene.terminal};
    const auto entry = scene.entryOf("note", patientNote);
    for (const auto* answer : {"sí", "SÍ", "si", "Si"}) {
        CAPTURE(answer);
        scene.terminal.answer(answer);
        CHECK(station::writeEntry(spanish, scene.ward.logbook, entry));
    }
    for (const auto* answer : {"no", "yes", "s", "sí, si", ""}) {
        CAPTURE(answer);
        scene.terminal.answer(answer);
        CHECK_FALSE(station::writeEntry(spanish, scene.ward.logbook, entry));
    }
}

TEST_CASE("Where nobody can be asked such a text is refused, or said to name none", "[unit]") {
    Scene scene;
    scene.terminal.leave();
    auto entry = scene.entryOf("note", patientNote);
    const auto before = scene.ward.bytes();
    CHECK(scene.write(entry).error().code == "entry.patient_text");
    CHECK((scene.ward.bytes() == before));
    entry.namesNoPatient = true;
    CHECK(scene.write(entry));
}

TEST_CASE("What must not wait is kept without such a text, and nobody is asked", "[unit]") {
    Scene scene;
    auto written = scene.write(scene.entryOf(
        "withdraw", {{"hold", "incident"}, {"reason", "Mrs Harebell fell on it"}}));
    REQUIRE(written);
    CHECK(scene.terminal.takeQuestions().empty());
    REQUIRE(written->warnings.size() == 1);
    CHECK(written->warnings.front().find("Mrs Harebell") != std::string::npos);
    CHECK(std::get<logbook::body::Withdraw>(scene.last().body).reason == "(left out) fell on it");
    written = scene.write(
        scene.entryOf("use_start", {{"location", "Bed 4, Mrs Harebell"}, {"reason", "Arrest"}}));
    REQUIRE(written);
    CHECK(std::get<logbook::body::UseStart>(scene.last().body).location == "Bed 4, (left out)");
    // What does not seem to name anybody is kept as it is.
    REQUIRE(scene.write(scene.entryOf("soil", {{"reason", "Splash"}})));
    CHECK(std::get<logbook::body::Soil>(scene.last().body).reason == "Splash");
}

TEST_CASE("A clock that cannot be right is asked about, then written as it stands", "[unit]") {
    Scene scene;
    const auto note = scene.entryOf("note", {{"text", "Seen"}});
    REQUIRE(scene.write(note));
    CHECK(scene.terminal.takeQuestions().empty());
    scene.ward.clock.set(utc(2026, 3, 2, 15));  // an hour ahead at once
    const auto before = scene.ward.bytes();
    scene.terminal.answer("no");
    CHECK(scene.write(note).error().code == "entry.clock_not_right");
    CHECK((scene.ward.bytes() == before));
    CHECK(scene.terminal.takeQuestions().front().find("2 Mar 2026 09:00 CST") !=
          std::string::npos);
    scene.terminal.answer("yes");
    REQUIRE(scene.write(note));
    CHECK(scene.last().entered == utc(2026, 3, 2, 15));
    REQUIRE(scene.write(note));  // that it was set is known now
    CHECK(scene.terminal.takeQuestions().size() == 1);
    scene.ward.clock.set(utc(2026, 3, 2, 14, 30));  // and back
    scene.terminal.answer("yes");
    REQUIRE(scene.write(note));
    CHECK(scene.last().entered == utc(2026, 3, 2, 14, 30));
}

TEST_CASE("What must not wait is written by any clock, with a warning", "[unit]") {
    Scene scene;
    scene.ward.clock.moveTo(utc(2026, 3, 2, 15));
    REQUIRE(scene.write(scene.entryOf("note", {{"text", "Seen"}})));
    scene.ward.clock.set(utc(2026, 3, 2, 14, 30));
    const auto written = scene.write(scene.entryOf("soil", {{"reason", "Splash"}}));
    REQUIRE(written);
    CHECK(scene.terminal.takeQuestions().empty());
    CHECK(written->warnings.size() == 1);
    CHECK(scene.last().entered == utc(2026, 3, 2, 14, 30));
}

TEST_CASE("A second person signs in too, unless they signed the form", "[unit]") {
    Scene scene;
    scene.ward.person("rs", "therapist");
    auto entry = scene.entryOf("check", {{"check", "leak"}, {"outcome", "pass"}});
    entry.witness = "rs";
    const auto before = scene.ward.bytes();
    CHECK_FALSE(scene.write(entry));
    CHECK((scene.ward.bytes() == before));
    entry.witness = "nobody";
    CHECK_FALSE(scene.write(entry));
    entry.witness = scene.ward.as("rs");
    REQUIRE(scene.write(entry));
    CHECK(scene.last().witness == "rs");
    entry.witness = "bk";
    entry.form = "icu-1-F7";
    CHECK(scene.write(entry).error().code == "entry.form_not_issued");
    REQUIRE(station::downtimeForms(scene.ward.surroundings, scene.ward.logbook, 7));
    REQUIRE(scene.write(entry));
    CHECK(scene.last().witness == "bk");
    CHECK(scene.write(entry).error().code == "entry.form_entered");
    // Other paper stands for nobody's signature.
    entry.form = "RT-7";
    CHECK(scene.write(entry).error().code == "sign_in.unknown");
}

TEST_CASE("What must not wait does not wait for a second person, and says so", "[unit]") {
    Scene scene;
    scene.ward.person("rs", "therapist");
    scene.ward.as("rs");
    auto entry = scene.entryOf("fault", {{"code", "screen"}});
    entry.witness = station::Writer("rs");
    entry.witness->ask = [](const std::string&) {
        return std::optional(support::secretOf("000001"));
    };
    const auto written = scene.write(entry);
    REQUIRE(written);
    CHECK_FALSE(scene.last().witness);
    REQUIRE(written->warnings.size() == 1);
    CHECK(written->warnings.front().find("not the PIN of rs") != std::string::npos);
}

TEST_CASE("A value that nothing measured can be is asked about before it is kept", "[unit]") {
    Scene scene;
    auto entry = scene.entryOf("check", {{"check", "leak"},
                                         {"outcome", "pass"},
                                         {"measures", json::Object{{"leak", json::Object{
                                                          {"value", -3}, {"unit", "L/min"}}}}}});
    const auto before = scene.ward.bytes();
    const std::string says = "Leak cannot be -3 L/min: it is never less than 0 L/min.";
    scene.terminal.answer("no");
    CHECK(scene.write(entry).error().code == "entry.impossible_value");
    CHECK((scene.ward.bytes() == before));
    const auto asked = scene.terminal.takeQuestions();
    REQUIRE(asked.size() == 1);
    CHECK(asked.front().starts_with(says));
    scene.terminal.answer("yes");
    CHECK(scene.write(entry));
    // Where nobody can be asked it is refused, unless that was said before.
    scene.terminal.leave();
    const auto refused = scene.write(entry);
    CHECK(refused.error().code == "entry.impossible_value");
    CHECK(refused.error().notice.text().find(says) != std::string::npos);
    entry.asMeasured = true;
    CHECK(scene.write(entry));
    CHECK(std::get<logbook::body::Check>(scene.last().body).measures.at("leak").value == -3);
}
