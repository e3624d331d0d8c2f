// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is written by a part of the log against the same by the whole log: two desks with the same
// records, of which one keeps states. And that the one reads a part.
#include "station/log_at_hand.h"

#include "station/clock_doubt.h"
#include "station/confirmation.h"
#include "station/correction.h"
#include "station/fleet_list.h"
#include "station/import.h"
#include "station/own_records.h"
#include "station/two_desks.h"
#include "support/seed.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

using logbook::Duration;
using logbook::Record;
using logbook::RecordName;

constexpr std::int64_t dayMs = 86'400'000;

std::string told(const station::Problem& problem) {
    std::string all = problem.code + ": " + problem.notice.text();
    for (const auto& detail : problem.details) all += "\n  " + detail;
    return all;
}

void add(std::string& all, std::string_view name, const std::vector<std::string>& lines) {
    for (const auto& line : lines) all += "\n  " + std::string(name) + ": " + line;
}

std::string told(const station::Result<std::vector<station::Written>>& written) {
    if (!written) return told(written.error());
    std::string all;
    for (const auto& each : *written) {
        all += toText(each.record) + " by " + each.by + (each.confirmed ? "" : " unsigned");
        add(all, "warns", each.warnings);
        add(all, "means", each.meaning);
    }
    return all;
}

std::string told(const station::Result<station::Corrected>& corrected) {
    if (!corrected) return told(corrected.error());
    std::string all;
    for (const auto& name : corrected->struck) all += " struck " + toText(name);
    for (const auto& name : corrected->reentered) all += " anew " + toText(name);
    add(all, "warns", corrected->warnings);
    add(all, "means", corrected->meaning);
    return all;
}

std::string told(const station::Result<std::vector<station::Unconfirmed>>& confirmed) {
    if (!confirmed) return told(confirmed.error());
    std::string all;
    for (const auto& each : *confirmed) all += each.line + "\n";
    return all;
}

// The same at both; what comes of it is the same.
template <class Act>
void doAtBoth(const Desks& desks, Act act) {
    const auto warm = told(act(desks.keeping));
    CHECK(warm == told(act(desks.plain)));
}

void writeAtBoth(const Desks& desks, std::vector<station::Entry> entries, bool isSigned) {
    doAtBoth(desks, [&](const Desk& desk) {
        for (auto& entry : entries) {
            entry.by = isSigned ? station::Writer(*desk.robin) : station::Writer("Robin");
        }
        return station::writeTogether(desk.surroundings, desk.file, entries);
    });
}

void correctAtBoth(const Desks& desks, Random& dice, const RecordName& record,
                   const std::string& other) {
    const bool moves = dice.chance(40);
    const bool withBatch = dice.chance(50);
    doAtBoth(desks, [&](const Desk& desk) {
        const station::Correction correction{*desk.robin, record, withBatch, "Wrong unit"};
        return moves ? station::moveToUnit(desk.surroundings, desk.file, correction, other)
                     : station::strikeTogether(desk.surroundings, desk.file, correction);
    });
}

// Nothing of who signs in, of the numbers that are taken, or of the records themselves differs.
void compare(const Desks& desks) {
    const auto whole = desks.plain.whole();
    const auto people = desks.keeping.atHand({});
    CHECK(people.log.records().size() < whole.log.records().size());
    CHECK(toText(people.reached) == toText(whole.reached));
    const auto kept = desks.keeping.whole();
    REQUIRE(kept.log.records().size() == whole.log.records().size());
    for (std::size_t index = 0; index < whole.log.records().size(); ++index) {
        REQUIRE(kept.log.records()[index].content == whole.log.records()[index].content);
    }
    doAtBoth(desks, [&](const Desk& desk) {
        const station::NewUnit unit{"KB-1", {"Larch", {"adult"}, {}, {}}};
        std::vector<station::Unconfirmed> lines;
        const auto reasons = station::lookOver(desk.surroundings, desk.file, unit);
        REQUIRE(reasons);
        for (const auto& reason : *reasons) {
            lines.emplace_back();
            lines.back().line = reason.sentence.text();
        }
        return station::Result<std::vector<station::Unconfirmed>>(std::move(lines));
    });
}

}  // namespace

TEST_CASE("What is written by a part of the log is what is by the whole", "[property]") {
    const auto firstSeed = support::seedOfRun();
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 3; ++seed) {
        CAPTURE(seed);
        RandomShape shape;
        shape.records = 150;
        shape.devices = 3;
        RandomLog random(seed, shape);
        auto& dice = random.random();
        Desks desks(random.log().records(), random.end() + minutes(400));
        desks.clock.startComputer("first");
        Entering entering(dice, random.devices(), namesOf(random.log().records()));
        // A clock set back early leaves few states to begin with: it goes on until there are.
        int began = 0;
        for (int round = 0; round < 30 || (began <= 10 && round < 300); ++round) {
            CAPTURE(round);
            desks.clock.advance(minutes(1 + dice.below(60)));
            if (dice.chance(8)) desks.clock.set(desks.clock.now() - minutes(dice.below(300)));
            const auto entries = entering.press(desks.clock.now());
            const auto needed = station::neededFor(
                desks.keeping.surroundings, desks.keeping.open(station::Access::Read), entries);
            REQUIRE(needed);
            const auto atHand = desks.keeping.atHand(*needed);
            began += atHand.beginning ? 1 : 0;
            writeAtBoth(desks, entries, dice.chance(70));
            entering.know({"desk-1", 1 + dice.below(30)});
            if (dice.chance(30)) {
                correctAtBoth(desks, dice, entering.anyRecord(), dice.pick(random.devices()));
            }
            if (dice.chance(10)) {
                doAtBoth(desks, [](const Desk& desk) {
                    return station::confirm(desk.surroundings, desk.file, {*desk.robin, {}});
                });
            }
            if (dice.chance(10)) desks.keepStates();
        }
        compare(desks);
        CHECK(began > 10);
    }
}

TEST_CASE("An entry reads its unit and what came since the state it begins with", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("voided_by = [{ event = \"soil\" }]"));
    log.department().at("03-02 20:00").person("Robin", {"lead"});
    log.on("KB-0002").at("03-02 21:00").enrol({"adult"});
    for (int hour = 0; hour < 10 * 24; ++hour) {
        log.on(hour % 100 == 0 ? "KB-0002" : device)
            .at(when("03-03 00:00") + minutes(60 * hour))
            .note();
    }
    const auto end = log.records().back().at;
    Desks desks(log.records(), end + minutes(5));
    station::Needed needed{{"KB-0002"}, {}, desks.clock.now()};
    const auto now = desks.keeping.atHand(needed);
    REQUIRE(now.beginning);
    CHECK(now.beginning->place.at == end);
    CHECK(now.log.records().size() == 6);  // edition, person, enrolment and its notes
    CHECK(now.reaches(desks.clock.now()));
    CHECK_FALSE(now.reaches(end));
    CHECK(recordIn(now, log.records().back().name) != nullptr);
    CHECK(recordIn(now, {"icu-9", 1}) == nullptr);
    needed.since = end - Duration{2 * dayMs};
    CHECK(desks.keeping.atHand(needed).log.records().size() == 6 + 48);
    needed.since = when("03-02 22:00");
    CHECK_FALSE(desks.keeping.atHand(needed).beginning);
    CHECK_FALSE(desks.plain.atHand(needed).beginning);
}

TEST_CASE("Of a session only what was shown is struck through", "[unit]") {
    LogBuilder log = logWith(bookOfLeak("voided_by = [{ event = \"soil\" }]"));
    log.department().at("03-02 20:00").person("Robin", {"lead"});
    Desks desks(log.records(), when("03-03 08:00"));
    const auto& desk = desks.plain;
    const auto note = [&](const std::string& text) {
        station::Entry entry{*desk.robin, "note", device};
        entry.body = {{"text", text}};
        entry.batch = "one \"session\"";
        const auto written = station::writeEntry(desk.surroundings, desk.file, entry);
        REQUIRE(written);
        return written->record;
    };
    const auto first = note("First");
    const auto second = note("Second");
    const auto standing = station::standing(desk.surroundings, desk.file, {});
    REQUIRE(standing);
    station::Correction correction{*desk.robin, first, true, "Entered twice"};
    const auto linesNow = [&] {
        auto lines = station::linesToCorrect(desk.surroundings, desk.file, *standing, correction,
                                             false);
        REQUIRE(lines);
        return *std::move(lines);
    };
    const auto show = [&] {
        correction.shown.emplace();
        for (const auto& line : linesNow()) correction.shown->push_back(line.record);
    };
    show();
    CHECK(correction.shown == std::vector{first, second});
    const auto third = note("Third");
    const auto strike = [&] {
        return station::strikeTogether(desk.surroundings, desk.file, correction);
    };
    const auto refused = strike();
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == "correction.not_shown");
    CHECK(refused.error().notice.text().find("not shown yet: 1.") != std::string::npos);
    show();
    const auto struck = strike();
    REQUIRE(struck);
    CHECK(struck->struck == std::vector{first, second, third});
    CHECK(linesNow().empty());
}
