// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A backup that came to harm where it lies, or never held what it says.
#include "backed_ward.h"

#include <SQLiteCpp/Database.h>

using station::Occasion;
using support::Backed;
using support::day;
using support::hour;

TEST_CASE("One that is not whole drives no whole one out", "[fault]") {
    const auto* harm = GENERATE("UPDATE records SET content = replace(content, 'pass', 'fail')",
                                "DELETE FROM records");
    INFO(harm);
    Backed ward;
    ward.set("backups-kept", "2");
    std::vector<std::filesystem::path> made;
    for (int times = 0; times < 3; ++times) {
        ward.clock.advance(day);
        ward.enter();
        ward.clock.advance(hour);
        const auto backup = ward.backUp(Occasion::WindowCloses);
        REQUIRE(backup.made.size() == 1);
        made.push_back(backup.made.front());
        if (times == 1) {
            SQLite::Database database(made.back().string(), SQLite::OPEN_READWRITE);
            database.exec("DROP TRIGGER records_are_never_updated;"
                          "DROP TRIGGER records_are_never_deleted");
            database.exec(harm);
        }
        if (times == 2) {
            const auto rotten = made[1].filename().string();
            CHECK(std::ranges::any_of(backup.told, [&](const std::string& told) {
                return told.find("Not counted") == 0 && told.find(rotten) != std::string::npos;
            }));
        }
    }
    for (const auto& path : made) {
        CHECK(std::filesystem::exists(path));
    }
}

// What is told not to count does not go later without a word, nor takes a whole one's place.
TEST_CASE("Backups that have rotted stay, and are counted by none that come after", "[fault]") {
    Backed ward;
    ward.set("backups-kept", "2");
    std::vector<std::filesystem::path> rotten;
    std::vector<std::filesystem::path> whole;
    const auto make = [&](std::vector<std::filesystem::path>& among) {
        ward.clock.advance(day);
        ward.enter();
        ward.clock.advance(hour);
        const auto backup = ward.backUp(Occasion::WindowCloses);
        REQUIRE(backup.made.size() == 1);
        among.push_back(backup.made.front());
        return backup.told;
    };
    // Each harmed at once, so that it is not seen before there are more.
    for (int times = 0; times < 2; ++times) {
        make(rotten);
        SQLite::Database database(rotten.back().string(), SQLite::OPEN_READWRITE);
        database.exec("DROP TRIGGER records_are_never_updated;"
                      "UPDATE records SET content = replace(content, 'pass', 'fail')");
    }
    for (int times = 0; times < 4; ++times) {
        for (const auto& told : make(whole)) {
            INFO(told);
            const auto gone = told.find("now removed");
            CHECK((gone == std::string::npos ||
                   told.find(rotten.front().filename().string(), gone) == std::string::npos));
        }
    }
    for (const auto& path : rotten) {
        CHECK(std::filesystem::exists(path));
    }
    CHECK(std::ranges::count_if(whole, [](const auto& path) {
              return std::filesystem::exists(path);
          }) == 2);
}

TEST_CASE("A logbook with an entry of no station is not backed up, and that is told", "[fault]") {
    Backed ward;
    ward.enter();
    ward.clock.advance(hour);
    SQLite::Database(ward.logbook.path.string(), SQLite::OPEN_READWRITE)
        .exec("INSERT INTO records SELECT 1 + max(arrival), '', 1, at_ms, entered_ms, device, kind,"
              " content, hash, 0 FROM records");
    const auto backup = ward.backUp(Occasion::WindowCloses);
    CHECK(backup.made.empty());
    CHECK(backup.failed);
    REQUIRE_FALSE(backup.told.empty());
    CHECK(backup.told.front().find("The logbook does not verify") != std::string::npos);
}
