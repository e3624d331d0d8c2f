// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The pages of one table of a logbook, with those of its indexes, come to harm.
#pragma once

#include "support/folder.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <catch2/catch.hpp>

#include <cstddef>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace support {

// The first of each is zeroed.
inline void zeroTable(const std::filesystem::path& file, const std::string& table) {
    constexpr std::size_t bytesOfPage = 4096;
    std::vector<std::size_t> places;
    {
        SQLite::Database database(file.string());
        SQLite::Statement roots(database, "SELECT rootpage FROM sqlite_schema"
                                          " WHERE tbl_name = ? AND rootpage > 0");
        roots.bind(1, table);
        while (roots.executeStep()) {
            places.push_back(static_cast<std::size_t>(roots.getColumn(0).getInt64() - 1) *
                             bytesOfPage);
        }
    }
    REQUIRE_FALSE(places.empty());
    auto bytes = bytesOf(file);
    for (const auto place : places) {
        bytes.replace(place, bytesOfPage, bytesOfPage, '\0');
    }
    std::ofstream(file, std::ios::binary) << bytes;
}

// Past the triggers; no index knows it any more either.
inline void loseRecord(const std::filesystem::path& file, const std::string& station, int seq) {
    SQLite::Database database(file.string(), SQLite::OPEN_READWRITE);
    database.exec("DROP TRIGGER records_are_never_deleted");
    CHECK(database.exec("DELETE FROM records WHERE station = '" + station +
                        "' AND seq = " + std::to_string(seq)) == 1);
}

}  // namespace support
