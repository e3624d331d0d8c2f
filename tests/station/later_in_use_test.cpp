// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// An end of use for a time after which more of the same use is in the log; and entries told before
// they are kept.
#include "station/later_in_use.h"

#include "station/entry_lines.h"
#include "station/pin_again.h"
#include "station/units_log.h"
#include "station/ward.h"

using support::utc;
using support::Ward;
using Told = std::vector<std::string>;

namespace {

// The clock on the wall is six hours behind UTC.
constexpr logbook::Duration minutes(int count) {
    return {count * 60'000LL};
}

struct Scene {
    Ward ward;

    Scene() {
        ward.found();
        ward.enrol("KB-0001");
        write("use_start", {});  // 08:00
        ward.clock.advance(minutes(30));
        write("fit", {{"position", "circuit"}, {"part", logbook::json::Object{{"lot", "4471"}}}});
        ward.clock.advance(minutes(30));
    }

    void write(const std::string& kind, logbook::json::Object body) {
        REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry(kind, std::move(body))));
    }
    [[nodiscard]] station::Entry entry(const std::string& kind, logbook::json::Object body) {
        return {ward.as("mt"), kind, "KB-0001", std::move(body)};
    }
    [[nodiscard]] station::Entry endAt(logbook::Instant at) {
        auto end = entry("use_end", {});
        end.at = at;
        return end;
    }
    [[nodiscard]] station::WholeStanding standing() const {
        auto stands = station::standing(ward.surroundings, ward.logbook, {});
        REQUIRE(stands);
        auto whole = station::withLogOf(ward.surroundings, ward.logbook, *stands, "KB-0001");
        REQUIRE(whole);
        return *whole;
    }
    [[nodiscard]] Told told(const station::Entry& entry) const {
        return station::laterInUse(ward.surroundings, standing(), {entry});
    }
};

}  // namespace

TEST_CASE("what was done in a use after its end is named", "[unit]") {
    Scene scene;
    CHECK(scene.told(scene.endAt(utc(2026, 3, 2, 14, 20))) ==
          Told{"By the log this use went on after 08:20:", "08:30: Fitted: circuit lot 4471",
               "With its end at 08:20 all that counts as done after the use. Was it over by "
               "then?"});
    CHECK(scene.told(scene.endAt(utc(2026, 3, 2, 14, 30))).empty());
    CHECK(scene.told(scene.entry("use_end", {})).empty());
    CHECK(scene.told(scene.endAt(utc(2026, 3, 2, 13, 0))).empty());  // it was not in use then
    scene.write("use_end", {});
    scene.ward.clock.advance(minutes(30));
    scene.write("use_start", {});
    scene.ward.clock.advance(minutes(30));
    scene.write("use_pause", {{"reason", "walk"}});
    // Of the use that is over only what was in it.
    CHECK(scene.told(scene.endAt(utc(2026, 3, 2, 14, 40))).empty());
    CHECK(scene.told(scene.endAt(utc(2026, 3, 2, 14, 10))).size() == 3);
    CHECK(scene.told(scene.endAt(utc(2026, 3, 2, 15, 40))).at(1) == "10:00: Use paused: walk");
}

TEST_CASE("of many later entries the first are named, and how many there are more", "[unit]") {
    Scene scene;
    for (int i = 0; i < 6; ++i) scene.write("check", {{"check", "leak"}, {"outcome", "fail"}});
    const auto told = scene.told(scene.endAt(utc(2026, 3, 2, 14, 20)));
    REQUIRE(told.size() == 7);
    CHECK(told[5] == "and 3 more");
}

TEST_CASE("what an entry says is told before it is kept", "[unit]") {
    Scene scene;
    const auto stands = scene.standing();
    auto pause = scene.entry("use_pause", {{"reason", "walk"}});
    pause.at = utc(2026, 3, 2, 14, 50);
    const auto lines = station::entryLines(
        scene.ward.surroundings, stands,
        {pause, scene.entry("use_end", {}), scene.entry("no_such_kind", {})});
    CHECK(lines == Told{"Use paused: walk, 08:50", "Use ended"});
}

TEST_CASE("the PIN is asked for once more for what is grave alone", "[unit]") {
    for (const auto* grave : {"release", "waive", "strike", "adopt"})
        CHECK(station::wantsPinAgain(grave));
    for (const auto* other : {"use_start", "use_end", "fit", "remove", "check", "withdraw", "fault",
                              "review", "nothing that is known"})
        CHECK_FALSE(station::wantsPinAgain(other));
    Scene scene;
    CHECK(station::wantsPinAgain({scene.entry("note", {}), scene.entry("release", {})}));
    CHECK_FALSE(station::wantsPinAgain({scene.entry("note", {})}));
}
