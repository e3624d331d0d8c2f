// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A ward whose automatic backups are made and looked through. Every one made here is restored.
#pragma once

#include "station/automatic_backup.h"
#include "station/file_kind.h"
#include "station/rescue.h"
#include "station/settings.h"
#include "station/system.h"
#include "station/upkeep.h"
#include "station/ward.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <string>
#include <vector>

namespace support {

inline constexpr logbook::Duration hour{3'600'000}, day{24 * 3'600'000LL};

// A ward with a unit, and the making, restoring and looking through of backups.
struct Backed : Ward {
    Backed() {
        found();
        enrol("KB-0001");
    }

    // Made, and then restored beside, where it must hold every entry.
    station::AutomaticBackup backUp(station::Occasion occasion) {
        auto backup = station::backUpAutomatically(surroundings, logbook, occasion);
        for (const auto& path : backup.made) {
            requireRestores(path);
        }
        return backup;
    }
    void requireRestores(const std::filesystem::path& backup) {
        const station::LogbookFile restored{folder.file("restored.logbook")};
        REQUIRE(station::restore(surroundings, backup, restored, "icu-1b"));
        const auto log = station::readWholeLog(surroundings, logbook);
        const auto again = station::readWholeLog(surroundings, restored);
        REQUIRE(log);
        REQUIRE(again);
        CHECK(store::headsOf(again->heads) == store::headsOf(log->heads));
        CHECK(again->ownStation == "icu-1b");
        std::filesystem::remove(restored.path);
    }
    void set(const std::string& name, const std::string& value) {
        REQUIRE(station::changeSettings(surroundings, logbook, {as("mt"), {{name, value}}}));
    }
    void enter() { REQUIRE(check("KB-0001", "pass")); }

    static std::vector<std::string> namesIn(const std::filesystem::path& place) {
        auto names = station::system::namesIn(place);
        std::ranges::sort(names);
        return names;
    }
    [[nodiscard]] std::vector<std::string> names() const {
        return namesIn(station::backupFolder(logbook));
    }
};

}  // namespace support
