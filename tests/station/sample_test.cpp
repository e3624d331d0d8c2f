// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The demo as a file: it is whole, it can be made afresh, and it takes nobody's file away.
#include "station/sample.h"

#include "station/import.h"
#include "station/system.h"
#include "station/ward.h"

using support::noteLine;
using support::Ward;

namespace {

station::Result<station::SampleAnswer> makeSample(Ward& ward, bool fresh, std::uint64_t seed = 1) {
    return station::makeSample(ward.surroundings, ward.logbook, {seed, {}, fresh});
}

}  // namespace

TEST_CASE("A demo is a whole logbook and is replaced only when asked", "[unit]") {
    Ward ward;
    ward.surroundings.zones = station::system::systemZones();
    const auto near = ward.logbook.path.string();
    for (const char* name : {"ward.logbook.new", "ward.logbook.fresh"}) {
        ward.folder.write(name, "Dear Rowan");
    }
    const auto made = makeSample(ward, false);
    REQUIRE(made);
    CHECK(made->records > 0);
    {
        const auto log = station::readWholeLog(ward.surroundings, ward.logbook);
        REQUIRE(log);
        CHECK(log->ownStation == std::optional<std::string>("demo-desk"));
        CHECK(static_cast<std::int64_t>(log->log.records().size()) == made->records);
    }
    const auto before = ward.bytes();
    const auto again = makeSample(ward, false);
    REQUIRE_FALSE(again);
    CHECK(again.error().code == "demo.exists");
    CHECK((ward.bytes() == before));

    REQUIRE(makeSample(ward, true, 2));
    CHECK((ward.bytes() != before));
    CHECK(support::bytesOf(near + ".new") == "Dear Rowan");
    CHECK(support::bytesOf(near + ".fresh") == "Dear Rowan");
    CHECK_FALSE(std::filesystem::exists(near + ".fresh-2"));
}

TEST_CASE("A demo ends when there are times for all that it tells", "[unit]") {
    Ward ward;
    ward.surroundings.zones = station::system::systemZones();
    const auto endingAt = [&](std::string_view end) {
        return station::makeSample(ward.surroundings, ward.logbook,
                                   {1, logbook::parseInstant(end), false});
    };
    for (const auto* end : {"9999-12-31T23:59:59Z", "1900-01-01T00:00:00Z"}) {
        CAPTURE(end);
        const auto made = endingAt(end);
        REQUIRE_FALSE(made);
        CHECK(made.error().code == "demo.bad_end");
        CHECK_FALSE(std::filesystem::exists(ward.logbook.path));
    }
    CHECK(endingAt("9990-12-31T23:59:59Z"));
}

TEST_CASE("A fresh demo replaces no logbook that others rely on", "[unit]") {
    Ward ward;
    ward.surroundings.zones = station::system::systemZones();
    SECTION("a ward's own") {
        ward.found();
        const auto before = ward.bytes();
        CHECK(makeSample(ward, true).error().code == "demo.no_demo");
        CHECK((ward.bytes() == before));
    }
    SECTION("a demo into which another station's records were imported") {
        REQUIRE(makeSample(ward, false));
        REQUIRE(station::importFiles(ward.surroundings, ward.logbook,
                                     {ward.folder.write("in.jsonl", noteLine("er-2", 1))},
                                     ward.as("v.guest")));
        const auto before = ward.bytes();
        CHECK(makeSample(ward, true).error().code == "demo.others");
        CHECK((ward.bytes() == before));
    }
    SECTION("a link that leads nowhere") {
        std::filesystem::create_symlink("nowhere", ward.logbook.path);
        CHECK_FALSE(makeSample(ward, true));
        CHECK(std::filesystem::is_symlink(
            std::filesystem::symlink_status(ward.logbook.path)));
    }
}
