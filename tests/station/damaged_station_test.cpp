// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A logbook whose own station's name came to harm: that is told, and not that some record of no
// station is lacking.
#include "backed_ward.h"
#include "station/answers.h"
#include "station/damaged_ward.h"

#include <SQLiteCpp/Database.h>

using namespace support;

namespace {

void nameStation(const Ward& ward, const std::string& name) {
    SQLite::Database(ward.logbook.path.string(), SQLite::OPEN_READWRITE)
        .exec("UPDATE local_station SET name = '" + name + "'");
}

}  // namespace

TEST_CASE("A damaged name of the own station is told as damage of the file", "[fault]") {
    Backed ward;
    const auto& words = ward.surroundings.words;
    nameStation(ward, "icu/1");
    CHECK(station::standing(ward.surroundings, ward.logbook, {}));
    SECTION("to a start, which goes on paper") {
        const auto bytes = ward.bytes();
        const auto start = station::writeEntry(ward.surroundings, ward.logbook,
                                               {"mt", "use_start", "KB-0001"});
        REQUIRE_FALSE(start);
        CHECK(start.error().code == "trouble.damaged");
        CHECK_THAT(start.error().notice.says, Catch::Contains("\"icu/1\"") &&
                                                  !Catch::Contains("icu/1/1"));
        CHECK(start.error().notice.safe == words.say("entry.not_recorded"));
        CHECK(start.error().notice.action == words.say("entry.on_paper"));
        CHECK((ward.bytes() == bytes));
    }
    SECTION("to what can wait, with what to do") {
        const auto checked = ward.check("KB-0001", "pass");
        REQUIRE_FALSE(checked);
        CHECK(checked.error().code == "trouble.damaged");
        CHECK_THAT(checked.error().notice.action, Catch::Contains("restore"));
    }
    SECTION("by verify") {
        const auto answer = station::verify(ward.surroundings, ward.logbook);
        REQUIRE(answer);
        CHECK_FALSE(answer->ok());
        CHECK(answer->report.breaks.empty());
        const auto findings = station::findingsOf(words, *answer);
        REQUIRE(findings.size() == 1);
        CHECK_THAT(findings[0], Catch::Contains("the name of its station"));
    }
    SECTION("to who would begin it anew") {
        const auto begun = station::foundStation(ward.surroundings, ward.logbook, "icu-1");
        REQUIRE_FALSE(begun);
        CHECK(begun.error().code == "trouble.damaged");
    }
    SECTION("and a backup of it goes on under a new one") {
        const auto copy = ward.folder.file("copy.logbook");
        REQUIRE(station::backUp(ward.surroundings, ward.logbook, copy));
        REQUIRE(station::restore(ward.surroundings, copy, ward.logbook, "icu-2"));
        CHECK(codeOf(ward, {"mt", "use_start", "KB-0001"}) == "");
        CHECK(station::verify(ward.surroundings, ward.logbook)->ok());
    }
}

TEST_CASE("A damaged name of the own station leads no backup anywhere else", "[fault]") {
    Backed ward;
    ward.clock.advance(hour);
    nameStation(ward, "/../../elsewhere");
    const auto backup =
        station::backUpAutomatically(ward.surroundings, ward.logbook,
                                     station::Occasion::WindowCloses);
    CHECK_FALSE(backup.failed);
    REQUIRE(backup.made.size() == 1);
    CHECK(backup.made[0].parent_path() == station::backupFolder(ward.logbook));
    CHECK(backup.made[0].filename().string().starts_with("ward-2"));
}
