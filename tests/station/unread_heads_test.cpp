// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What was noted of a logbook: where it cannot be read it proves nothing, and what one verify has
// noted another that began before does not hide.
#include "station/backed_ward.h"
#include "station/lost_pages.h"
#include "support/statement_moments.h"

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
    ward.requireRestores(copy);
    const auto whole = station::headsIn(ward.surroundings, copy);
    REQUIRE(whole);
    loseRecord(copy, "icu-1", static_cast<int>(whole->heads.front().at("icu-1").seq));
    CHECK(station::headsIn(ward.surroundings, copy)->heads == whole->heads);
    zeroTable(copy, "local_heads");
    const auto heads = station::headsIn(ward.surroundings, copy);
    REQUIRE_FALSE(heads);
    CHECK(heads.error().code == "trouble.damaged");
}

namespace {

// Before each statement of a verify that finds nothing.
int momentsOfVerify(const Ward& ward) {
    const StatementMoments watched(0, {});
    const auto logbook =
        station::openLogbook(ward.surroundings, ward.logbook, station::Access::Write);
    REQUIRE(logbook);
    REQUIRE(logbook->lastVerification());
    REQUIRE(logbook->verify()->ok());
    return watched.seen();
}

// In the midst of a text of the first record.
void harm(const Ward& ward) {
    const auto place = ward.bytes().find("Small");
    REQUIRE(place != std::string::npos);
    std::fstream file(ward.logbook.path, std::ios::in | std::ios::out | std::ios::binary);
    file.seekp(static_cast<std::streamoff>(place)).put('s');
}

}  // namespace

TEST_CASE("What a verify has found is not hidden by one that began before", "[fault]") {
    Ward ward;
    ward.found();
    const auto bytes = ward.bytes();
    const int all = momentsOfVerify(ward);
    CHECK(all > 10);
    for (int moment = 1; moment <= all; ++moment) {
        INFO("moment " << moment << " of " << all);
        ward.folder.write("ward.logbook", bytes);
        {
            const StatementMoments moments(moment, [&](sqlite3*) {
                harm(ward);
                const auto other = station::verify(ward.surroundings, ward.logbook);
                CHECK((other && !other->ok() && other->noted));
            });
            REQUIRE(station::verify(ward.surroundings, ward.logbook));
            REQUIRE(moments.came());
        }
        const auto logbook =
            station::openLogbook(ward.surroundings, ward.logbook, station::Access::Read);
        REQUIRE(logbook);
        const auto last = logbook->lastVerification();
        REQUIRE((last && *last));
        CHECK_FALSE((*last)->ok);
    }
}
