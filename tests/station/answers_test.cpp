// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Questions to the log: for now or for a time, by all that is known or by what was known, and what
// is said where a log cannot be relied on.
#include "station/answers.h"

#include "station/bedside.h"
#include "station/import.h"
#include "station/upkeep.h"
#include "station/ward.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

using support::utc;
using support::Ward;

namespace {

station::Result<station::WholeStanding> standing(Ward& ward, const station::Asked& asked = {}) {
    return station::wholeStanding(ward.surroundings, ward.logbook, asked);
}

// "" if there is an answer.
std::string refusal(Ward& ward, const station::Asked& asked = {}) {
    const auto stands = standing(ward, asked);
    return stands ? "" : stands.error().code;
}

std::string_view verdict(Ward& ward, const station::Asked& asked = {}) {
    const auto stands = standing(ward, asked);
    REQUIRE(stands);
    return name(station::board(ward.surroundings, *stands).rows.at(0).assessment.verdict);
}

}  // namespace

TEST_CASE("The board is for now unless a time is asked", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    REQUIRE(ward.check("KB-0001", "pass"));
    CHECK(verdict(ward) == "ready");
    CHECK(verdict(ward, {utc(2026, 3, 2, 14, 30)}) == "not_ready");
    CHECK(verdict(ward, {utc(2026, 3, 2, 15), utc(2026, 3, 2, 14, 30)}) == "not_ready");
}

TEST_CASE("Entries later than the clock are named, but only for a board of now", "[unit]") {
    Ward ward;
    ward.found();
    ward.clock.moveTo(utc(2026, 3, 2, 16));
    ward.enrol("KB-0001");
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    const auto stands = standing(ward);
    REQUIRE(stands);
    REQUIRE(stands->later.size() == 1);
    CHECK(stands->later.front().name == logbook::RecordName{"icu-1", 3});
    CHECK(stands->later.front().entered == utc(2026, 3, 2, 16));
    // Nor does it tell that the station was heard then.
    REQUIRE(stands->heard.size() == 1);
    CHECK(stands->heard.front().heard <= utc(2026, 3, 2, 15));
    CHECK(standing(ward, {utc(2026, 3, 2, 15)})->later.empty());
}

TEST_CASE("Without an edition there is no board", "[unit]") {
    Ward ward;
    REQUIRE(station::foundStation(ward.surroundings, ward.logbook, "icu-1"));
    CHECK(refusal(ward) == "trouble.no_edition");
    CHECK(standing(ward).error().weight == station::Problem::Weight::Input);
    ward.found();
    CHECK(standing(ward));
    CHECK(refusal(ward, {{}, utc(2026, 3, 1)}) == "trouble.no_edition");
    CHECK(refusal(ward, {utc(2026, 3, 1)}) == "trouble.before_first_edition");
}

TEST_CASE("An edition that is gone is not told as one that was never adopted", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const auto behindTheBack = [&](const std::string& sql) {
        SQLite::Database database(ward.logbook.path.string(), SQLite::OPEN_READWRITE);
        database.exec(sql);
    };
    behindTheBack("DROP TRIGGER records_are_never_deleted; DELETE FROM records");
    const auto codes = [&] {
        const auto entry = ward.check("KB-0001", "pass");
        const auto month = station::readWholeLog(ward.surroundings, ward.logbook);
        return std::vector<std::string>{
            refusal(ward), station::standing(ward.surroundings, ward.logbook, {}).error().code,
            entry.error().code,
            station::requireReadable(ward.surroundings, *month, ward.clock.now(), rules::unlimited)
                .error()
                .code};
    };
    CHECK(codes() == std::vector<std::string>(4, "trouble.edition_gone"));
    CHECK(standing(ward).error().details.front().find("icu-1/1") != std::string::npos);
    REQUIRE(station::verify(ward.surroundings, ward.logbook));
    // What was noted tells it too, where the notes of heads are gone with the records.
    behindTheBack("DELETE FROM local_heads");
    CHECK(codes() == std::vector<std::string>(4, "trouble.edition_gone"));
}

TEST_CASE("A tail that is gone is told before any verify", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    REQUIRE(ward.check("KB-0001", "pass"));
    ward.enrol("KB-0002");
    CHECK(verdict(ward) == "ready");
    SQLite::Database database(ward.logbook.path.string(), SQLite::OPEN_READWRITE);
    database.exec("DROP TRIGGER records_are_never_deleted; DELETE FROM records WHERE seq = 5");
    for (const bool isWhole : {true, false}) {
        const auto provenance =
            isWhole ? station::provenanceOf(ward.surroundings, *standing(ward))
                    : station::provenanceOf(
                          ward.surroundings,
                          *station::standing(ward.surroundings, ward.logbook, {}));
        REQUIRE(provenance.problems.size() == 1);
        CHECK(provenance.problems.front().find("icu-1/5") != std::string::npos);
        CHECK(provenance.devicesInDoubt.contains("KB-0001"));
    }
}

TEST_CASE("A tail that is gone with its note is told by what verify noted", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    REQUIRE(ward.check("KB-0001", "pass"));
    ward.enrol("KB-0002");
    REQUIRE(station::verify(ward.surroundings, ward.logbook)->ok());
    CHECK(verdict(ward) == "ready");
    SQLite::Database database(ward.logbook.path.string(), SQLite::OPEN_READWRITE);
    database.exec("DROP TRIGGER records_are_never_deleted; DELETE FROM records WHERE seq = 5;"
                  "UPDATE local_heads SET seq = 4,"
                  " hash = (SELECT hash FROM records WHERE seq = 4)");
    for (const bool isWhole : {true, false}) {
        const auto provenance =
            isWhole ? station::provenanceOf(ward.surroundings, *standing(ward))
                    : station::provenanceOf(
                          ward.surroundings,
                          *station::standing(ward.surroundings, ward.logbook, {}));
        REQUIRE(provenance.problems.size() == 1);
        CHECK(provenance.problems.front().find("icu-1/5") != std::string::npos);
        CHECK(provenance.devicesInDoubt.contains("KB-0001"));
    }
}

TEST_CASE("What is whole in a damaged file is shown, with every unit in doubt", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    REQUIRE(ward.check("KB-0001", "pass"));
    const auto whole = ward.bytes();
    for (const auto* name : {"records_in_reading_order", "records_that_found", "local_heads",
                             "local_verifications", "sqlite_autoindex_records_1"}) {
        INFO(name);
        ward.folder.write("ward.logbook", whole);
        const auto page = [&] {
            SQLite::Database database(ward.logbook.path.string(), SQLite::OPEN_READONLY);
            SQLite::Statement query(database,
                                    "SELECT rootpage FROM sqlite_schema WHERE name = ?");
            query.bind(1, name);
            REQUIRE(query.executeStep());
            return static_cast<std::size_t>(query.getColumn(0).getInt());
        }();
        auto damaged = whole;
        damaged.replace((page - 1) * 4096, 4096, 4096, '\0');
        ward.folder.write("ward.logbook", damaged);
        const auto asked = station::standing(ward.surroundings, ward.logbook, {});
        REQUIRE(asked);
        CHECK(station::board(ward.surroundings, *asked).rows.at(0).inDoubt);
        CHECK(station::provenanceOf(ward.surroundings, *asked).problems ==
              std::vector{ward.surroundings.words.say("verify.read_round")});
    }
    ward.folder.write("ward.logbook", whole.substr(0, 99));
    CHECK(refusal(ward) != "trouble.damaged");
}

TEST_CASE("A group or unit that is not there is told", "[unit]") {
    Ward ward;
    ward.found();
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    ward.enrol("KB-0001");
    CHECK(refusal(ward, {{}, {}, "pediatric"}) == "trouble.unknown_group");
    const auto stands = standing(ward, {{}, {}, "adult"});
    REQUIRE(stands);
    CHECK(station::explain(ward.surroundings, *stands, "KB-0001"));
    CHECK(station::explain(ward.surroundings, *stands, "KB-0999").error().code ==
          "trouble.unknown_device");
    const auto before = standing(ward, {utc(2026, 3, 2, 14, 30)});
    REQUIRE(before);
    CHECK(station::explain(ward.surroundings, *before, "KB-0001").error().code ==
          "trouble.unknown_device");
}

TEST_CASE("An answer says which stations were heard and what was verified", "[unit]") {
    Ward ward;
    ward.found();
    auto stands = standing(ward);
    REQUIRE(stands);
    auto provenance = station::provenanceOf(ward.surroundings, *stands);
    CHECK_FALSE(provenance.verified);
    CHECK(provenance.problems.empty());
    CHECK(provenance.staleAfter == station::defaultStaleAfter);
    REQUIRE(provenance.heads.size() == 1);
    CHECK(provenance.heads.front().station == "icu-1");
    CHECK(provenance.heads.front().seq == 2);
    CHECK(provenance.heads.front().hash.size() == 64);
    REQUIRE(provenance.stations.size() == 1);
    CHECK(provenance.stations.front().heard == ward.clock.now());

    const auto verified = station::verify(ward.surroundings, ward.logbook);
    REQUIRE(verified);
    CHECK(verified->noted);
    CHECK(verified->report.ok());
    stands = standing(ward);
    provenance = station::provenanceOf(ward.surroundings, *stands);
    REQUIRE(provenance.verified);
    CHECK(provenance.verified->at == ward.clock.now());
    CHECK(provenance.verified->upTo.at("icu-1") == 2);
}

TEST_CASE("Whatever verify found, every unit is in doubt", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.enrol("KB-0002");
    REQUIRE(ward.check("KB-0001", "pass"));
    auto stands = standing(ward);
    REQUIRE(stands);
    using Reason = store::Break::Reason;
    const std::set<std::string> both{"KB-0001", "KB-0002"};
    const auto inDoubt = [&](const std::vector<store::Break>& breaks) {
        stands->facts.verification = store::Verification{utc(2026, 3, 2), false, 5, {}, breaks};
        const auto provenance = station::provenanceOf(ward.surroundings, *stands);
        CHECK(provenance.problems.size() == 1);
        for (const auto& row : station::board(ward.surroundings, *stands).rows) {
            CHECK(row.inDoubt);
            CHECK(name(row.assessment.verdict) == "not_ready");
        }
        // Nor is it told that it will be ready after some steps.
        const auto way = station::wayToReady(ward.surroundings, *stands, "KB-0001");
        REQUIRE(way);
        CHECK_FALSE(way->plan.readyAt);
        CHECK(way->plan.tasks.empty());
        CHECK(way->plan.blockers == std::vector<std::string>{"in_doubt"});
        auto devices = provenance.devicesInDoubt;
        devices.erase("");
        return devices;
    };
    for (const auto reason :
         {Reason::WrongHash, Reason::Column, Reason::NotARecord, Reason::Gap, Reason::NotAsNoted,
          Reason::TailLost, Reason::NotNoted, Reason::Order, Reason::Unreadable}) {
        CHECK(inDoubt({{{"icu-1", 6}, reason}}) == both);
        CHECK(inDoubt({{{"er-2", 1}, reason}}) == both);
    }
    CHECK(inDoubt({{{"", 6}, Reason::Hole}}) == both);
    CHECK(inDoubt({}) == both);  // the file itself
}

TEST_CASE("What is whole is judged, and a record that cannot be read puts all in doubt", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    REQUIRE(ward.check("KB-0001", "pass"));
    CHECK(verdict(ward) == "ready");
    auto stands = standing(ward);
    REQUIRE(stands);
    CHECK(stands->facts.unread.empty());
    stands->facts.unread = {{"icu-1", 9}};
    const auto board = station::board(ward.surroundings, *stands);
    REQUIRE(board.rows.size() == 1);
    CHECK(name(board.rows.front().assessment.verdict) == "not_ready");
    REQUIRE(board.provenance.problems.size() == 1);
    CHECK(board.provenance.problems.front().find("icu-1/9") != std::string::npos);
}

TEST_CASE("A month asked again is the same after later records", "[unit]") {
    using namespace std::chrono;
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const auto textAt = [&](const rules::MonthQuestion& question) {
        const auto log = station::readWholeLog(ward.surroundings, ward.logbook);
        REQUIRE(log);
        const auto report = station::month(ward.surroundings, *log, ward.logbook, question);
        REQUIRE(report);
        return toText(*report, ward.surroundings.words);
    };
    const auto then = ward.clock.now();
    const rules::MonthQuestion question{year{2026} / March, then, then};
    const auto first = textAt(question);
    CHECK(first.find("icu-1: up to entry 3, ") != std::string::npos);
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    REQUIRE(ward.check("KB-0001", "pass"));
    const auto file = ward.folder.write("other.jsonl", support::noteLine("er-2", 1));
    REQUIRE(station::importFiles(ward.surroundings, ward.logbook, {file}, ward.importer()));
    REQUIRE(station::verify(ward.surroundings, ward.logbook));
    CHECK(textAt(question) == first);
    CHECK(textAt({year{2026} / March}) != first);
}

TEST_CASE("A month says what was brought in since the knowledge asked", "[unit]") {
    using namespace std::chrono;
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const auto then = utc(2026, 3, 2, 14, 30);
    const auto textAt = [&] {
        const auto log = station::readWholeLog(ward.surroundings, ward.logbook);
        REQUIRE(log);
        const auto report = station::month(ward.surroundings, *log, ward.logbook,
                                           {year{2026} / March, then, then});
        REQUIRE(report);
        return toText(*report, ward.surroundings.words);
    };
    const auto bring = [&](int first, int until) {
        std::string lines;
        for (int seq = first; seq <= until; ++seq) {
            lines += support::noteLine("er-2", seq);
        }
        const auto file = ward.folder.write("other.jsonl", lines);
        REQUIRE(station::importFiles(ward.surroundings, ward.logbook, {file}, ward.importer()));
    };
    ward.clock.moveTo(utc(2026, 3, 2, 14, 20));
    bring(1, 2);
    CHECK(textAt().find("came in here only later") == std::string::npos);
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    bring(3, 5);
    CHECK(textAt().find("Entries of station er-2 that were written down by then but came in here "
                        "only later: 3.") != std::string::npos);
    SQLite::Database(ward.logbook.path.string(), SQLite::OPEN_READWRITE)
        .exec("DROP TRIGGER records_are_never_deleted;"
              " DELETE FROM records WHERE station = 'er-2' AND seq = 3");
    CHECK(textAt().find("only later: 2.") != std::string::npos);
    CHECK(textAt().find("er-2/3") != std::string::npos);
}

TEST_CASE("A record of the second that the clock tells belongs to now", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    ward.clock.moveTo({utc(2026, 3, 2, 15).ms + 400});
    REQUIRE(ward.check("KB-0001", "pass"));
    ward.clock.moveTo(utc(2026, 3, 2, 15));
    CHECK(verdict(ward) == "ready");
    CHECK(verdict(ward, {utc(2026, 3, 2, 15)}) == "not_ready");
}

TEST_CASE("How long a station may be silent is a setting", "[unit]") {
    Ward ward;
    ward.found();
    {
        auto logbook =
            station::openLogbook(ward.surroundings, ward.logbook, station::Access::Write);
        REQUIRE(logbook);
        REQUIRE(logbook->setSetting("stale_after", "PT4H", {"mt", ward.clock.now()}));
    }
    CHECK(standing(ward)->facts.staleAfter == logbook::Duration{4LL * 3'600'000});
}

TEST_CASE("A month is asked by its name", "[unit]") {
    using namespace std::chrono;
    CHECK(station::parseMonth("2026-03") == year{2026} / March);
    for (const auto* text : {"2026-13", "2026-3", "March", "2026-03-01", ""}) {
        CHECK_FALSE(station::parseMonth(text));
    }
    Ward ward;
    ward.found();
    const auto log = station::readWholeLog(ward.surroundings, ward.logbook);
    REQUIRE(log);
    const auto report =
        station::month(ward.surroundings, *log, ward.logbook, {year{2026} / March});
    REQUIRE(report);
    CHECK(report->answer.from == utc(2026, 3, 1, 6));
}
