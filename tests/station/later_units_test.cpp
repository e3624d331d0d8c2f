// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Units of which there are entries that the clock of this computer has not come to yet.
#include "station/later_units.h"

#include "station/answers.h"
#include "station/bedside.h"
#include "station/signed_act.h"
#include "station/ward.h"

#include <catch2/catch.hpp>
#include <set>
#include <string>

using support::Ward;

namespace {

// As a station writes them whose clock is an hour ahead.
void writeAhead(Ward& ward, const std::vector<logbook::json::Object>& ofRecords) {
    const auto at = toText(ward.clock.now() + logbook::Duration{3'600'000});
    std::vector<logbook::Record> records;
    for (auto record : ofRecords) {
        record.emplace_back("station", "er-2");
        record.emplace_back("seq", static_cast<int>(records.size()) + 1);
        record.emplace_back("at", at);
        record.emplace_back("entered", at);
        records.push_back(*logbook::readRecord(record));
    }
    auto file = station::openLogbook(ward.surroundings, ward.logbook, station::Access::Write);
    REQUIRE(file);
    REQUIRE(file->append(records, {"mt", ward.clock.now()}));
}

// The log does not know bk.
logbook::json::Object on(std::string_view device, std::string_view kind,
                         logbook::json::Object body, std::string_view by = "bk") {
    return {{"by", by}, {"device", device}, {"kind", kind}, {"body", std::move(body)}};
}

// By the whole log and by what is folded as it is read, which must agree.
std::set<std::string> inDoubt(const Ward& ward) {
    const auto stands = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(stands);
    const auto whole = station::wholeStanding(ward.surroundings, ward.logbook, {});
    REQUIRE(whole);
    CHECK(station::unitsWithLater(*stands) == station::unitsWithLater(*whole));
    CHECK(stands->later.size() == whole->later.size());
    return station::unitsWithLater(*stands);
}

}  // namespace

TEST_CASE("Looked at now, later entries put their units in doubt", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.enrol("KB-0002");
    REQUIRE(ward.check("KB-0001", "pass"));
    REQUIRE(ward.check("KB-0002", "pass"));
    const auto before = ward.clock.now();
    ward.clock.advance(logbook::Duration{3'600'000});
    ward.enrol("KB-0003");
    REQUIRE(ward.check("KB-0001", "fail"));
    ward.clock.moveTo(before);
    const auto stands = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(stands);
    CHECK(stands->later.size() == 2);
    // The one with the later failure is not told as ready, and why; the other is.
    const auto board = station::board(ward.surroundings, *stands);
    REQUIRE(board.rows.size() == 2);
    CHECK(board.groups.at(0).ready == 1);
    CHECK(board.rows[0].inDoubt);
    CHECK(board.rows[0].assessment.verdict == rules::Verdict::NotReady);
    CHECK(report::boardLines(board, ward.surroundings.words)[0].missing.starts_with(
        "entries later than this computer's clock"));
    CHECK_FALSE(board.rows[1].inDoubt);
    CHECK(board.rows[1].assessment.verdict == rules::Verdict::Ready);
    const auto whole = station::wholeStanding(ward.surroundings, ward.logbook, {});
    REQUIRE(whole);
    const auto unit = station::bedside(ward.surroundings, *whole, "KB-0001");
    REQUIRE(unit);
    CHECK(unit->identity.inDoubt);
    CHECK(unit->identity.verdictWord == "not known");
    // So do all other answers about now.
    const auto explained = station::explain(ward.surroundings, *whole, "KB-0001");
    REQUIRE(explained);
    CHECK(explained->row().assessment.verdict == rules::Verdict::NotReady);
    const auto told = toText(*explained, ward.surroundings.words);
    CHECK(told.find("This unit has entries with a later time") != std::string::npos);
    const auto way = station::wayToReady(ward.surroundings, *stands, "KB-0001");
    REQUIRE(way);
    CHECK(way->plan.blockers == std::vector<std::string>{"later_entries"});
    CHECK(station::horizon(ward.surroundings, *stands, logbook::Duration{3'600'000}).inDoubt());
    // A question about an instant is answered by what is known about that instant.
    const auto asked = station::standing(ward.surroundings, ward.logbook, {before});
    REQUIRE(asked);
    for (const auto& row : station::board(ward.surroundings, *asked).rows) {
        CHECK_FALSE(row.inDoubt);
        CHECK(row.assessment.verdict == rules::Verdict::Ready);
    }
}

TEST_CASE("The unit that a later entry took a part from is in doubt too", "[unit]") {
    Ward ward;
    ward.found();
    for (const auto* device : {"KB-0001", "KB-0002", "KB-0003"}) ward.enrol(device);
    const auto fit = [&](const std::string& device) {
        station::Entry entry{ward.as("mt"), "fit", device};
        entry.body = {{"position", "circuit"},
                      {"part", logbook::json::Object{{"model", "Reed"}, {"serial", "R-1"}}}};
        REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, entry));
    };
    fit("KB-0002");
    const auto before = ward.clock.now();
    ward.clock.advance(logbook::Duration{3'600'000});
    fit("KB-0001");
    ward.clock.moveTo(before);
    const auto stands = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(stands);
    CHECK(station::unitsWithLater(*stands) == std::set<std::string>{"KB-0001", "KB-0002"});
}

TEST_CASE("A later entry that was struck through leaves its unit in no doubt", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.enrol("KB-0002");
    REQUIRE(ward.check("KB-0001", "pass"));
    writeAhead(ward, {on("KB-0001", "check", {{"check", "leak"}, {"outcome", "fail"}}),
                      on("KB-0002", "fault", {{"code", "fan"}, {"severity", "blocking"}})});
    REQUIRE(inDoubt(ward) == std::set<std::string>{"KB-0001", "KB-0002"});
    station::Entry strike{ward.as("mt"), "strike", "KB-0001"};
    strike.body = {{"target", "er-2/1"}, {"reason", "Clock an hour ahead"}};
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, strike));
    CHECK(inDoubt(ward) == std::set<std::string>{"KB-0002"});
    const auto stands = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(stands);
    const auto board = station::board(ward.surroundings, *stands);
    REQUIRE(board.rows.size() == 2);
    CHECK(board.rows[0].assessment.verdict == rules::Verdict::Ready);
    CHECK(stands->later.size() == 2);  // it is still named
}

TEST_CASE("A later entry that was struck by one who may not strike it stays in doubt", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.enrol("KB-0002");
    ward.person("bm", "biomed");
    REQUIRE(ward.check("KB-0001", "pass"));
    REQUIRE(ward.check("KB-0002", "pass"));
    // By one who is known and may not, and by one whom the log does not know.
    writeAhead(ward, {on("KB-0001", "check", {{"check", "leak"}, {"outcome", "fail"}}),
                      on("KB-0002", "check", {{"check", "leak"}, {"outcome", "fail"}}),
                      on("KB-0001", "strike", {{"target", "er-2/1"}, {"reason", "Not so"}}, "bm"),
                      on("KB-0002", "strike", {{"target", "er-2/2"}, {"reason", "Not so"}}, "rs")});
    CHECK(inDoubt(ward) == std::set<std::string>{"KB-0001", "KB-0002"});
    const auto stands = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(stands);
    for (const auto& row : station::board(ward.surroundings, *stands).rows) {
        CAPTURE(row.assessment.device);
        CHECK(row.inDoubt);
        CHECK(row.assessment.verdict == rules::Verdict::NotReady);
    }
}

TEST_CASE("Later entries that change no unit leave none in doubt", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    REQUIRE(ward.check("KB-0001", "pass"));
    writeAhead(ward, {on("KB-0001", "note", {{"text", "Seen"}}),
                      on("KB-0001", "strike", {{"target", "icu-1/4"}, {"reason", "By nobody"}})});
    CHECK(inDoubt(ward).empty());
    const auto stands = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(stands);
    CHECK(stands->later.size() == 2);
    CHECK_FALSE(station::horizon(ward.surroundings, *stands, logbook::Duration{3'600'000})
                    .inDoubt());
    const auto board = station::board(ward.surroundings, *stands);
    REQUIRE(board.rows.size() == 1);
    CHECK(board.rows[0].assessment.verdict == rules::Verdict::Ready);
}

TEST_CASE("A later strike has taken effect already", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const auto passed = ward.check("KB-0001", "pass");
    REQUIRE(passed);
    const auto name = toText(passed->record);
    writeAhead(ward, {on("KB-0001", "strike", {{"target", name}, {"reason", "Wrong"}}, "mt")});
    CHECK(inDoubt(ward).empty());
    const auto stands = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(stands);
    const auto board = station::board(ward.surroundings, *stands);
    REQUIRE(board.rows.size() == 1);
    CHECK(board.rows[0].assessment.verdict == rules::Verdict::NotReady);
}

TEST_CASE("A later edition bears on all units, one that nobody may adopt on none", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const bool isAllowed = GENERATE(true, false);
    CAPTURE(isAllowed);
    std::string text(Ward::policy);
    text.replace(text.find("edition = \"1\""), 13, "edition = \"2\"");
    writeAhead(ward, {on("", "adopt", {{"edition", "2"}, {"text", text}},
                         isAllowed ? "mt" : "bk")});
    CHECK(inDoubt(ward) ==
          (isAllowed ? std::set<std::string>{"KB-0001"} : std::set<std::string>{}));
}
