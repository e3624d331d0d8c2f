// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is said of one unit by its own log, and of a model of parts by its fits, against the same by
// the whole log.
#include "station/units_log.h"

#include "report/part_kinds.h"
#include "station/bedside.h"
#include "station/history_log.h"
#include "station/model_log.h"
#include "station/system.h"
#include "station/ward.h"
#include "support/random_log.h"
#include "support/seed.h"

using support::utc;
using support::Ward;

namespace {

void keep(Ward& ward, const std::vector<logbook::Record>& records) {
    const auto access = station::system::exists(ward.logbook.path) ? station::Access::Write
                                                                   : station::Access::Create;
    auto file = station::openLogbook(ward.surroundings, ward.logbook, access);
    REQUIRE(file);
    REQUIRE(file->append(records, {"mt", ward.clock.now()}));
}

// All lines of its history, and what was taken out of it.
std::string shown(Ward& ward, const station::WholeStanding& standing, const std::string& device) {
    std::string all;
    const auto history = station::history(ward.surroundings, standing, device);
    for (const auto& line : history.lines) {
        all += toText(line.record) + " " + line.clock + " " + line.says + " " + line.who + " " +
               line.entered + " " + line.strike + " " + std::to_string(line.inBatch) + "\n";
    }
    all += std::to_string(history.older) + " older\n";
    const report::KnownBy known{standing.at, standing.knownAt};
    for (const auto& [position, part] :
         report::takenOutUnused(standing.log->log, standing.state, known, device)) {
        all += position + " " + toText(part.fitted) + "\n";
    }
    const auto bedside = station::bedside(ward.surroundings, standing, device);
    return all + (bedside ? bedside->headline : bedside.error().code);
}

// What the lines hold, and why attempts did not count: that may hang on other units.
std::string held(Ward& ward, const station::WholeStanding& standing, const std::string& device) {
    std::string all;
    for (const auto& line : station::history(ward.surroundings, standing, device).lines) {
        all += toText(line.record) + " " + line.says + " " + line.uncounted + "\n";
        for (const auto& [label, text] : line.details) all += "  " + label + ": " + text + "\n";
    }
    return all;
}

void compareHistories(Ward& ward, station::HistoryLog& history, const support::Texts& devices) {
    const auto whole = station::wholeStanding(ward.surroundings, ward.logbook, {});
    const auto standing = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(whole);
    REQUIRE(standing);
    for (const auto& device : devices) {
        CAPTURE(device);
        const auto own = history.of(ward.surroundings, ward.logbook, *standing, device);
        REQUIRE(own);
        CHECK(shown(ward, *own, device) == shown(ward, *whole, device));
        CHECK(held(ward, *own, device) == held(ward, *whole, device));
    }
}

// Checks on units between which parts go to and fro after that log; of some of them it matters
// whether another unit has taken a part over.
std::vector<logbook::Record> withMovingParts(support::RandomLog& random, int steps) {
    auto log = random.log();
    auto& dice = random.random();
    auto at = random.end();
    const auto next = [&] {
        at = at + support::minutes(1 + dice.below(5));
        auto entry = log.on(dice.pick(random.devices()));
        entry.at(at).entered(at).by("Robin").station("icu-1");
        return entry;
    };
    for (int step = 0; step < steps; ++step) {
        const std::string number = std::to_string(dice.below(3));
        switch (dice.below(6)) {
        case 0: next().fit("hme", {{"serial", "H" + number}}); break;
        case 1: next().fit("circuit", {{"serial", "C" + number}, {"layout", "coaxial"}}); break;
        case 2: next().remove("hme"); break;
        case 3: next().retire(); break;
        case 4: next().enrol({"adult", "pediatric"}); break;
        default: next().measuring("leak", 50, "mL/min").pass("leak");
        }
    }
    return log.records();
}

// What a scanned text finds, and where it would go.
std::string told(const station::Found& found) {
    std::string all = found.sentence + "\n";
    for (const auto& part : found.parts) all += part.position + " " + part.source + "\n";
    return all;
}

// Fits of models, spelled one way and another, after that log; some of them are struck through.
std::vector<logbook::Record> withModels(support::RandomLog& random, int steps) {
    auto log = random.log();
    auto& dice = random.random();
    auto at = random.end();
    for (int step = 0; step < steps; ++step) {
        at = at + support::minutes(1 + dice.below(5));
        auto entry = log.on(dice.pick(random.devices()));
        entry.at(at).entered(at).by("Robin").station("icu-1");
        const std::string number = std::to_string(dice.below(4));
        const auto model = dice.pick(support::Texts{"Sorrel F2", "sorrel f2", "Rowan \"H\""});
        const auto position = dice.pick(support::Texts{"circuit", "sensor", "hme"});
        switch (dice.below(5)) {
        case 0: entry.fit(position, {{"serial", "M" + number}}); break;
        case 1: entry.fit(position, {{"model", model}, {"lot", "L" + number}}); break;
        case 2: entry.remove(position); break;
        case 3: entry.strike(dice.pick(log.records()).name); break;
        default: entry.fit(position, {{"serial", "M" + number}, {"model", model}});
        }
    }
    return log.records();
}

std::set<std::string> scannedTexts(const std::vector<logbook::Record>& records) {
    std::set<std::string> texts{"nothing of that name", "", "SORREL F2", "rowan \"h\""};
    for (const auto& record : records) {
        texts.insert(record.device);
        const auto* fit = std::get_if<logbook::body::Fit>(&record.body);
        if (fit == nullptr) continue;
        for (const auto& [key, value] : fit->part.attributes) texts.insert(value);
    }
    return texts;
}

station::ModelReader never() {
    using Read = station::Result<std::shared_ptr<const station::WholeStanding>>;
    return [](const std::string&) -> Read {
        FAIL("the log is read");
        return nullptr;
    };
}

}  // namespace

TEST_CASE("A unit's own log says of it what the whole log says", "[property]") {
    const auto firstSeed = support::seedOfRun();
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 8; ++seed) {
        CAPTURE(seed);
        support::RandomShape shape;
        shape.records = 200;
        shape.devices = 5;
        support::RandomLog random(seed, shape);
        Ward ward;
        keep(ward, random.log().records());
        ward.clock.moveTo(random.end());
        const auto whole = station::wholeStanding(ward.surroundings, ward.logbook, {});
        const auto standing = station::standing(ward.surroundings, ward.logbook, {});
        REQUIRE(whole);
        REQUIRE(standing);
        for (const auto& device : random.devices()) {
            CAPTURE(device);
            const auto own =
                station::withLogOf(ward.surroundings, ward.logbook, *standing, device);
            REQUIRE(own);
            CHECK(shown(ward, *own, device) == shown(ward, *whole, device));
            for (const auto& record : own->log->log.records()) {
                const bool isOwn = record.device == device || record.device.empty();
                CHECK((isOwn || record.kind() == logbook::Kind::Strike));
            }
        }
    }
}

TEST_CASE("A history is that by the whole log, wherever its parts have been", "[property]") {
    const auto firstSeed = support::seedOfRun();
    for (std::uint32_t seed = firstSeed; seed < firstSeed + 12; ++seed) {
        CAPTURE(seed);
        support::RandomShape shape;
        shape.records = 60;
        shape.devices = 4;
        support::RandomLog random(seed, shape);
        Ward ward;
        const auto records = withMovingParts(random, 120);
        const auto half = records.begin() + static_cast<std::ptrdiff_t>(records.size() / 2);
        station::HistoryLog history;
        keep(ward, {records.begin(), half});
        ward.clock.moveTo(records.back().at);
        compareHistories(ward, history, random.devices());
        keep(ward, {half, records.end()});
        // First the one that was looked at last, to which only what came in is added.
        support::Texts devices(random.devices().rbegin(), random.devices().rend());
        compareHistories(ward, history, devices);
        compareHistories(ward, history, {devices.back(), devices.back()});
    }
}

TEST_CASE("A history knows that another unit took a part over", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.enrol("KB-0002");
    ward.enrol("KB-0003");
    const auto fit = [&](const std::string& device, const std::string& serial) {
        station::Entry entry{ward.as("mt"), "fit", device};
        entry.body = {{"position", "circuit"},
                      {"part", logbook::json::Object{{"serial", serial}}}};
        REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
    };
    fit("KB-0001", R"(S "1)");
    fit("KB-0002", R"(S "1)");
    fit("KB-0003", "S2");
    const auto standing = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(standing);
    station::HistoryLog history;
    const auto own = history.of(ward.surroundings, ward.logbook, *standing, "KB-0001");
    REQUIRE(own);
    std::string others;
    for (const auto& record : own->log->log.records()) {
        if (record.device == "KB-0001" || record.device.empty()) continue;
        others += record.device + (record.kind() == logbook::Kind::Fit ? " fit\n" : "\n");
    }
    CHECK(others == "KB-0002\nKB-0003\nKB-0002 fit\n");
    // What came in since is not of the log as it was asked for.
    fit("KB-0003", R"(S "1)");
    const auto then = history.of(ward.surroundings, ward.logbook, *standing, "KB-0001");
    REQUIRE(then);
    CHECK(then->log->log.records().size() == own->log->log.records().size());
}

TEST_CASE("What is not in a unit's own log is looked up all the same", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.enrol("KB-0002");
    const auto standing = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(standing);
    const auto own = station::withLogOf(ward.surroundings, ward.logbook, *standing, "KB-0001");
    REQUIRE(own);
    const auto whole = station::wholeStanding(ward.surroundings, ward.logbook, {});
    REQUIRE(whole);
    for (const auto& record : whole->log->log.records()) {
        const auto* found = own->lookup(record.name);
        REQUIRE(found != nullptr);
        CHECK(found->content == record.content);
    }
    CHECK(own->lookup({"icu-9", 1}) == nullptr);
}
TEST_CASE("A unit's own log is of the moment of the standing", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const auto standing = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(standing);
    const auto countOf = [&](const station::Standing& at) {
        const auto own = station::withLogOf(ward.surroundings, ward.logbook, at, "KB-0001");
        REQUIRE(own);
        return own->log->log.records().size();
    };
    const auto before = countOf(*standing);
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    REQUIRE(ward.check("KB-0001", "pass"));
    CHECK(countOf(*standing) == before);
    const auto after = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(after);
    CHECK(countOf(*after) == before + 1);
}


TEST_CASE("A scanned text finds the same without the log, by the fits of a model", "[property]") {
    const auto seed = support::seedOfRun();
    CAPTURE(seed);
    support::RandomShape shape;
    shape.records = 150;
    support::RandomLog random(seed, shape);
    const auto records = withModels(random, 80);
    const auto texts = scannedTexts(records);
    const auto half = records.end() - 40;
    Ward ward;
    station::ModelLog models;
    const auto compare = [&] {
        const auto whole = station::wholeStanding(ward.surroundings, ward.logbook, {});
        const auto standing = station::standing(ward.surroundings, ward.logbook, {});
        REQUIRE(whole);
        REQUIRE(standing);
        const auto ofModel = [&](const std::string& model) {
            return models.of(ward.surroundings, ward.logbook, *standing, model);
        };
        int modelsFound = 0, lotsFound = 0;
        for (const auto& text : texts) {
            CAPTURE(text);
            const auto with = station::find(ward.surroundings, *whole, text, "KB-1");
            const bool isModel = with.what == station::Found::What::Model;
            const bool isLot = with.what == station::Found::What::Lot;
            const bool looks = isModel || isLot || with.what == station::Found::What::Nothing;
            const station::ModelReader reader = looks ? station::ModelReader(ofModel) : never();
            CHECK(told(station::find(ward.surroundings, *standing, reader, text, "KB-1")) ==
                  told(with));
            modelsFound += isModel ? 1 : 0;
            lotsFound += isLot ? 1 : 0;
        }
        CHECK(modelsFound > 0);
        CHECK(lotsFound > 0);
    };
    keep(ward, {records.begin(), half});
    ward.clock.moveTo(records.back().at);
    compare();
    keep(ward, {half, records.end()});
    compare();
}
