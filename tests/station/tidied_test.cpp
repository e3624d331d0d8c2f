// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What must not wait is not refused for its form: what needs no guess is put right, the rest of a
// start is left out and told.
#include "station/tidied.h"

#include "station/emergency_start.h"
#include "station/ward.h"

using support::Ward;

namespace {

station::Entry startOf(const std::string& device, logbook::json::Object body) {
    station::Entry entry{"mt", "use_start", device};
    entry.body = std::move(body);
    return entry;
}

logbook::body::UseStart startIn(Ward& ward, const logbook::RecordName& name) {
    const auto log = station::readWholeLog(ward.surroundings, ward.logbook);
    REQUIRE(log);
    const auto index = log->log.find(name);
    REQUIRE(index);
    const auto& record = log->log.records()[*index];
    CHECK(record.device == "KB-0001");
    CHECK(record.by == "mt");
    return std::get<logbook::body::UseStart>(record.body);
}

station::Written keptOf(Ward& ward, const station::Entry& entry) {
    const auto written = station::writeEntry(ward.surroundings, ward.logbook, entry);
    INFO((written ? "" : written.error().notice.text()));
    REQUIRE(written);
    return *written;
}

}  // namespace

TEST_CASE("A start is not refused for a blank too many", "[unit]") {
    for (const auto* place : {" Room 12", "Room 12 ", "Room  12", "Room\u00A012", "Room\t12\n"}) {
        CAPTURE(place);
        Ward ward;
        ward.found();
        ward.enrol("KB-0001");
        auto entry = startOf(" KB-0001 ", {{"location", place}, {"group", "Adult"}});
        entry.by = " mt";
        const auto start = startIn(ward, keptOf(ward, entry).record);
        CHECK(start.location == "Room 12");
        CHECK(start.group == "adult");
    }
}

TEST_CASE("An emergency start is kept with its place put right, and once", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    auto entry = startOf("KB-0001", {{"emergency", true}, {"location", " Room 12 "}});
    entry.at = ward.clock.now();
    const station::PressedStart pressed{{entry}, ward.clock.now(), {}};
    const auto kept = station::keepStart(ward.surroundings, ward.logbook, pressed);
    REQUIRE(kept);
    REQUIRE(kept->written.size() == 1);
    CHECK(startIn(ward, kept->written[0].record).location == "Room 12");
    const auto again = station::keepStart(ward.surroundings, ward.logbook, pressed);
    REQUIRE(again);
    CHECK(again->there.size() == 1);
}

TEST_CASE("What cannot be kept of a start is left out and told", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const std::string tooLong(70, 'x');
    auto entry = startOf("KB-0001", {{"location", tooLong}, {"group", "7?"}});
    entry.form = std::string(65, 'f');
    const auto written = keptOf(ward, entry);
    const auto start = startIn(ward, written.record);
    CHECK_FALSE(start.location);
    CHECK_FALSE(start.group);
    for (const auto& text : {tooLong, std::string("7?"), *entry.form}) {
        const auto told =
            ward.surroundings.words.say("entry.form_left_out", {{"text", text}});
        CHECK(std::ranges::find(written.warnings, told) != written.warnings.end());
    }
    ward.clock.advance(logbook::Duration{1000});
    const auto empty = keptOf(ward, startOf("KB-0001", {{"location", ""}, {"group", " "}}));
    CHECK_FALSE(startIn(ward, empty.record).location);
    const auto leftOut = ward.surroundings.words.say("entry.form_left_out", {{"text", ""}});
    CHECK(std::ranges::find(empty.warnings, leftOut) == empty.warnings.end());
}

TEST_CASE("A fault is taken by its words, and what can wait is not touched", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    station::Entry fault{"mt", "fault", "KB-0001", {{"code", "Fan noise "}, {"text", "n"}}};
    keptOf(ward, fault);
    const auto standing = station::readWholeLog(ward.surroundings, ward.logbook);
    REQUIRE(standing);
    CHECK(std::get<logbook::body::Fault>(standing->log.records().back().body).code ==
          "fan_noise");
    const station::Entry check{ward.as("mt"), "check", " KB-0001"};
    CHECK(station::tidied(ward.surroundings.words, {check}).entries[0].device == " KB-0001");
}
