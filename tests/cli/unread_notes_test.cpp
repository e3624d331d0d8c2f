// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is told where a log was cut off, and what was noted of it cannot be read either: not that
// nothing is lacking.
#include "cli/calling.h"

#include "station/lost_pages.h"
#include "station/rescue.h"
#include "station/upkeep.h"

using namespace support;

TEST_CASE("An export tells that what was noted of the log cannot be read", "[fault]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const auto path = ward.logbook.path;
    CHECK(call(ward, {"export", path.string()}).status == 0);
    loseRecord(path, "icu-1", 3);
    const auto cut = call(ward, {"export", path.string()});
    CHECK(cut.status == 1);
    CHECK_THAT(cut.error, Catch::Contains("icu-1/3"));
    zeroTable(path, "local_heads");
    zeroTable(path, "local_verifications");
    const auto unread = call(ward, {"export", path.string()});
    CHECK(unread.status == 1);
    CHECK_THAT(unread.error, Catch::Contains(ward.surroundings.words.say("verify.read_round")));
    CHECK(unread.out == cut.out);
}

TEST_CASE("A backup that was cut off proves nothing where its notes cannot be read", "[fault]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const auto copy = ward.folder.file("copy.logbook");
    REQUIRE(station::backUp(ward.surroundings, ward.logbook, copy));
    REQUIRE(station::restore(ward.surroundings, copy, {ward.folder.file("restored.logbook")},
                             "icu-1b"));
    const std::vector<std::string> verify{"verify", ward.logbook.path.string(), "--heads",
                                          copy.string()};
    CHECK(call(ward, verify).status == 0);
    loseRecord(copy, "icu-1", 3);
    zeroTable(copy, "local_heads");
    const auto against = call(ward, verify);
    CHECK(against.status != 0);
    CHECK_THAT(against.out, !Catch::Contains("It has the heads in"));
    CHECK_THAT(against.error, Catch::Contains(copy.string()));
}
