// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rows as no program of ours writes them, and a file that does not say at once what is in it:
// nothing ends the program, and nothing is taken for not being there.
#include "station/folded_log.h"
#include "station/folded_ward.h"
#include "station/state_reading.h"

#include <memory>

using namespace support;

TEST_CASE("A row that only its column calls a strike is left out by an open program", "[fault]") {
    const FoldedWard ward;
    ward.add(quietLog(1).records());
    const auto logbook = ward.open();
    station::FoldedLog folded(ward.surroundings, logbook);
    REQUIRE(folded.catchUp());
    const auto end = when("12-31 00:00");
    REQUIRE(folded.stateAt(end));
    const auto last = *logbook.lastArrival();
    ward.tamper("INSERT INTO records SELECT arrival + 1, station, seq + 1, at_ms, entered_ms,"
                " device, 'strike', content, hash, arrived_ms FROM records"
                " ORDER BY arrival DESC LIMIT 1");
    REQUIRE(*logbook.lastArrival() == last + 1);
    REQUIRE(folded.catchUp());
    const auto state = folded.stateAt(end);
    REQUIRE(state);
    CHECK(state->unread.size() == 1);
}

TEST_CASE("The number of an arrival is no reason to ask for memory", "[fault]") {
    const FoldedWard ward;
    ward.add(quietLog(1).records());
    ward.tamper("DROP TRIGGER records_are_never_updated;"
                "UPDATE records SET arrival = 4000000000000000000"
                " WHERE arrival = (SELECT max(arrival) FROM records)");
    const auto log = station::readWholeLog(ward.surroundings, ward.file);
    REQUIRE(log);
    CHECK(log->log.records().size() > 20);
    CHECK(log->log.records().capacity() < 10'000);
}

TEST_CASE("A record that could not be looked up for others is looked up again", "[fault]") {
    const FoldedWard ward;
    const auto log = quietLog(1);
    const auto name = log.records().back().name;
    ward.add(log.records());
    auto opened = store::Logbook::open(ward.file.path, {.busyTimeoutMs = 1});
    REQUIRE(opened);
    const auto find = station::lookupIn(std::make_shared<station::LookedUpLog>(
        std::make_shared<const store::Logbook>(std::move(*opened))));
    {
        SQLite::Database other(ward.file.path.string(), SQLite::OPEN_READWRITE);
        other.exec("BEGIN EXCLUSIVE");
        CHECK(find(name) == nullptr);
    }
    const auto* found = find(name);
    REQUIRE(found != nullptr);
    CHECK(found->name == name);
    CHECK(find(name) == found);
    CHECK(find({name.station, name.seq + 1}) == nullptr);
}
