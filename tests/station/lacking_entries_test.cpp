// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Entries into a log that lacks a record, or of whose station something is noted that cannot be so.
#include "station/ward.h"

#include <SQLiteCpp/Database.h>
#include <algorithm>

using namespace support;

namespace {

bool isTold(const std::vector<std::string>& problems, std::string_view record) {
    return std::ranges::any_of(problems, [&](const std::string& each) {
        return each.find(record) != std::string::npos;
    });
}

}  // namespace

TEST_CASE("an entry tells no unit ready in a log that lacks a record", "[fault]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    REQUIRE(ward.check("KB-0001", "pass"));
    const auto told = [&] {
        const auto noted = station::writeEntry(
            ward.surroundings, ward.logbook,
            {ward.as("mt"), "note", "KB-0001", {{"text", "Seen"}}});
        REQUIRE(noted);
        return noted->warnings;
    };
    REQUIRE_FALSE(isTold(told(), "is missing"));
    SQLite::Database(ward.logbook.path.string(), SQLite::OPEN_READWRITE)
        .exec("DROP TRIGGER records_are_never_deleted; DELETE FROM records WHERE seq = 4");
    CHECK(isTold(told(), "icu-1/4 is missing"));
}
