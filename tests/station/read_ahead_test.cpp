// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading in a thread of its own: every record once, in the reading order, however slowly they are
// taken, and nobody waits for what is not wanted any more.
#include "station/read_ahead.h"

#include "station/ward.h"
#include "support/no_threads.h"

#include <thread>

using support::NoThreads;
using support::utc;
using support::Ward;

namespace {

constexpr int many = 5500;  // more than the ring holds at once

// Notes of two stations by turns, one a minute.
void keepNotes(Ward& ward) {
    std::vector<logbook::Record> notes;
    for (int number = 0; number < many; ++number) {
        const auto at = toText(logbook::Instant{utc(2026, 3, 2).ms + number * 60'000});
        const logbook::json::Object note{
            {"station", number % 2 == 0 ? "icu-1" : "er-2"}, {"seq", number / 2 + 1},
            {"at", at}, {"entered", at}, {"by", "bk"}, {"device", "KB-0001"},
            {"kind", "note"}, {"body", logbook::json::Object{{"text", "Seen"}}}};
        notes.push_back(*logbook::readRecord(note));
    }
    auto file = station::openLogbook(ward.surroundings, ward.logbook, station::Access::Create);
    REQUIRE(file);
    REQUIRE(file->append(notes, {"mt", ward.clock.now()}));
}

void requireAll(station::ReadAhead& ahead) {
    int taken = 0;
    for (;;) {
        const auto portion = ahead.next();
        REQUIRE(portion);
        if (portion->empty()) break;
        for (const auto& each : *portion) {
            const logbook::RecordName expected{taken % 2 == 0 ? "icu-1" : "er-2", taken / 2 + 1};
            REQUIRE(each.whole);
            REQUIRE(each.record.name == expected);
            ++taken;
        }
    }
    CHECK(taken == many);
    CHECK(ahead.next()->empty());
}

}  // namespace

TEST_CASE("Every record is read ahead once and in order", "[unit][threads]") {
    Ward ward;
    keepNotes(ward);
    const auto logbook =
        station::openLogbook(ward.surroundings, ward.logbook, station::Access::Read);
    REQUIRE(logbook);
    SECTION("in a thread of its own") {
        station::ReadAhead ahead(*logbook, {});
        requireAll(ahead);
    }
    SECTION("and where no thread can be had") {
        const NoThreads none;
        REQUIRE_THROWS_AS(std::thread([] {}), std::system_error);
        station::ReadAhead ahead(*logbook, {});
        requireAll(ahead);
    }
}

TEST_CASE("What is read ahead need not be taken", "[unit][threads]") {
    Ward ward;
    keepNotes(ward);
    const auto logbook =
        station::openLogbook(ward.surroundings, ward.logbook, station::Access::Read);
    REQUIRE(logbook);
    { const station::ReadAhead untouched(*logbook, {}); }
    {
        station::ReadAhead ahead(*logbook, {});
        REQUIRE_FALSE(ahead.next()->empty());
    }
    CHECK(*logbook->count() == many);
}
