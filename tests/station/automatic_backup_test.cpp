// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Automatic backups: when one is due, where it goes, how many stay, and what is told where one
// could not be made. Every backup made here is restored.
#include "backed_ward.h"
#include "logbook/record_reader.h"
#include "station/import.h"

using station::AutomaticBackup;
using station::Occasion;
using support::Backed;
using support::day;
using support::hour;
using support::Ward;

TEST_CASE("At the close of the window what came in since the last backup is backed up", "[unit]") {
    Backed ward;
    ward.clock.advance(hour);
    const auto first = ward.backUp(Occasion::WindowCloses);
    CHECK(first.made.size() == 1);
    CHECK_FALSE(first.failed);
    REQUIRE(first.told.size() == 1);
    CHECK(first.told[0].find(first.made[0].string()) != std::string::npos);
    CHECK(ward.names() == std::vector<std::string>{"ward-icu-1-20260302T150000Z.logbook"});
    ward.clock.advance(hour);
    CHECK(ward.backUp(Occasion::WindowCloses).told.empty());
    ward.enter();
    ward.clock.advance(hour);
    CHECK(ward.backUp(Occasion::WindowCloses).made.size() == 1);
    CHECK(ward.names().size() == 2);
}

TEST_CASE("After a command one is due once an entry has been in none for a day", "[unit]") {
    Backed ward;
    CHECK(ward.backUp(Occasion::CommandDone).told.empty());
    ward.clock.advance(day);
    ward.enter();
    CHECK(ward.backUp(Occasion::CommandDone).made.size() == 1);
    ward.clock.advance(hour);
    ward.enter();
    CHECK(ward.backUp(Occasion::CommandDone).told.empty());
    ward.clock.advance({day.ms - hour.ms});
    CHECK(ward.backUp(Occasion::CommandDone).made.size() == 1);
    // Nothing is new.
    ward.clock.advance({2 * day.ms});
    CHECK(ward.backUp(Occasion::CommandDone).told.empty());
}

TEST_CASE("An empty logbook, and one where none are kept, is not backed up", "[unit]") {
    Ward empty;
    REQUIRE(station::foundStation(empty.surroundings, empty.logbook, "icu-1"));
    CHECK(station::backUpAutomatically(empty.surroundings, empty.logbook, Occasion::WindowCloses)
              .told.empty());
    Backed ward;
    ward.set("backups-kept", "0");
    ward.clock.advance(day);
    CHECK(ward.backUp(Occasion::WindowCloses).told.empty());
    CHECK_FALSE(std::filesystem::exists(station::backupFolder(ward.logbook)));
}

TEST_CASE("The oldest go, and nothing that was not made so", "[unit]") {
    Backed ward;
    ward.set("backups-kept", "3");
    for (int times = 0; times < 5; ++times) {
        ward.clock.advance(day);
        ward.enter();
        ward.clock.advance(hour);
        CHECK(ward.backUp(Occasion::WindowCloses).made.size() == 1);
        const auto folder = station::backupFolder(ward.logbook);
        std::ofstream(folder / "ward-icu-1-before the move.logbook") << "kept by hand";
        std::ofstream(folder / "ward-icu-2-20200101T000000Z.logbook") << "of another station";
    }
    CHECK(ward.names() ==
          std::vector<std::string>{
              "ward-icu-1-20260305T170000Z.logbook", "ward-icu-1-20260306T180000Z.logbook",
              "ward-icu-1-20260307T190000Z.logbook", "ward-icu-1-before the move.logbook",
              "ward-icu-2-20200101T000000Z.logbook"});
    // A clock that was set back: the one made last stays, whatever its name says.
    ward.clock.set(support::utc(2026, 3, 1, 8));
    ward.set("backups-kept", "1");
    ward.clock.advance(hour);
    REQUIRE(station::importFiles(ward.surroundings, ward.logbook,
                                 {ward.folder.write("in.jsonl", support::noteLine("icu-2", 1))},
                                 ward.importer()));
    const auto made = ward.backUp(Occasion::WindowCloses).made;
    REQUIRE(made.size() == 1);
    CHECK(ward.names() == std::vector<std::string>{made.front().filename(),
                                                   "ward-icu-1-before the move.logbook",
                                                   "ward-icu-2-20200101T000000Z.logbook"});
}

TEST_CASE("A backup of a time to come takes the place of no other", "[unit]") {
    Backed ward;
    ward.set("backups-kept", "3");
    std::vector<std::string> made;
    const auto make = [&] {
        ward.clock.advance(day);
        ward.enter();
        ward.clock.advance(hour);
        const auto backup = ward.backUp(Occasion::WindowCloses);
        REQUIRE(backup.made.size() == 1);
        made.push_back(backup.made.front().filename());
        return backup.told;
    };
    make();
    // As a clock that was ahead has made it.
    const std::string ahead = "ward-icu-1-20990101T000000Z.logbook";
    const auto folder = station::backupFolder(ward.logbook);
    std::filesystem::rename(folder / made.front(), folder / ahead);
    made.clear();
    make();
    const auto thenTold = make();
    CHECK(ward.names() == std::vector<std::string>{made[0], made[1], ahead});
    CHECK(thenTold.back().find("Not counted") == 0);
    CHECK(thenTold.back().find(ahead) != std::string::npos);
    CHECK(make().front().find("now removed: " + ahead) != std::string::npos);
    CHECK(ward.names() == made);
    make();
    CHECK(ward.names() == std::vector(made.begin() + 1, made.end()));
}

TEST_CASE("What a killed program left half done goes after a day", "[unit]") {
    Backed ward;
    const auto folder = station::backupFolder(ward.logbook);
    REQUIRE(station::system::makeFolder(folder));
    const std::string old = "ward-icu-1-20260301T140000Z.logbook.unfinished-4711";
    const std::string now = "ward-icu-1-20260302T135959Z.logbook.unfinished-4712";
    for (const auto& name : {old, old + "-journal", now}) {
        std::ofstream(folder / name) << "half";
    }
    ward.clock.advance(hour);
    CHECK(ward.backUp(Occasion::WindowCloses).made.size() == 1);
    CHECK(ward.names() ==
          std::vector<std::string>{now, "ward-icu-1-20260302T150000Z.logbook"});
}

TEST_CASE("A second place gets a copy of its own, and its own number is kept", "[unit]") {
    Backed ward;
    const auto second = ward.folder.file("stick");
    ward.set("second-backup", second.string());
    ward.set("backups-kept", "1");
    ward.clock.advance(day);
    // Not there: told, and the first place has its backup all the same.
    const auto lacking = ward.backUp(Occasion::CommandDone);
    CHECK(lacking.failed);
    CHECK(lacking.made.size() == 1);
    REQUIRE(lacking.told.size() == 2);
    CHECK(lacking.told[1].find("No backup could be made in " + second.string()) == 0);
    CHECK(lacking.told[1].find("connect its disk") != std::string::npos);
    CHECK(lacking.told[1].find("All entries are in the logbook") != std::string::npos);
    CHECK(station::lastBackupTold(ward.surroundings, ward.logbook) == lacking.told[1]);
    REQUIRE(station::system::makeFolder(second));
    for (int times = 0; times < 2; ++times) {
        ward.clock.advance(day);
        ward.enter();
        ward.clock.advance(hour);
        const auto both = ward.backUp(Occasion::WindowCloses);
        CHECK_FALSE(both.failed);
        CHECK(both.made.size() == 2);
        CHECK(both.told.size() == 2);
    }
    CHECK(ward.names() == ward.namesIn(second));
    CHECK(ward.names().size() == 1);
    const auto told = station::lastBackupTold(ward.surroundings, ward.logbook);
    REQUIRE(told);
    CHECK(told->find("The last backup was made") == 0);
    // Taken away since: told before the next one is due.
    std::filesystem::rename(second, ward.folder.file("unplugged"));
    CHECK(station::lastBackupTold(ward.surroundings, ward.logbook) == lacking.told[1]);
    // A failure there is told no more once backups go elsewhere.
    ward.clock.advance(day);
    ward.enter();
    ward.clock.advance(hour);
    CHECK(ward.backUp(Occasion::WindowCloses).failed);
    ward.set("second-backup", ward.folder.file("unplugged").string());
    const auto since = station::lastBackupTold(ward.surroundings, ward.logbook);
    REQUIRE(since);
    CHECK(since->find("The last backup was made") == 0);
}

TEST_CASE("One that cannot be made fails nothing and is not tried at once again", "[unit]") {
    Backed ward;
    CHECK_FALSE(station::lastBackupTold(ward.surroundings, ward.logbook));
    // A file stands where the folder would be.
    ward.folder.write("ward.logbook.backups", "");
    ward.clock.advance(day);
    ward.enter();
    const auto before = ward.backUp(Occasion::CommandDone);
    CHECK(before.failed);
    CHECK(before.made.empty());
    CHECK(before.told.size() == 1);
    CHECK(station::lastBackupTold(ward.surroundings, ward.logbook) == before.told[0]);
    CHECK(ward.backUp(Occasion::CommandDone).told.empty());
    CHECK(ward.backUp(Occasion::WindowCloses).failed);
    ward.clock.advance(hour);
    std::filesystem::remove(ward.folder.file("ward.logbook.backups"));
    CHECK(ward.backUp(Occasion::CommandDone).made.size() == 1);
    CHECK(station::lastBackupTold(ward.surroundings, ward.logbook)->find("The last") == 0);
}

TEST_CASE("A logbook that does not verify is not backed up, and older backups stay", "[unit]") {
    Backed ward;
    ward.set("backups-kept", "1");
    ward.clock.advance(hour);
    CHECK(ward.backUp(Occasion::WindowCloses).made.size() == 1);
    const auto names = ward.names();
    ward.enter();
    auto bytes = ward.bytes();
    // Past the triggers: the text of a record that stands in no index.
    const auto place = bytes.rfind("\"outcome\":\"pass\"");
    REQUIRE(place != std::string::npos);
    bytes.replace(place, 16, "\"outcome\":\"fail\"");
    ward.folder.write("ward.logbook", bytes);
    ward.clock.advance(hour);
    const auto refused = ward.backUp(Occasion::WindowCloses);
    CHECK(refused.failed);
    REQUIRE(refused.told.size() == 1);
    CHECK(refused.told[0].find("does not verify") != std::string::npos);
    CHECK(ward.names() == names);
}

TEST_CASE("A copy that was only looked at is not backed up, nor into the other's place", "[unit]") {
    Backed ward;
    const auto second = ward.folder.file("stick");
    const auto elsewhere = ward.folder.file("elsewhere");
    REQUIRE(station::system::makeFolder(second));
    REQUIRE(station::system::makeFolder(elsewhere));
    ward.set("second-backup", second.string());
    ward.clock.advance(day);
    REQUIRE(ward.backUp(Occasion::WindowCloses).made.size() == 2);
    const auto names = ward.namesIn(second);
    const station::LogbookFile copy{elsewhere / "ward.logbook"};
    std::filesystem::copy_file(ward.logbook.path, copy.path);
    ward.clock.advance(hour);
    const auto opened = ward.clock.now();
    const auto looked = station::backUpAtClose(ward.surroundings, copy, opened);
    CHECK(looked.told.empty());
    CHECK(ward.namesIn(elsewhere) == std::vector<std::string>{"ward.logbook"});
    // Something is written into it: it has a backup of its own, and none of the other's place.
    auto written = station::openLogbook(ward.surroundings, copy, station::Access::Write);
    REQUIRE(written);
    const auto note = logbook::readRecord(support::noteLine("icu-2", 1));
    REQUIRE(note);
    REQUIRE(written->append(std::vector{*note}, {"mt", opened}));
    ward.clock.advance(hour);
    const auto own = station::backUpAtClose(ward.surroundings, copy, opened);
    CHECK(own.failed);
    CHECK(own.made.size() == 1);
    REQUIRE(own.told.size() == 2);
    CHECK(own.told[1].find("No backup could be made in " + second.string()) == 0);
    CHECK(own.told[1].find("set for a logbook at another place") != std::string::npos);
    CHECK(ward.namesIn(second) == names);
    const auto settings = station::settingsOf(ward.surroundings, copy);
    REQUIRE(settings);
    CHECK_FALSE(settings->settings.secondBackup);
    REQUIRE(settings->faults.size() == 1);
    CHECK(settings->faults[0].name == "second-backup");
    // The other goes on as before; what came in while nobody looked is backed up too.
    CHECK(station::backUpAtClose(ward.surroundings, ward.logbook, opened).told.empty());
    ward.enter();
    ward.clock.advance(hour);
    CHECK(station::backUpAtClose(ward.surroundings, ward.logbook, ward.clock.now()).made.size() ==
          2);
}

TEST_CASE("A file that passes for the logbook drives out no backup of it", "[unit]") {
    Backed ward, other;
    ward.set("backups-kept", "3");
    other.set("backups-kept", "1");
    for (int times = 0; times < 3; ++times) {
        ward.clock.advance(day);
        ward.enter();
        ward.clock.advance(hour);
        REQUIRE(ward.backUp(Occasion::WindowCloses).made.size() == 1);
    }
    const auto own = ward.bytes();
    const auto names = ward.names();
    REQUIRE(names.size() == 3);
    other.clock.set(ward.clock.now() + hour);
    other.enter();
    ward.folder.write("ward.logbook", other.bytes());
    ward.clock.advance(day);
    REQUIRE(ward.backUp(Occasion::WindowCloses).made.size() == 1);
    CHECK(ward.names().size() == 4);
    CHECK(std::ranges::includes(ward.names(), names));
    // Nor does what cannot be read go, or count.
    ward.folder.write("ward.logbook", own);
    std::ofstream(station::backupFolder(ward.logbook) / names[0]) << "damaged";
    ward.enter();
    ward.set("backups-kept", "2");
    ward.clock.advance(day);
    REQUIRE(ward.backUp(Occasion::WindowCloses).made.size() == 1);
    CHECK(ward.names().size() == 4);
    CHECK(ward.names()[0] == names[0]);
    CHECK(ward.names()[1] == names[2]);
}

TEST_CASE("A name makes no backup, and what only bears one stays and is told", "[unit]") {
    Backed ward;
    ward.set("backups-kept", "1");
    const auto folder = station::backupFolder(ward.logbook);
    ward.clock.advance(day);
    REQUIRE(ward.backUp(Occasion::WindowCloses).told.size() == 1);
    const auto first = ward.names()[0];
    const auto told = station::lastBackupTold(ward.surroundings, ward.logbook);
    REQUIRE(told);
    // Of today and of a time to come: an empty file, a text, a link, a folder, a logbook in use.
    const std::vector<std::string> odd{
        "ward-icu-1-20260303T150001Z.logbook", "ward-icu-1-20260303T150002Z.logbook",
        "ward-icu-1-20260303T150003Z.logbook", "ward-icu-1-20260303T150004Z.logbook",
        "ward-icu-1-20990101T000000Z.logbook", "ward-icu-1-20990102T000000Z.logbook"};
    std::ofstream(folder / odd[0]) << "";
    std::ofstream(folder / odd[1]) << "no logbook";
    std::filesystem::create_symlink(folder / first, folder / odd[2]);
    std::filesystem::create_directory(folder / odd[3]);
    std::ofstream(folder / odd[4]) << "";
    std::filesystem::copy_file(ward.logbook.path, folder / odd[5]);
    CHECK(station::lastBackupTold(ward.surroundings, ward.logbook) == told);
    ward.enter();
    ward.clock.advance({day.ms + hour.ms});
    const auto made = ward.backUp(Occasion::CommandDone);
    REQUIRE(made.made.size() == 1);
    REQUIRE(made.told.size() == 2);
    CHECK(made.told[0].find("now removed: " + first) != std::string::npos);
    for (const auto& name : odd) {
        CAPTURE(name);
        CHECK(made.told[1].find(name) != std::string::npos);
        CHECK(station::system::kindOf(folder / name) != station::system::FileKind::None);
    }
    CHECK(ward.names().size() == odd.size() + 1);
    // A true backup of a time to come has all there is, but does not hide that no other was made.
    std::filesystem::rename(made.made[0], folder / "ward-icu-1-20990103T000000Z.logbook");
    ward.clock.advance(hour);
    CHECK(ward.backUp(Occasion::WindowCloses).told.empty());
    CHECK_FALSE(station::lastBackupTold(ward.surroundings, ward.logbook));
    ward.enter();
    ward.clock.advance(hour);
    CHECK(ward.backUp(Occasion::WindowCloses).made.size() == 1);
}

TEST_CASE("One place that failed keeps no other from being tried", "[unit]") {
    Backed ward;
    ward.folder.write("ward.logbook.backups", "");
    ward.clock.advance(day);
    ward.enter();
    const auto failed = ward.backUp(Occasion::CommandDone);
    REQUIRE(failed.told.size() == 1);
    CHECK(failed.told[0].find("What bears that name is no folder") != std::string::npos);
    const auto second = ward.folder.file("stick");
    REQUIRE(station::system::makeFolder(second));
    ward.set("second-backup", second.string());
    // At the next command, and then no other until it is due there.
    const auto made = ward.backUp(Occasion::CommandDone);
    CHECK_FALSE(made.failed);
    REQUIRE(made.made.size() == 1);
    CHECK(made.told.size() == 1);
    CHECK(made.made[0].parent_path() == second);
    CHECK(station::lastBackupTold(ward.surroundings, ward.logbook) == failed.told[0]);
    ward.clock.advance(hour);
    ward.enter();
    const auto again = ward.backUp(Occasion::CommandDone);
    CHECK(again.failed);
    CHECK(again.made.empty());
    // Both fail: each is told, and each by itself is left alone for an hour.
    std::filesystem::remove_all(second);
    std::ofstream(second) << "in the way";
    ward.clock.advance(day);
    const auto both = ward.backUp(Occasion::CommandDone);
    REQUIRE(both.told.size() == 2);
    CHECK(both.told[1].find("What bears that name is no folder") != std::string::npos);
    CHECK(station::lastBackupTold(ward.surroundings, ward.logbook) ==
          both.told[0] + " " + both.told[1]);
    CHECK(ward.backUp(Occasion::CommandDone).told.empty());
}

TEST_CASE("No copy bears a name that a logbook takes for its own", "[unit]") {
    Backed ward;
    for (const auto* ending : {"-journal", "-wal", "-shm", ".holder", ".backups"}) {
        const auto target = ward.folder.file(std::string("ward.logbook") + ending);
        const auto refused = station::backUp(ward.surroundings, ward.logbook, target);
        REQUIRE_FALSE(refused);
        CHECK(refused.error().code == "file.side_name");
        CHECK_FALSE(station::system::exists(target));
    }
}
