// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Starts in a logbook of which a page cannot be read that they need not: they are kept, and where
// they cannot be, that is told, and nothing else.
#include "station/emergency_start.h"

#include "station/damage.h"
#include "station/damaged_ward.h"
#include "station/lost_pages.h"
#include "store/bad_sectors.h"

#include <cerrno>

using store::test::BadSectors;
using namespace support;

namespace {

// As pressed now.
station::PressedStart startAt(Ward& ward, const std::string& device) {
    station::Entry entry{station::Writer("mt"), "use_start", device};
    entry.body = {{"emergency", true}, {"location", "ICU 4"}};
    entry.at = ward.clock.now();
    return {{entry}, ward.clock.now(), station::logMark(ward.surroundings, ward.logbook)};
}

std::string codeOf(Ward& ward, const station::PressedStart& start) {
    const auto kept = station::keepStart(ward.surroundings, ward.logbook, start);
    return kept ? "" : kept.error().code;
}

constexpr std::string_view ofFirst = R"("kind":"adopt")";

}  // namespace

TEST_CASE("An emergency start is kept though the station's first entry cannot be read",
          "[fault]") {
    Ward ward;
    fill(ward);
    const auto start = startAt(ward, "KB-0001");
    REQUIRE_FALSE(start.log.empty());
    SECTION("since its page is damaged") {
        zeroLeaf(ward, ofFirst);
        CHECK(codeOf(ward, start) == "");
    }
    SECTION("since the disk does not give it, then or as long as it was pressed") {
        const BadSectors bad(ward.logbook.path,
                             {leafWith(ward.bytes(), ofFirst), pageSize, EIO});
        CHECK(startAt(ward, "KB-0001").log.empty());
        CHECK(codeOf(ward, start) == "");
    }
    SECTION("when it was pressed") {
        const auto pressed = [&] {
            const BadSectors bad(ward.logbook.path,
                                 {leafWith(ward.bytes(), ofFirst), pageSize, EIO});
            return startAt(ward, "KB-0001");
        }();
        CHECK(codeOf(ward, pressed) == "");
    }
}

TEST_CASE("An emergency start is kept or told to go on paper, whatever page is not given",
          "[fault]") {
    Ward ward;
    fill(ward);
    const auto bytes = ward.bytes();
    const auto start = startAt(ward, "KB-0001");
    int kept = 0, onPaper = 0;
    for (std::size_t page = 0; page < bytes.size(); page += pageSize) {
        INFO("page " << page / pageSize + 1);
        ward.folder.write("ward.logbook", bytes);
        const auto told = [&] {
            const BadSectors bad(ward.logbook.path, {page, pageSize, EIO});
            return station::keepStart(ward.surroundings, ward.logbook, start);
        }();
        if (told) {
            CHECK(told->written.size() == 1);
            ++kept;
            continue;
        }
        INFO(told.error().code);
        CHECK(told.error().notice.action == ward.surroundings.words.say("entry.on_paper"));
        CHECK((ward.bytes() == bytes));
        ++onPaper;
    }
    CHECK(kept > 0);
    CHECK(onPaper > 0);
}

TEST_CASE("What must not wait is kept though no badge can be looked up", "[fault]") {
    Ward ward;
    fill(ward);
    zeroTable(ward.logbook.path, "local_badges");
    const auto doneBy = [&](station::Entry entry) {
        entry.doneBy = "bk7";
        return support::codeOf(ward, entry);
    };
    station::Entry fit{"mt", "fit", "KB-0002"};
    fit.body = {{"position", "circuit"}, {"part", logbook::json::Object{{"serial", "5822"}}}};
    CHECK(doneBy({"mt", "use_start", "KB-0001"}) == "");
    CHECK(doneBy(fit) == "");
    CHECK(doneBy({ward.as("mt"), "note", "KB-0001", {{"text", "Seen"}}}) == "trouble.damaged");
}

// Bytes by which the database takes a whole file for a read-only one, or for none.
TEST_CASE("A start that a byte at the head of the file keeps out goes on paper, as of damage",
          "[fault]") {
    Ward ward;
    fill(ward);
    auto bytes = ward.bytes();
    bytes.at(GENERATE(18U, 19U)) = '\x03';
    ward.folder.write("ward.logbook", bytes);
    const auto written =
        station::writeEntry(ward.surroundings, ward.logbook, {"mt", "use_start", "KB-0001"});
    REQUIRE_FALSE(written);
    CHECK(station::isOfDamage(written.error()));
    CHECK(written.error().notice.safe == ward.surroundings.words.say("entry.not_recorded"));
    CHECK(written.error().notice.action == ward.surroundings.words.say("entry.on_paper"));
    CHECK((ward.bytes() == bytes));
}
