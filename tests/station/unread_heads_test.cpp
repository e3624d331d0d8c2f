// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What was noted of a logbook proves nothing where it cannot be read.
#include "station/backed_ward.h"
#include "station/lost_pages.h"

using namespace support;
using station::Occasion;

TEST_CASE("A backup whose notes cannot be read does not count", "[fault]") {
    Backed ward;
    ward.clock.advance(hour);
    const auto first = ward.backUp(Occasion::WindowCloses).made;
    REQUIRE(first.size() == 1);
    ward.clock.advance(hour);
    REQUIRE(ward.backUp(Occasion::WindowCloses).made.empty());
    zeroTable(first.front(), "local_heads");
    CHECK(ward.backUp(Occasion::WindowCloses).made.size() == 1);
    CHECK(std::filesystem::exists(first.front()));
}

TEST_CASE("No heads are taken from a backup whose notes cannot be read", "[fault]") {
    Backed ward;
    const auto copy = ward.folder.file("copy.logbook");
    REQUIRE(station::backUp(ward.surroundings, ward.logbook, copy));
    const auto whole = station::headsIn(ward.surroundings, copy);
    REQUIRE(whole);
    loseRecord(copy, "icu-1", static_cast<int>(whole->front().at("icu-1").seq));
    CHECK(station::headsIn(ward.surroundings, copy)->front() == whole->front());
    zeroTable(copy, "local_heads");
    const auto heads = station::headsIn(ward.surroundings, copy);
    REQUIRE_FALSE(heads);
    CHECK(heads.error().code == "trouble.damaged");
}
