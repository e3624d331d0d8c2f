// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is told of a station's settings, and of its backups, where a part of the logbook cannot be
// read.
#include "backed_ward.h"
#include "station/damaged_ward.h"
#include "store/bad_sectors.h"

#include <cerrno>

using station::AutomaticBackup;
using station::Occasion;
using support::Backed;
using support::day;
using support::hour;

namespace {

bool isTold(const AutomaticBackup& backup, const std::string& sentence) {
    return std::ranges::find(backup.told, sentence) != backup.told.end();
}

}  // namespace

TEST_CASE("Where the settings cannot be read, that no second place is known is told", "[fault]") {
    Backed ward;
    const auto second = ward.folder.file("stick");
    REQUIRE(station::system::makeFolder(second));
    ward.set("second-backup", second.string());
    ward.set("backups-kept", "9");
    for (int times = 0; times < 8; ++times) {
        ward.clock.advance(day);
        ward.enter();
        ward.clock.advance(hour);
        REQUIRE(ward.backUp(Occasion::WindowCloses).made.size() == 2);
    }
    ward.enter();
    support::zeroLeaf(ward, "second_backup");
    const auto& words = ward.surroundings.words;
    const auto settings = station::settingsOf(ward.surroundings, ward.logbook);
    REQUIRE(settings);
    CHECK(settings->isUnread);
    ward.clock.advance(day);
    const auto backup = ward.backUp(Occasion::WindowCloses);
    CHECK(backup.made.size() == 1);
    CHECK(backup.failed);
    CHECK(isTold(backup, words.say("backups.second_unread")));
    // How many are kept is not known either: none goes.
    CHECK(ward.names().size() == 9);
    CHECK(station::lastBackupTold(ward.surroundings, ward.logbook) ==
          words.say("backups.place_unread"));
}

TEST_CASE("That the disk does not give the logbook is not blamed on the place", "[fault]") {
    Backed ward;
    REQUIRE(ward.backUp(Occasion::WindowCloses).made.size() == 1);
    ward.clock.advance(day);
    ward.enter();
    const auto page = support::leafWith(ward.bytes(), R"("kind":"enrol")");
    const store::test::BadSectors bad(ward.logbook.path, {page, support::pageSize, EIO});
    const auto backup = ward.backUp(Occasion::WindowCloses);
    CHECK(backup.failed);
    REQUIRE(backup.told.size() == 1);
    CHECK_THAT(backup.told[0], Catch::Contains(ward.surroundings.words.say(
                                   "backups_failed.not_given")));
    CHECK(station::lastBackupTold(ward.surroundings, ward.logbook) == backup.told[0]);
}
