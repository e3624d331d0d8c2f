// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The board: what its text and its JSON say of a small department.
#include "report/board_places.h"
#include "report/small_log.h"
#include "words/approved.h"
#include "words/shown.h"

#include <sstream>

namespace {

const words::Words& english() {
    return *words::Words::builtIn();
}

report::Board boardOf(const sample::Scene& scene, report::Provenance provenance,
                      const std::optional<std::string>& group = {}) {
    return report::makeBoard(scene.state, scene.lookup(), {scene.asked, group},
                             std::move(provenance));
}

const logbook::json::Value& member(const logbook::json::Value& value, const std::string& name) {
    const auto* found = value.find(name);
    REQUIRE(found);
    return *found;
}

void requireFits(const std::string& text, std::size_t width) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        INFO(line);
        CHECK(words::columns(line) <= width);
    }
}

}  // namespace

TEST_CASE("the board as text is the approved one", "[golden]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    const auto text = report::toText(boardOf(scene, sample::provenance(scene)), english());
    requireFits(text, 100);
    support::requireApproved("tests/report/approved/board.txt", text);
}

TEST_CASE("a narrow board still fits and cuts nothing off", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    const auto board = boardOf(scene, sample::provenance(scene));
    for (const std::size_t width : {60U, 72U, 80U, 140U}) {
        const auto text = report::toText(board, english(), {width});
        requireFits(text, width);
        for (const auto* serial : {"KB-0142", "KB-0150", "KB-0160", "KB-0170", "KB-0180"})
            CHECK(text.find(serial) != std::string::npos);
    }
}

TEST_CASE("the board as JSON has every member, by serial", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    const auto json = report::toJson(boardOf(scene, sample::provenance(scene)));
    REQUIRE(json.array());
    REQUIRE(json.array()->size() == 5);
    const std::vector<std::string> verdicts{"ready", "not_ready", "withdrawn", "retired", "in_use"};
    for (std::size_t i = 0; i < verdicts.size(); ++i)
        CHECK(member((*json.array())[i], "verdict") == logbook::json::Value(verdicts[i]));
    CHECK(logbook::json::canonical((*json.array())[3]) ==
          R"({"checks":{},"device":"KB-0170","findings":[],"group":null,"in_use":false,)"
          R"("last":{"at":"2026-11-11T15:00:00Z","record":"icu-4/15"},"paused":false,)"
          R"("ready_until":null,"verdict":"retired"})");
    const auto& first = (*json.array())[0];
    CHECK(logbook::json::canonical(member(first, "checks")) ==
          R"({"alarm_test":"current","battery":"current","bedside":"current","leak":"current",)"
          R"("oxygen_cal":"current"})");
    CHECK(member(first, "ready_until") == logbook::json::Value("2026-11-14T11:30:00Z"));
    CHECK(first.find("in_doubt") == nullptr);
}

TEST_CASE("a finding as JSON tells blocking, record, wait and the attempt", "[unit]") {
    sample::Story story;
    story.ready().fit("10 12:00", "oxygen_sensor", R"("serial":"O2-9")");
    story.tell("10 12:05", "check", R"({"check":"oxygen_cal","outcome":"pass"})");
    story.tell("10 12:06", "group", R"({"group":"pediatric"})");
    const sample::Scene scene(story, "10 12:10");
    const auto json = report::toJson(boardOf(scene, {}));
    const auto& findings = member((*json.array())[0], "findings");
    CHECK(logbook::json::canonical(findings) ==
          R"([{"blocking":true,"discounted":{"reasons":["too_early"],"record":"icu-1/20"},)"
          R"("finding":"due","not_before":"2026-11-10T18:30:00Z","reason":null,)"
          R"("record":"icu-1/19","since":"2026-11-10T18:00:00Z","subject":"oxygen_cal",)"
          R"("waived_until":null}])");
}

TEST_CASE("a check only wanted at the bedside is told as such", "[unit]") {
    sample::Story story;
    story.unit("KB-1").tell("10 07:00", "enrol",
                            R"({"model":"Larch 3","groups":["adult"],"features":[],)"
                            R"("commissioned":"2026-11-09"})");
    const sample::Scene scene(story, "10 12:10");
    const auto text = logbook::json::canonical(report::toJson(boardOf(scene, {})));
    CHECK(text.find(R"("blocking":"start","discounted":null,"finding":"due")") !=
          std::string::npos);
    CHECK(text.find(R"("blocking":false,"discounted":null,"finding":"due")") != std::string::npos);
}

TEST_CASE("what stands against a unit in use is named, the gravest first", "[unit]") {
    sample::Story story;
    story.ready().fit("10 09:00", "expiratory_filter", R"("expires":"2026-11-10")");
    story.tell("10 12:00", "use_start", R"({"location":"ICU 2"})");
    const auto lineAt = [&](const std::string& time) {
        const sample::Scene scene(story, time);
        return report::boardLines(boardOf(scene, {}), english()).front();
    };
    CHECK(lineAt("10 13:00").missing.empty());
    CHECK(lineAt("10 13:00").againstUse.empty());
    CHECK(lineAt("11 09:00").missing ==
          "expiratory filter expired; oxygen sensor calibration out of date");
    CHECK(lineAt("11 09:00").againstUse == "expiratory filter expired");
    story.tell("11 09:00", "notice",
               R"({"key":"fa_1","title":"Leaks","action":"stop_use","match":{"lots":["4471"]}})",
               "");
    const auto called = lineAt("11 10:00");
    CHECK(called.verdict == "in use");
    CHECK(called.missing ==
          "breathing circuit under stop-use notice: Leaks; expiratory filter expired; oxygen "
          "sensor calibration out of date");
    CHECK(called.againstUse ==
          "breathing circuit under stop-use notice: Leaks; expiratory filter expired");
    const sample::Scene scene(story, "11 10:00");
    CHECK(report::toText(boardOf(scene, {}), english(), {140})
              .find("breathing circuit under stop-use notice: Leaks") != std::string::npos);
    // Out of service while it is on a patient: what is wrong is told besides.
    story.tell("11 11:00", "withdraw", R"({"hold":"repair","reason":"noise"})");
    CHECK(lineAt("11 12:00").verdict == "out of service, in use");
    const sample::Scene withdrawn(story, "11 12:00");
    const auto board = report::toText(boardOf(withdrawn, {}), english(), {140});
    CHECK(board.find("in use; repair; ") != std::string::npos);
    // Whoever has a patient on them stands with those in use, and since when.
    const auto inUse = board.find("In use (1)");
    const auto outOfService = board.find("Out of service (1)");
    REQUIRE(inUse != std::string::npos);
    REQUIRE(inUse < outOfService);
    const auto section = board.substr(inUse, outOfService - inUse);
    CHECK(section.find("out of service; repair; ") != std::string::npos);
    CHECK(section.find("10 Nov 12:00") != std::string::npos);
    CHECK(board.find("10 Nov 12:00", outOfService) == std::string::npos);
    CHECK(lineAt("11 12:00").againstUse ==
          "repair; breathing circuit under stop-use notice: Leaks; expiratory filter expired");
    story.tell("11 13:00", "use_end");
    CHECK(lineAt("11 14:00").missing == "repair");
    CHECK(lineAt("11 14:00").againstUse.empty());
}

TEST_CASE("the place before a use that began nowhere is told as the last", "[unit]") {
    sample::Story story;
    story.ready().tell("10 12:00", "use_start", R"({"emergency":true})");
    const sample::Scene scene(story, "10 13:00");
    const auto board = boardOf(scene, {});
    CHECK(report::boardLines(board, english()).front().place == "ICU");
    const report::PlacesUnsaid unsaid{{"KB-0142", sample::local("10 12:00")}};
    const report::PlacedBoard placed{board, unsaid};
    CHECK(report::boardLines(placed, english()).front().place == "place not said (last: ICU)");
    CHECK(report::toText(placed, english(), {140}).find("place not said (last: ICU)") !=
          std::string::npos);
}

TEST_CASE("a unit whose records are in doubt is never shown as ready", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    auto provenance = sample::provenance(scene);
    provenance.problems = {"From record icu-1/12 on, the log does not fit its own seal."};
    provenance.devicesInDoubt = {"KB-0142", "KB-0170", "KB-0180"};
    const auto board = boardOf(scene, provenance);
    const auto json = report::toJson(board);
    const auto& first = (*json.array())[0];
    CHECK(member(first, "verdict") == logbook::json::Value("not_ready"));
    CHECK(member(first, "ready_until").isNull());
    CHECK(member(first, "in_doubt") == logbook::json::Value(true));
    CHECK(member((*json.array())[4], "verdict") == logbook::json::Value("in_use"));
    const auto text = report::toText(board, english());
    CHECK(text.find("\nReady (") == std::string::npos);
    CHECK(text.find("Not known (1)") != std::string::npos);
    CHECK(text.find("ATTENTION: From record icu-1/12 on") < text.find("Policy edition"));
    CHECK(text.find("Adult              0 ready, 2 wanted, 2 short") != std::string::npos);
}

TEST_CASE("a station not heard for long is named across the head", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "14 08:00");
    auto provenance = sample::provenance(scene);
    provenance.stations = {{"icu-1", sample::local("14 07:50")},
                           {"nicu-2", sample::local("13 18:05")},
                           {"er-1", std::nullopt}};
    const auto text = report::toText(boardOf(scene, provenance), english());
    CHECK(text.find("ATTENTION: Station nicu-2 was last heard at 18:05 yesterday. Entries made ") !=
          std::string::npos);
    CHECK(text.find("Station icu-1 was last heard") == std::string::npos);
    CHECK(text.find("Station er-1: no entries.") != std::string::npos);
    provenance.staleAfter = {14 * 3'600'000LL};
    CHECK(report::toText(boardOf(scene, provenance), english()).find("ATTENTION") ==
          std::string::npos);
}

TEST_CASE("a board says as known when, for which group, and if never verified", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    report::Provenance provenance;
    provenance.knownAt = sample::local("13 07:00");
    const auto board = boardOf(scene, provenance, "neonatal");
    const auto text = report::toText(board, english());
    CHECK(text.find("As known at 13 Nov 2026 07:00 CST (UTC-06:00, 2026-11-13T13:00:00Z)") !=
          std::string::npos);
    CHECK(text.find("Asked for: Neonatal.") != std::string::npos);
    CHECK(text.find("The entries have not been verified yet.") != std::string::npos);
    REQUIRE(board.groups.size() == 1);
    CHECK(board.groups[0].group == "neonatal");
    for (const auto& row : board.rows)
        CHECK((row.assessment.group == "neonatal" ||
               row.assessment.verdict == rules::Verdict::Retired));
}

TEST_CASE("a board without units says so and ends with the caution", "[unit]") {
    const sample::Scene scene(sample::Story(), "13 08:00");
    const auto text = report::toText(boardOf(scene, {}), english());
    CHECK(text.find("No unit is enrolled.") != std::string::npos);
    CHECK(text.find("Never delay ventilating a patient") != std::string::npos);
    CHECK(logbook::json::canonical(report::toJson(boardOf(scene, {}))) == "[]");
}

TEST_CASE("stations are heard until their latest known entry", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    const auto all = report::stationsHeard(scene.log, rules::unlimited);
    REQUIRE(all.size() == 6);
    CHECK(all[4].station == "icu-5");
    CHECK(all[4].heard == sample::local("13 07:00"));
    CHECK(all[5].heard == sample::local("13 05:55"));
    const auto known = report::stationsHeard(scene.log, sample::local("13 06:30"));
    CHECK(known[4].heard == sample::local("13 06:00"));
    CHECK(report::stationsHeard(scene.log, sample::local("10 07:15")).size() == 4);
}
