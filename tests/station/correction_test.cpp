// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Corrections: batches struck through and entries moved to the right unit, whole or not at all.
#include "station/correction.h"

#include "station/answers.h"
#include "station/ward.h"

#include <fmt/format.h>

using support::utc;
using support::Ward;

namespace {

namespace json = logbook::json;
using logbook::RecordName;

std::vector<logbook::Record> recordsOf(const Ward& ward) {
    const auto logbook =
        station::openLogbook(ward.surroundings, ward.logbook, station::Access::Read);
    REQUIRE(logbook);
    auto records = logbook->records();
    REQUIRE(records);
    return records->records;
}

// "icu-1/6 KB-0002 fit 14:05 by mt done rs from icu-1/4 batch b1" of those after `seq`.
std::vector<std::string> linesAfter(const Ward& ward, std::int64_t seq) {
    std::vector<std::string> lines;
    for (const auto& record : recordsOf(ward)) {
        if (record.name.seq <= seq) continue;
        lines.push_back(fmt::format("{} {} {} by {} done {} from {} batch {}",
                                    toText(record.name), record.device, kindName(record.kind()),
                                    record.by, record.doneBy.value_or("-"),
                                    record.movedFrom.value_or("-"), record.batch.value_or("-")));
    }
    return lines;
}

std::string joined(const std::vector<std::string>& texts) {
    std::string all;
    for (const auto& text : texts) all += (all.empty() ? "" : " | ") + text;
    return all;
}

// Two units, and three entries of one batch on the first that were meant for the second.
struct WrongUnit {
    Ward ward;
    std::int64_t first = 0;  // seq of the first of the batch
    std::int64_t last = 0;

    WrongUnit() {
        ward.found();
        ward.person("rs", "therapist");
        ward.enrol("KB-0001");
        ward.enrol("KB-0002");
        ward.clock.moveTo(utc(2026, 3, 2, 14, 10));
        first = write("fit", {{"position", "circuit"}, {"part", json::Object{{"lot", "L7"}}}});
        write("power", {{"on", true}});
        last = write("check", {{"check", "leak"}, {"outcome", "pass"}});
        ward.clock.moveTo(utc(2026, 3, 2, 15));
    }

    std::int64_t write(const std::string& kind, json::Object body) {
        station::Entry entry{ward.as("mt"), kind, "KB-0001", std::move(body)};
        entry.at = utc(2026, 3, 2, 14, 5);
        entry.doneBy = "rs";
        entry.batch = "b1";
        const auto written = station::writeEntry(ward.surroundings, ward.logbook, entry);
        REQUIRE(written);
        return written->record.seq;
    }

    station::Correction correction(bool withBatch, const std::string& by = "mt") {
        return {ward.as(by), {"icu-1", first}, withBatch, "Wrong unit scanned"};
    }
};

std::string verdictOf(Ward& ward, const std::string& device) {
    const auto standing = station::wholeStanding(ward.surroundings, ward.logbook, {});
    REQUIRE(standing);
    const auto* known = standing->state.device(device);
    REQUIRE(known);
    return std::string(
        rules::name(rules::assess(standing->state, *known, {standing->at}).verdict));
}

}  // namespace

TEST_CASE("A batch on the wrong unit is moved to the right one in one act", "[unit]") {
    WrongUnit scene;
    CHECK(verdictOf(scene.ward, "KB-0001") == "ready");
    CHECK(verdictOf(scene.ward, "KB-0002") == "not_ready");
    const auto moved = station::moveToUnit(scene.ward.surroundings, scene.ward.logbook,
                                           scene.correction(true), "KB-0002");
    REQUIRE(moved);
    CHECK(moved->struck.size() == 3);
    CHECK(moved->reentered.size() == 3);
    CHECK(moved->device == "KB-0002");
    CHECK(moved->warnings.empty());
    CHECK(joined(moved->meaning).find("KB-0001 is not ready for adult: leak due. | KB-0002 is "
                                      "ready for adult") == 0);
    CHECK(verdictOf(scene.ward, "KB-0001") == "not_ready");
    CHECK(verdictOf(scene.ward, "KB-0002") == "ready");
    const auto name = [&](std::int64_t step) { return "icu-1/" + std::to_string(step); };
    const auto one = scene.first, next = scene.last + 1;
    const auto strike = " KB-0001 strike by mt done - from - batch -";
    const auto lines = linesAfter(scene.ward, scene.last);
    // Reading order: what happened earlier comes first.
    CHECK(joined(lines) ==
          joined({name(next + 3) + " KB-0002 fit by mt done rs from " + name(one) + " batch b1",
                  name(next + 4) + " KB-0002 power by mt done rs from " + name(one + 1) +
                      " batch b1",
                  name(next + 5) + " KB-0002 check by mt done rs from " + name(one + 2) +
                      " batch b1",
                  name(next) + strike, name(next + 1) + strike, name(next + 2) + strike}));
    for (const auto& record : recordsOf(scene.ward)) {
        if (record.movedFrom) CHECK(record.at == utc(2026, 3, 2, 14, 5));
    }
}

TEST_CASE("Before a move it is told what a press on the other unit would be asked", "[unit]") {
    WrongUnit scene;
    auto& ward = scene.ward;
    const auto outlookOf = [&](const station::Correction& correction, const std::string& device) {
        const auto standing = station::standing(ward.surroundings, ward.logbook, {});
        REQUIRE(standing);
        return station::moveOutlook(ward.surroundings, ward.logbook, *standing, correction,
                                    device);
    };
    const auto before = ward.bytes();
    const auto whole = outlookOf(scene.correction(true), "KB-0002");
    REQUIRE(whole);
    REQUIRE(whole->entries.size() == 3);
    CHECK(whole->entries.front().device == "KB-0002");
    CHECK(whole->entries.front().at == utc(2026, 3, 2, 14, 5));
    CHECK(joined(whole->told) == "KB-0001 is then no longer ready: leak due.");
    CHECK((ward.bytes() == before));
    // A part called back, on a unit that is in use there: no press would wait for the question.
    station::Entry start{ward.as("mt"), "use_start", "KB-0002"};
    start.at = utc(2026, 3, 2, 14, 3);
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, start));
    station::Entry notice{ward.as("mt"), "notice"};
    notice.body = {{"key", "fa_1"}, {"title", "Leaks"}, {"action", "stop_use"},
                   {"match", json::Object{{"lots", json::Array{"L7"}}}}};
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, notice));
    const auto called = outlookOf(scene.correction(true), "KB-0002");
    REQUIRE(called);
    const auto told = joined(called->told);
    INFO(told);
    CHECK(told.find("The 08:05 leak does not count") != std::string::npos);
    CHECK(told.find("KB-0002 is in use, and this then stands against it: circuit under "
                    "stop-use notice: Leaks.") != std::string::npos);
    const auto refused = outlookOf(scene.correction(true), "KB-0001");
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == "correction.same_unit");
}

TEST_CASE("One entry alone is moved with its own name as its batch", "[unit]") {
    WrongUnit scene;
    const auto moved = station::moveToUnit(scene.ward.surroundings, scene.ward.logbook,
                                           scene.correction(false), "KB-0002");
    REQUIRE(moved);
    CHECK(moved->struck == std::vector<RecordName>{{"icu-1", scene.first}});
    CHECK(moved->reentered.size() == 1);
}

TEST_CASE("What was entered without a batch gets one when it is moved", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.enrol("KB-0002");
    REQUIRE(ward.check("KB-0001", "pass"));
    const auto seq = recordsOf(ward).back().name.seq;
    REQUIRE(station::moveToUnit(ward.surroundings, ward.logbook,
                                {ward.as("mt"), {"icu-1", seq}, false, "Wrong unit"},
                                "KB-0002"));
    for (const auto& record : recordsOf(ward)) {
        if (record.movedFrom) CHECK(record.batch == "icu-1/" + std::to_string(seq));
        if (record.movedFrom) CHECK(record.doneBy == "mt");
    }
}

TEST_CASE("A move is refused whole where one entry of it may not be written", "[unit]") {
    WrongUnit scene;
    scene.ward.person("zz", "observer");
    scene.ward.as("zz");
    const auto before = scene.ward.bytes();
    const auto code = [&](const station::Correction& correction, const std::string& device) {
        const auto moved = station::moveToUnit(scene.ward.surroundings, scene.ward.logbook,
                                               correction, device);
        REQUIRE_FALSE(moved);
        return moved.error().code;
    };
    CHECK(code(scene.correction(true, "zz"), "KB-0002") == "refusal.roles");
    CHECK(code(scene.correction(true), "KB-0009") == "entry.unknown_device");
    CHECK(code(scene.correction(true), "KB-0001") == "correction.same_unit");
    auto wrong = scene.correction(true);
    wrong.record = {"icu-1", 1};
    CHECK(code(wrong, "KB-0002") == "correction.no_unit");
    wrong.record = {"icu-1", 99};
    CHECK(code(wrong, "KB-0002") == "entry.no_target");
    CHECK((scene.ward.bytes() == before));
}

TEST_CASE("A batch is struck through at once, and what stands no more is left out", "[unit]") {
    WrongUnit scene;
    const auto strike = [&](bool withBatch) {
        return station::strikeTogether(scene.ward.surroundings, scene.ward.logbook,
                                       scene.correction(withBatch));
    };
    REQUIRE(strike(false));
    CHECK(strike(false).error().code == "entry.struck_already");
    const auto rest = strike(true);
    REQUIRE(rest);
    CHECK(rest->struck.size() == 2);
    CHECK(rest->reentered.empty());
    CHECK(strike(true).error().code == "entry.struck_already");
    auto alone = scene.correction(true);
    alone.record = {"icu-1", scene.first - 1};
    const auto refused =
        station::strikeTogether(scene.ward.surroundings, scene.ward.logbook, alone);
    CHECK(refused.error().code == "correction.no_batch");
}
