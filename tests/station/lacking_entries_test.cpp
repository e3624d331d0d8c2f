// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Entries into a log that lacks a record, or of whose station something is noted that cannot be so.
#include "station/lost_records.h"
#include "station/log_at_hand.h"
#include "station/snapshots.h"
#include "station/ward.h"

#include <SQLiteCpp/Database.h>
#include <algorithm>
#include <string>
#include <utility>

using namespace support;

namespace {

bool isTold(const std::vector<std::string>& problems, std::string_view record) {
    return std::ranges::any_of(problems, [&](const std::string& each) {
        return each.find(record) != std::string::npos;
    });
}

}  // namespace

TEST_CASE("a start goes on paper where what is noted of its station is damaged", "[fault]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    // The name: what it says is of no record.
    using Case = std::pair<std::string, std::string>;
    const auto [sql, code] =
        GENERATE(Case{"UPDATE local_heads SET seq = 9223372036854775807", "trouble.chain_broken"},
                 Case{"UPDATE local_heads SET seq = 9007199254740991", "trouble.chain_broken"},
                 Case{"UPDATE local_heads SET seq = -7", "trouble.chain_broken"},
                 Case{"UPDATE local_heads SET seq = -9223372036854775807 - 1",
                      "trouble.chain_broken"},
                 Case{"UPDATE local_station SET name = 'Icu 1'", "trouble.damaged"});
    CAPTURE(sql, code);
    SQLite::Database(ward.logbook.path.string(), SQLite::OPEN_READWRITE).exec(sql);
    station::Entry start{"mt", "use_start", "KB-0001"};
    start.body = {{"emergency", true}};
    const auto written = station::writeEntry(ward.surroundings, ward.logbook, start);
    REQUIRE_FALSE(written);
    CHECK(written.error().code == code);
    CHECK(written.error().notice.safe == ward.surroundings.words.say("entry.not_recorded"));
    CHECK(written.error().notice.action == ward.surroundings.words.say("entry.on_paper"));
}

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
    takeOut(ward.logbook.path, "seq = 4");
    CHECK(isTold(told(), "icu-1/4 is missing"));
}

TEST_CASE("a start is taken though an own entry of before a kept state is gone", "[fault]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    // Nobody signed these: the last certain time lies before them.
    const auto press = [&](const char* kind) {
        return station::writeEntry(ward.surroundings, ward.logbook, {"mt", kind, "KB-0001"});
    };
    for (const auto* kind : {"use_start", "use_end"}) REQUIRE(press(kind));
    ward.clock.advance(logbook::Duration{5LL * 3'600'000});
    REQUIRE(press("use_start"));
    const auto kept = station::rebuild(ward.surroundings, ward.logbook);
    REQUIRE(kept);
    REQUIRE(kept->kept > 0);
    ward.clock.advance(logbook::Duration{60'000});
    const auto atHand = [&] {
        const auto logbook =
            station::openLogbook(ward.surroundings, ward.logbook, station::Access::Read);
        REQUIRE(logbook);
        auto log = station::readAtHand(ward.surroundings, ward.logbook, *logbook,
                                       {.devices = {"KB-0001"}, .since = ward.clock.now()});
        REQUIRE(log);
        return *std::move(log);
    };
    REQUIRE(atHand().beginning != nullptr);
    takeOut(ward.logbook.path, "seq = 4");
    const auto log = atHand();
    REQUIRE(log.gone.size() == 1);
    CHECK(toText(log.gone.front().record) == "icu-1/4");
    CHECK(press("use_end"));
    CHECK(press("use_start"));
}
