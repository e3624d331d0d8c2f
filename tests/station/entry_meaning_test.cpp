// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is told of an entry once it is kept: that it does not do what it seems to, and how the unit
// stands.
#include "station/answers.h"
#include "station/entry.h"
#include "station/import.h"
#include "station/ward.h"

using support::utc;
using support::Ward;

namespace {

namespace json = logbook::json;

struct Told {
    std::string warnings;
    std::string meaning;
};

std::string joined(const std::vector<std::string>& texts) {
    std::string all;
    for (const auto& text : texts) all += (all.empty() ? "" : " | ") + text;
    return all;
}

// As the person named in the entry, signed in.
Told told(Ward& ward, station::Entry entry) {
    entry.by = ward.as(entry.by.who);
    const auto written = station::writeEntry(ward.surroundings, ward.logbook, entry);
    REQUIRE(written);
    return {joined(written->warnings), joined(written->meaning)};
}

Ward& founded(Ward& ward) {
    ward.found();
    ward.enrol("KB-0001");
    return ward;
}

station::Entry entryOf(std::string kind, json::Object body = {}, std::string by = "mt") {
    return {std::move(by), std::move(kind), "KB-0001", std::move(body)};
}

json::Object leakOf(int millilitres) {
    return {{"check", "leak"},
            {"outcome", "pass"},
            {"measures",
             json::Object{{"leak", json::Object{{"value", millilitres}, {"unit", "mL/min"}}}}}};
}

}  // namespace

TEST_CASE("After an entry it is told how the unit stands", "[unit]") {
    Ward ward;
    founded(ward);
    CHECK(told(ward, entryOf("power", {{"on", true}})).meaning ==
          "KB-0001 is not ready for adult: leak due.");
    CHECK(told(ward, entryOf("check", leakOf(20))).meaning ==
          "KB-0001 is ready for adult until 16 Jan 2027 00:00.");
    CHECK(told(ward, entryOf("use_start")).meaning == "KB-0001 is in use.");
    CHECK(told(ward, entryOf("use_end")).meaning == "KB-0001 is not ready for adult: leak due.");
    CHECK(told(ward, entryOf("withdraw", {{"hold", "incident"}, {"reason", "Fell"}})).meaning ==
          "KB-0001 is out of service: incident.");
    CHECK(told(ward, entryOf("retire", {{"reason", "Sold"}})).meaning == "KB-0001 is retired.");
}

TEST_CASE("After an entry no unit is told as ready that the board does not know to be", "[unit]") {
    Ward ward;
    founded(ward);
    ward.enrol("KB-0002");
    const auto ofOther = [&](int seq, std::string_view device, int later) {
        const auto at = toText(ward.clock.now() + logbook::Duration{later});
        return *logbook::readRecord(json::Object{
            {"station", "er-2"}, {"seq", seq}, {"at", at}, {"entered", at}, {"by", "bk"},
            {"device", device}, {"kind", "check"},
            {"body", json::Object{{"check", "leak"}, {"outcome", "fail"}}}});
    };
    const std::vector<logbook::Record> later{ofOther(1, "KB-0002", 500),
                                             ofOther(2, "KB-0001", 3'600'000)};
    {
        auto file = station::openLogbook(ward.surroundings, ward.logbook, station::Access::Write);
        REQUIRE(file);
        REQUIRE(file->append(later, {"mt", ward.clock.now()}));
    }
    CHECK(told(ward, entryOf("check", leakOf(20))).meaning ==
          "Whether KB-0001 is ready is not known: there are entries with a later time than this "
          "computer's clock. Look which clock is wrong: until this one has passed that time, or "
          "those entries are struck through, no board shows the unit as ready.");
    // Longer than two clocks may differ, so that the pass is sure to come after the failure.
    ward.clock.advance(logbook::Duration{600'000});
    auto other = entryOf("check", leakOf(20));
    other.device = "KB-0002";
    CHECK(told(ward, other).meaning == "KB-0002 is ready for adult until 16 Jan 2027 00:00.");
    const auto stands = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(stands);
    const auto board = station::board(ward.surroundings, *stands);
    REQUIRE(board.rows.size() == 2);
    CHECK(board.rows[0].inDoubt);
    CHECK_FALSE(board.rows[1].inDoubt);
}

TEST_CASE("A late entry is told with the time it is kept for, and what came after it counts",
          "[unit]") {
    Ward ward;
    founded(ward);
    ward.person("rs", "biomed");
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    REQUIRE(ward.check("KB-0001", "pass"));
    ward.clock.moveTo(utc(2026, 3, 2, 16));
    auto late = entryOf("clear", {{"code", "fan"}});
    late.at = utc(2026, 3, 2, 14, 30);
    late.by = "rs";
    CHECK(told(ward, late).meaning ==
          "Kept as of 2 Mar 2026 08:30 CST (UTC-06:00, 2026-03-02T14:30:00Z). | "
          "KB-0001 is ready for adult until 16 Jan 2027 00:00.");
}

TEST_CASE("A pass that its measures make a failure is told as one", "[unit]") {
    Ward ward;
    founded(ward);
    const auto written = told(ward, entryOf("check", leakOf(240)));
    CHECK(written.warnings ==
          "Leak failed at 08:00: leak 240 mL/min, limit 200. Put the cause right and repeat "
          "the leak.");
    CHECK(written.meaning == "KB-0001 is not ready for adult: leak failed.");
    CHECK(told(ward, entryOf("check", leakOf(200))).warnings.empty());
}

TEST_CASE("A failure that only a measure shows is taken from anyone, a pass is not", "[unit]") {
    Ward ward;
    ward.found();
    const std::string text = std::string(Ward::policy) + "check = [\"lead\"]\n";
    REQUIRE(station::adopt(ward.surroundings, ward.logbook,
                           {ward.as("mt"), ward.folder.write("checks.toml", text)}));
    ward.enrol("KB-0001");
    ward.person("zz", "visitor");
    auto attempt = entryOf("check", leakOf(199), "zz");
    attempt.by = ward.as("zz");
    CHECK(station::writeEntry(ward.surroundings, ward.logbook, attempt).error().code ==
          "refusal.roles");
    attempt.body = leakOf(240);
    CHECK(told(ward, attempt).meaning == "KB-0001 is not ready for adult: leak failed.");
}

TEST_CASE("A start on a unit that is not ready is kept, and what it lacked is told", "[unit]") {
    Ward ward;
    founded(ward);
    CHECK(told(ward, entryOf("use_start", {{"emergency", true}})).warnings ==
          "KB-0001 was not ready when this use began: leak due. The start is recorded all the "
          "same.");
    const auto next = told(ward, entryOf("use_start"));
    CHECK(next.warnings.find("was not ready when this use began: leak due") != std::string::npos);
    CHECK(told(ward, entryOf("use_start", {{"same_patient", true}})).warnings ==
          "KB-0001 is in use already, on the same patient by this entry: the use goes on.");
}

TEST_CASE("An entry that changes nothing says so, and why", "[unit]") {
    Ward ward;
    founded(ward);
    ward.person("rs", "biomed");
    const auto warnings = [&](const station::Entry& entry) { return told(ward, entry).warnings; };
    CHECK(warnings(entryOf("clear", {{"code", "fan"}}, "rs")) ==
          "KB-0001 has no such fault (fan), so this entry changes nothing.");
    CHECK(warnings(entryOf("release", {{"hold", "incident"}})) ==
          "KB-0001 is not out of service for that reason (incident), so this entry changes "
          "nothing.");
    CHECK(warnings(entryOf("remove", {{"position", "circuit"}})) ==
          "Nothing was fitted there (circuit) on KB-0001, so this entry changes nothing.");
    const std::string unused = "KB-0001 was not in use, so this entry changes nothing.";
    CHECK(warnings(entryOf("use_end")) == unused);
    CHECK(warnings(entryOf("use_pause", {{"reason", "Scan"}})) == unused);
    CHECK(warnings(entryOf("use_resume")) == unused);
    CHECK(warnings(entryOf("group", {{"group", "adult"}})) ==
          "KB-0001 was so already, so this entry changes nothing.");
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entryOf("use_start")));
    CHECK(warnings(entryOf("use_resume")) ==
          "The use of KB-0001 was not paused, so this entry changes nothing.");
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook,
                                entryOf("use_pause", {{"reason", "Scan"}})));
    CHECK(warnings(entryOf("use_pause", {{"reason", "Scan"}})) ==
          "The use of KB-0001 was paused already, so this entry changes nothing.");
}
