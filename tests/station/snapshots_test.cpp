// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Kept states: the answers with them are those without, whatever comes in late, is struck or
// adopted; as few records are folded as can be; and one that is not true is found.
#include "station/damaged_ward.h"
#include "station/entry.h"
#include "station/folded_ward.h"
#include "station/import.h"
#include "station/rescue.h"
#include "station/upkeep.h"
#include "support/environment.h"

#include <SQLiteCpp/Statement.h>
#include <algorithm>

using namespace support;

namespace {

constexpr std::uint32_t firstSeed = 20261128;

std::string hexOf(const std::string& bytes) {
    std::string hex;
    for (const char byte : bytes) {
        constexpr std::string_view figures = "0123456789abcdef";
        hex += figures[static_cast<unsigned char>(byte) >> 4U];
        hex += figures[static_cast<unsigned char>(byte) & 15U];
    }
    return hex;
}

// Of the pages of what is kept, as the database itself tells them.
std::vector<std::size_t> placesOfKept(const FoldedWard& ward) {
    const SQLite::Database database(ward.file.path.string());
    SQLite::Statement pages(database, "SELECT pgoffset FROM dbstat WHERE name LIKE 'derived%'");
    std::vector<std::size_t> places;
    while (pages.executeStep()) {
        places.push_back(static_cast<std::size_t>(pages.getColumn(0).getInt64()));
    }
    return places;
}

}  // namespace

TEST_CASE("answers are the same with kept states and without", "[property]") {
    std::int64_t spared = 0;
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 6; ++seed) {
        CAPTURE(seed);
        const FoldedWard ward;
        Arriving arriving(seed, 260);
        ward.add(arriving.first());
        (void)ward.rebuild();
        auto source = station::StandingSource::open(ward.surroundings, ward.file);
        REQUIRE(source);
        for (int round = 0; round < 14; ++round) {
            CAPTURE(round);
            if (arriving.random().random().chance(15)) (void)ward.rebuild();
            ward.add(arriving.next());
            station::Asked asked{arriving.random().anyInstant(), {}, "adult"};
            if (round % 3 == 0) asked = {};
            if (asked.at && *asked.at < when("03-25 08:00")) asked.at = when("03-25 09:00");
            const auto warm = ward.ask(asked);
            requireSame(ward, asked, warm);
            const auto again = (*source)->ask(asked);
            REQUIRE(again);
            requireSame(ward, asked, *again);
            spared += ward.askCold(asked).folded - warm.folded;
        }
        REQUIRE(station::verify(ward.surroundings, ward.file)->ok());
    }
    CHECK(spared > 1000);
}

TEST_CASE("an answer folds what lies behind the newest kept state", "[unit]") {
    const FoldedWard ward;
    auto log = quietLog(100);
    ward.add(log.records());
    const auto all = static_cast<std::int64_t>(log.records().size());
    const auto end = log.records().back().at;
    CHECK(ward.ask({end}).folded == all);
    const auto made = ward.rebuild();
    CHECK(made.kept == 5);
    CHECK(made.folded == all - 2);
    CHECK(ward.ask({end}).folded == 2);
    CHECK(ward.askCold({end}).folded == all);
    SECTION("an entry that is hours late costs a day") {
        log.on(device).station("icu-2").at(end - minutes(150)).note();
        ward.add({log.records().back()});
        CHECK(ward.ask({end}).folded == 24 + 1);
    }
    SECTION("a late entry costs the tail of an older one") {
        log.on(device).station("icu-2").at(end - logbook::Duration{3 * 86'400'000}).note();
        ward.add({log.records().back()});
        CHECK(ward.ask({end}).folded == 7 * 24 + 1);
    }
    SECTION("an entry of before them all costs all") {
        log.on(device).station("icu-2").at("03-03 00:30").note();
        ward.add({log.records().back()});
        CHECK(ward.ask({end}).folded == all + 1);
    }
    SECTION("so does a question about knowledge of before") {
        CHECK(ward.ask({end, end}).folded == all);
    }
    SECTION("a question about an earlier time begins with an earlier one") {
        CHECK(ward.ask({end - logbook::Duration{8 * 86'400'000}}).folded == 22 * 24);
    }
}

TEST_CASE("in an open program an entry in the order folds one record", "[unit]") {
    const FoldedWard ward;
    auto log = quietLog(40);
    ward.add(log.records());
    const auto end = log.records().back().at;
    (void)ward.rebuild();
    auto source = station::StandingSource::open(ward.surroundings, ward.file);
    REQUIRE(source);
    const auto folded = [&](logbook::Instant at) {
        const auto standing = (*source)->ask({at});
        REQUIRE(standing);
        return standing->folded;
    };
    CHECK(folded(end) == 2);
    CHECK(folded(end) == 0);
    log.on(device).at(end + minutes(5)).note();
    ward.add({log.records().back()});
    CHECK(folded(end) == 0);
    CHECK(folded(end + minutes(10)) == 1);
    CHECK(folded(end + minutes(20)) == 0);
    log.on(device).station("icu-2").at(end - minutes(90)).note();
    ward.add({log.records().back()});
    CHECK(folded(end + minutes(20)) == 4);
    log.on(device).at(end + minutes(21)).strike(log.records().back().name);
    ward.add({log.records().back()});
    CHECK(folded(end + minutes(30)) == 4);
    const station::Asked later{end + minutes(30)};
    requireSame(ward, later, *(*source)->ask(later));
    const auto alone = (*source)->askAbout(device, later);
    REQUIRE(alone);
    CHECK(alone->folded == 0);
    const auto verdictIn = [&](const station::Standing& standing) {
        return verdict(rules::assess(standing.state, deviceOf(standing.state), {later.at.value()}));
    };
    CHECK(verdictIn(*alone) == verdictIn(ward.askCold(later)));
}

TEST_CASE("no byte of a kept state can be changed so that an answer is", "[exhaustive]") {
    const FoldedWard ward;
    auto log = quietLog(3);
    log.on(device).at("03-05 20:00").soil();
    ward.add(log.records());
    (void)ward.rebuild();
    const auto end = when("03-05 23:30");
    const auto wanted = answersOf(ward, ward.askCold({end}));
    // The newest alone, so that without it all is folded.
    auto logbook = station::openLogbook(ward.surroundings, ward.file, station::Access::Write);
    REQUIRE(logbook);
    const auto newest = logbook->snapshotsKept()->back().place;
    REQUIRE(logbook->keepSnapshots({}, std::vector{newest}, {"mt", ward.clock.now()}));
    REQUIRE(logbook->snapshotsKept()->size() == 1);
    const auto bytes = (*logbook->snapshotAt(newest))->bytes;
    for (std::size_t place = 0; place < bytes.size(); ++place) {
        auto changed = bytes;
        changed[place] = static_cast<char>(changed[place] ^ (1 << (place % 8)));
        ward.tamper("UPDATE derived_snapshots SET bytes = x'" + hexOf(changed) + "'");
        const auto standing = ward.ask({end});
        REQUIRE(standing.folded == static_cast<std::int64_t>(log.records().size()));
        if (place % 16 == 0) REQUIRE(answersOf(ward, standing) == wanted);
    }
    ward.tamper("UPDATE derived_snapshots SET bytes = x'" + hexOf(bytes) + "'");
    CHECK(ward.ask({end}).folded < static_cast<std::int64_t>(log.records().size()));
}

TEST_CASE("damage to what is kept keeps no answer from being made", "[fault]") {
    constexpr std::size_t page = 4096;
    const FoldedWard ward;
    auto log = quietLog(9);
    for (int unit = 0; unit < 60; ++unit) {
        log.on("KB-1" + std::to_string(100 + unit)).at("03-02 20:00").enrol({"adult"});
    }
    ward.add(log.records());
    REQUIRE(ward.rebuild().kept > 1);
    const auto bytes = bytesOf(ward.file.path);
    const auto places = placesOfKept(ward);
    REQUIRE(places.size() > 3);
    const auto end = when("03-12 00:00");
    const auto all = static_cast<std::int64_t>(log.records().size());
    const auto wanted = answersOf(ward, ward.askCold({end}));
    int cold = 0, stuck = 0;
    for (const std::size_t place : places) {
        CAPTURE(place / page + 1);
        auto damaged = bytes;
        damaged.replace(place, page, page, '\0');
        ward.folder.write("ward.logbook", damaged);
        const auto standing = ward.ask({end});
        cold += standing.folded == all ? 1 : 0;
        REQUIRE(answersOf(ward, standing) == wanted);
        // What the message says to do can be done.
        const auto copy = ward.folder.file("copy");
        const station::LogbookFile restored{ward.folder.file("restored.logbook")};
        REQUIRE(ward.open().backup(copy));
        REQUIRE(station::restore(ward.surroundings, copy, restored, "icu-9"));
        CHECK(store::Logbook::open(restored.path, {})->count() == all);
        std::filesystem::remove(copy);
        std::filesystem::remove(restored.path);
        const auto rebuilt = station::rebuild(ward.surroundings, ward.file);
        if (!rebuilt) {
            ++stuck;
            REQUIRE(rebuilt.error().code == "snapshots.damaged");
            REQUIRE(answersOf(ward, ward.ask({end})) == wanted);
        }
    }
    CHECK(cold > 0);
    CHECK(stuck > 0);
}

TEST_CASE("verify finds a kept state that is whole and not true", "[unit]") {
    const FoldedWard ward;
    auto log = quietLog(20);
    log.on(device).at("03-22 20:00").soil();
    ward.add(log.records());
    (void)ward.rebuild();
    const auto end = log.records().back().at;
    auto logbook = station::openLogbook(ward.surroundings, ward.file, station::Access::Write);
    const auto newest = logbook->snapshotsKept()->back().place;
    auto forged = **logbook->snapshotAt(newest);
    REQUIRE(station::verify(ward.surroundings, ward.file)->ok());
    SECTION("in its bytes") {
        const auto model = forged.bytes.find("Larch");
        REQUIRE(model != std::string::npos);
        forged.bytes[model] = 'M';
    }
    SECTION("in its strikes") {
        forged.strikes.push_back({"icu-1", 3});
    }
    SECTION("in its rulebooks") {
        forged.rulebooks.fill(1);
    }
    REQUIRE(logbook->keepSnapshots(std::vector{forged}, {}, {"mt", ward.clock.now()}));
    const auto found = station::verify(ward.surroundings, ward.file);
    REQUIRE(found);
    CHECK_FALSE(found->ok());
    CHECK(found->report.ok());
    CHECK(found->thrownAway);
    REQUIRE(found->snapshots.wrong.size() == 1);
    CHECK(found->snapshots.wrong.front() == newest);
    CHECK(station::findingsOf(ward.surroundings.words, *found).front().find(
              toText(newest.name)) != std::string::npos);
    CHECK(logbook->snapshotsKept()->empty());
    CHECK(station::verify(ward.surroundings, ward.file)->ok());
    requireSame(ward, {end}, ward.ask({end}));
}

TEST_CASE("A kept state that a stranger put in changes no answer", "[unit]") {
    FoldedWard ward;
    const auto log = quietLog(20);
    ward.add(log.records());
    const auto end = log.records().back().at;
    const support::Environment environment{"XDG_STATE_HOME"};
    environment.set("XDG_STATE_HOME", ward.folder.file("stranger").string());
    (void)ward.rebuild();
    auto logbook = station::openLogbook(ward.surroundings, ward.file, station::Access::Write);
    auto forged = **logbook->snapshotAt(logbook->snapshotsKept()->back().place);
    const auto model = forged.bytes.find("Larch");
    REQUIRE(model != std::string::npos);
    forged.bytes[model] = 'M';
    REQUIRE(logbook->keepSnapshots(std::vector{forged}, {}, {"mt", ward.clock.now()}));
    const auto modelIn = [&](const station::Standing& standing) {
        return deviceOf(standing.state).enrolment.model;
    };
    REQUIRE(modelIn(ward.ask({end})) == "March");  // as the stranger would have it
    environment.set("XDG_STATE_HOME", ward.folder.file("own").string());
    CHECK(modelIn(ward.ask({end})) == "Larch");
    requireSame(ward, {end}, ward.ask({end}));
    CHECK(station::verify(ward.surroundings, ward.file)->ok());
}

TEST_CASE("verify names a kept state of which a column was altered", "[unit]") {
    const auto alteration = GENERATE(as<std::string>(), "arrival = arrival + 1000",
                                     "arrival = arrival - 1", "arrival = 0", "engine = 0",
                                     "engine = engine + 1", "heads = '{}'");
    CAPTURE(alteration);
    const FoldedWard ward;
    auto log = quietLog(20);
    log.on(device).at("03-22 20:00").soil();
    ward.add(log.records());
    (void)ward.rebuild();
    const auto logbook = ward.open();
    const auto newest = logbook.snapshotsKept()->back().place;
    ward.tamper("UPDATE derived_snapshots SET " + alteration +
                " WHERE number = (SELECT number FROM derived_snapshots"
                " ORDER BY at_ms DESC, entered_ms DESC, station DESC, seq DESC LIMIT 1)");
    const auto found = station::verify(ward.surroundings, ward.file);
    REQUIRE(found);
    CHECK_FALSE(found->ok());
    CHECK(found->thrownAway);
    REQUIRE(found->snapshots.wrong.size() == 1);
    CHECK(found->snapshots.wrong.front() == newest);
    CHECK(station::verify(ward.surroundings, ward.file)->ok());
}

TEST_CASE("a kept state that something came in before is not named, and replaced", "[unit]") {
    const FoldedWard ward;
    auto log = quietLog(20);
    log.on(device).at("03-22 20:00").soil();
    ward.add(log.records());
    (void)ward.rebuild();
    auto logbook = station::openLogbook(ward.surroundings, ward.file, station::Access::Write);
    const auto kept = *logbook->snapshotsKept();
    const auto whole = **logbook->snapshotAt(kept.back().place);
    log.on(device).at("03-02 10:00").note();
    ward.add({log.records().back()});
    CHECK(std::ranges::none_of(*logbook->snapshotsKept(), &store::KeptSnapshot::isValid));
    CHECK(station::verify(ward.surroundings, ward.file)->ok());
    CHECK(logbook->snapshotsKept()->size() == kept.size());
    // What is made anew for a place stands alone there.
    REQUIRE(logbook->keepSnapshots(std::vector{whole}, std::vector{whole.place},
                                   {"mt", ward.clock.now()}));
    CHECK(logbook->snapshotsKept()->size() == 1);
}

TEST_CASE("states are kept once an answer would fold too much", "[unit]") {
    const FoldedWard ward;
    auto log = quietLog(850);
    REQUIRE(static_cast<std::int64_t>(log.records().size()) > station::mostFolded);
    ward.add(log.records());
    auto logbook = station::openLogbook(ward.surroundings, ward.file, station::Access::Write);
    REQUIRE(logbook);
    // What only reads keeps nothing.
    const auto before = bytesOf(ward.file.path);
    (void)ward.ask({log.records().back().at});
    CHECK((bytesOf(ward.file.path) == before));
    station::renewSnapshots(ward.surroundings, ward.file);
    const auto kept = *logbook->snapshotsKept();
    CHECK(kept.size() == 5);
    log.on(device).station("icu-2").at("03-03 00:30").note();
    REQUIRE(logbook->append(std::vector{log.records().back()}, {"mt", ward.clock.now()}));
    station::renewSnapshots(ward.surroundings, ward.file);
    CHECK_FALSE(logbook->snapshotsKept()->front().isValid);
}

TEST_CASE("Whoever writes does not wait until states are kept", "[unit]") {
    FoldedWard ward;
    const auto log = quietLog(850);
    ward.add(log.records());
    ward.clock.set(log.records().back().at + minutes(5));
    SECTION("an entry") {
        station::Entry start{"mt", "use_start", device};
        start.body = {{"emergency", true}};
        REQUIRE(station::writeEntry(ward.surroundings, ward.file, start));
    }
    SECTION("an import") {
        const auto file = ward.folder.write("more.jsonl", noteLine("er-2", 1));
        REQUIRE(station::importFiles(ward.surroundings, ward.file, {file}));
    }
    CHECK(ward.open().snapshotsKept()->empty());
    station::renewSnapshots(ward.surroundings, ward.file);
    CHECK_FALSE(ward.open().snapshotsKept()->empty());
    CHECK(station::verify(ward.surroundings, ward.file)->ok());
}

TEST_CASE("No states are kept in a logbook that is damaged", "[fault]") {
    const FoldedWard ward;
    const auto log = quietLog(850);
    ward.add(log.records());
    const auto nothingIsKept = [&] {
        const auto before = bytesOf(ward.file.path);
        station::renewSnapshots(ward.surroundings, ward.file);
        CHECK((bytesOf(ward.file.path) == before));
    };
    SECTION("in which the last verify found something") {
        auto logbook = station::openLogbook(ward.surroundings, ward.file, station::Access::Write);
        store::VerifyReport found;
        found.breaks.push_back({{"icu-1", 7}, store::Break::Reason::WrongHash, ""});
        REQUIRE(logbook->noteVerified(found, {"mt", ward.clock.now()}));
        nothingIsKept();
    }
    SECTION("where nobody has looked since a state was kept") {
        (void)ward.rebuild();
        auto more = log;
        const auto end = log.records().back().at;
        for (int each = 0; each < station::mostFolded; ++each) {
            more.on(device).at(end + minutes(each)).note();
        }
        ward.add(more.records());
        auto bytes = bytesOf(ward.file.path);
        const auto leaf = leafWith(bytes, "\"seq\":40,");
        bytes.replace(leaf, pageSize, pageSize, '\0');
        ward.folder.write("ward.logbook", bytes);
        nothingIsKept();
    }
}
