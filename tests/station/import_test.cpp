// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Imports are all or nothing, and the same again changes nothing; exports are taken back whole.
#include "station/import.h"

#include "station/ward.h"

using support::noteLine;
using support::utc;
using support::Ward;

namespace {

station::Result<station::ImportAnswer> importText(Ward& ward, const std::string& bytes) {
    return station::importFiles(ward.surroundings, ward.logbook,
                                {ward.folder.write("in.jsonl", bytes)}, ward.importer());
}

// Refused with that code; the logbook stays as it was, or is not there if it was not.
void refused(Ward& ward, const std::string& bytes, std::string_view code) {
    const bool isThere = std::filesystem::exists(ward.logbook.path);
    const auto before = isThere ? ward.bytes() : "";
    const auto answer = importText(ward, bytes);
    REQUIRE_FALSE(answer);
    CHECK(answer.error().code == code);
    CHECK(std::filesystem::exists(ward.logbook.path) == isThere);
    if (isThere) {
        CHECK((ward.bytes() == before));
    }
}

std::string adoptLine(std::string_view station, std::string_view edition,
                      std::string_view instant, std::string_view text) {
    const logbook::json::Object record{
        {"station", station}, {"seq", 1},      {"at", instant},  {"entered", instant},
        {"by", "bk"},         {"device", ""},  {"kind", "adopt"},
        {"body", logbook::json::Object{{"edition", edition}, {"text", text}}}};
    return logbook::json::canonical(record) + "\n";
}

}  // namespace

TEST_CASE("An import makes the logbook and tells what it took", "[unit]") {
    Ward ward;
    const auto bytes = noteLine("er-2", 1) + noteLine("er-2", 2);
    const auto answer = importText(ward, bytes);
    REQUIRE(answer);
    CHECK(answer->made);
    CHECK(answer->added == 2);
    CHECK(answer->skipped == 0);
    const auto before = ward.bytes();
    const auto again = importText(ward, bytes);
    REQUIRE(again);
    CHECK_FALSE(again->made);
    CHECK(again->added == 0);
    CHECK(again->skipped == 2);
    const auto exported = station::exportRecords(ward.surroundings, ward.logbook, {});
    REQUIRE(exported);
    CHECK(exported->bytes == bytes);
}

TEST_CASE("It is noted who brought in which file", "[unit]") {
    Ward ward;
    REQUIRE(importText(ward, noteLine("er-2", 1)));
    const auto logbook =
        station::openLogbook(ward.surroundings, ward.logbook, station::Access::Read);
    REQUIRE(logbook);
    const auto imports = logbook->imports();
    REQUIRE(imports);
    REQUIRE(imports->size() == 1);
    CHECK(imports->front() == store::Import{"in.jsonl", "desk", ward.clock.now(), 1, 0});
}

TEST_CASE("What one file lacks may stand in another", "[unit]") {
    Ward ward;
    const auto second = ward.folder.write("second.jsonl", noteLine("er-2", 2));
    const auto first = ward.folder.write("first.jsonl", noteLine("er-2", 1));
    CHECK_FALSE(station::importFiles(ward.surroundings, ward.logbook, {second}));
    const auto answer = station::importFiles(ward.surroundings, ward.logbook, {second, first});
    REQUIRE(answer);
    CHECK(answer->added == 2);
}

TEST_CASE("A refused import changes nothing", "[unit]") {
    for (const bool founded : {false, true}) {
        Ward ward;
        if (founded) {
            ward.found();
        }
        const auto good = noteLine("er-2", 1);
        CAPTURE(founded);
        refused(ward, good + "no record\n", "trouble.bad_records");
        refused(ward, "\xEF\xBB\xBF" + good, "file.byte_order_mark");
        refused(ward, noteLine("er-2", 2), "trouble.gap");
        refused(ward, good + noteLine("er-2", 1, "Heard"), "trouble.fork");
        refused(ward, adoptLine("er-2", "1", "2026-03-05T14:00:00Z", "format = 1"),
                "import.bad_rulebook");
        refused(ward, adoptLine("er-2", "2", "2026-03-05T14:00:00Z", Ward::policy),
                "import.wrong_edition");
    }
}

TEST_CASE("An import may not change which edition came first", "[unit]") {
    Ward ward;
    ward.found();
    refused(ward, adoptLine("er-2", "1", "2026-03-01T14:00:00Z", Ward::policy),
            "trouble.first_changed");
    CHECK(importText(ward, adoptLine("er-2", "1", "2026-03-05T14:00:00Z", Ward::policy)));
}

TEST_CASE("Records under the own name are taken only if they were written here", "[unit]") {
    Ward ward;
    ward.found();
    const auto own = station::exportRecords(ward.surroundings, ward.logbook, {});
    REQUIRE(own);
    const auto again = importText(ward, own->bytes);
    REQUIRE(again);
    CHECK(again->skipped == 2);
    refused(ward, own->bytes + noteLine("icu-1", 3), "import.own_name");
    refused(ward, noteLine("icu-1", 1), "trouble.fork");
}

TEST_CASE("An import takes keys that the edition does not name", "[unit]") {
    Ward ward;
    ward.found();
    const auto line =
        R"({"at":"2026-03-02T14:00:00Z","body":{"check":"leek","outcome":"pass"},"by":"bk",)"
        R"("device":"KB-0001","entered":"2026-03-02T14:00:05Z","kind":"check","seq":1,)"
        R"("station":"er-2"})";
    CHECK(importText(ward, line));
}

TEST_CASE("An export is by station, and since a time without a gap", "[unit]") {
    Ward ward;
    ward.found();
    ward.clock.moveTo(utc(2026, 3, 3, 14));
    ward.enrol("KB-0001");
    ward.clock.moveTo(utc(2026, 3, 1, 14));  // set back: what follows still belongs to it
    ward.enrol("KB-0002");
    REQUIRE(importText(ward, noteLine("er-2", 1)));
    const auto count = [&](const station::ExportSelection& selection) {
        const auto exported = station::exportRecords(ward.surroundings, ward.logbook, selection);
        REQUIRE(exported);
        return exported->count;
    };
    CHECK(count({}) == 5);
    CHECK(count({{"er-2"}, {}}) == 1);
    CHECK(count({{"er-2", "icu-1"}, {}}) == 5);
    CHECK(count({{}, utc(2026, 3, 3)}) == 2);
    CHECK(count({{}, utc(2027, 1, 1)}) == 0);
    CHECK(station::exportRecords(ward.surroundings, ward.logbook, {{"nicu-1"}, {}})
              .error()
              .code == "export.unknown_station");
}

TEST_CASE("A refused call removes nothing that it did not make", "[unit]") {
    Ward ward;
    std::filesystem::create_symlink("nowhere", ward.logbook.path);
    const auto isLink = [&] {
        return std::filesystem::is_symlink(std::filesystem::symlink_status(ward.logbook.path));
    };
    CHECK_FALSE(importText(ward, noteLine("er-2", 1)));
    CHECK(isLink());
    CHECK_FALSE(station::foundStation(ward.surroundings, ward.logbook, "icu-1"));
    CHECK(isLink());

    std::filesystem::remove(ward.logbook.path);
    ward.folder.write("ward.logbook", "Dear Rowan");
    CHECK_FALSE(importText(ward, noteLine("er-2", 1)));
    CHECK_FALSE(station::foundStation(ward.surroundings, ward.logbook, "icu-1"));
    CHECK(ward.bytes() == "Dear Rowan");
}

TEST_CASE("What is wrong is named by file and line, over all files", "[unit]") {
    Ward ward;
    ward.found();
    const auto detailsOf = [&](const std::string& first, const std::string& second) {
        const auto one = ward.folder.write("one.jsonl", first);
        const auto two = ward.folder.write("two.jsonl", second);
        const auto answer = station::importFiles(ward.surroundings, ward.logbook, {one, two},
                                                 ward.importer());
        REQUIRE_FALSE(answer);
        std::vector<std::string> details;
        for (auto detail : answer.error().details) {
            const auto folder = ward.folder.path().string() + "/";
            REQUIRE(detail.starts_with(folder));
            details.push_back(detail.substr(folder.size()));
        }
        return details;
    };
    const auto faults = detailsOf("\nno record\n", noteLine("er-2", 1) + "none\nnone\n");
    REQUIRE(faults.size() == 3);
    CHECK(faults[0].starts_with("one.jsonl: Line 2: "));
    CHECK(faults[1].starts_with("two.jsonl: Line 2: "));
    CHECK(faults[2].starts_with("two.jsonl: Line 3: "));
    std::string many;
    for (int line = 0; line < 70; ++line) {
        many += "none\n";
    }
    const auto one = ward.folder.write("one.jsonl", many);
    const auto two = ward.folder.write("two.jsonl", many);
    CHECK(station::importFiles(ward.surroundings, ward.logbook, {one, two})
              .error()
              .details.size() == 101);
    CHECK(detailsOf(noteLine("er-2", 1), "\n" + noteLine("er-2", 1, "Heard")) ==
          std::vector<std::string>{"one.jsonl, line 1: er-2/1", "two.jsonl, line 2: er-2/1"});
    CHECK(detailsOf(noteLine("er-2", 2) + noteLine("er-2", 3), noteLine("er-2", 5)) ==
          std::vector<std::string>{
              "one.jsonl, line 1: er-2/2 stands there without er-2/1",
              "two.jsonl, line 1: er-2/5 stands there without er-2/4"});
    CHECK(detailsOf(noteLine("er-2", 1), noteLine("icu-1", 3) + noteLine("icu-1", 4)) ==
          std::vector<std::string>{"two.jsonl, line 1: icu-1/3", "two.jsonl, line 2: icu-1/4"});
    CHECK(detailsOf(noteLine("er-3", 1),
                    adoptLine("er-2", "2", "2026-03-05T14:00:00Z", Ward::policy)) ==
          std::vector<std::string>{"two.jsonl, line 1: er-2/1"});
}

TEST_CASE("Files that cannot be read are told apart", "[unit]") {
    Ward ward;
    const auto codeOf = [&](const std::filesystem::path& path) {
        return station::importFiles(ward.surroundings, ward.logbook, {path}).error().code;
    };
    CHECK(codeOf(ward.folder.file("none.jsonl")) == "file.not_found");
    CHECK(codeOf(ward.folder.path()) == "file.not_a_file");
    CHECK(codeOf("/dev/zero") == "file.no_plain_file");
    CHECK_FALSE(std::filesystem::exists(ward.logbook.path));
}

TEST_CASE("What does not fit its seal is named and never handed out", "[unit]") {
    using Names = std::vector<logbook::RecordName>;
    Ward ward;
    const auto first = noteLine("er-2", 1), second = noteLine("er-2", 2, "Broken"),
               after = noteLine("er-2", 3), other = noteLine("icu-2", 1);
    REQUIRE(importText(ward, first + second + after + other)->last ==
            Names{{"er-2", 3}, {"icu-2", 1}});
    const auto whole = ward.bytes();
    const auto place = whole.find("\"text\":\"Broken\"");
    REQUIRE(place != std::string::npos);
    for (const auto& [at, letter] : {std::pair(place, '!'), std::pair(place + 8, 'C')}) {
        auto bytes = whole;
        bytes[at] = letter;  // no JSON any more, or another text
        ward.folder.write("ward.logbook", bytes);
        const auto exported = station::exportRecords(ward.surroundings, ward.logbook, {});
        REQUIRE(exported);
        CHECK(exported->bytes == first + other);
        CHECK(exported->last == Names{{"er-2", 1}, {"icu-2", 1}});
        REQUIRE(exported->breaks.size() == 1);
        CHECK(exported->breaks.front().record == logbook::RecordName{"er-2", 2});
        // It is no matter of another station's entries.
        const auto of = station::exportRecords(ward.surroundings, ward.logbook, {{"icu-2"}, {}});
        REQUIRE(of);
        CHECK(of->bytes == other);
        CHECK(of->breaks.empty());
        CHECK((ward.bytes() == bytes));
    }
    CHECK(importText(ward, "")->last.empty());
}

TEST_CASE("A notice that names what it concerns by something strange is taken in, and told",
          "[unit]") {
    Ward ward;
    ward.found();
    const auto lineOf = [](int seq, logbook::json::Object match) {
        const logbook::json::Object record{
            {"station", "er-2"}, {"seq", seq},      {"at", "2026-03-02T13:00:00Z"},
            {"by", "bk"},        {"device", ""},    {"entered", "2026-03-02T13:00:00Z"},
            {"kind", "notice"},
            {"body", logbook::json::Object{{"key", "fa_1"}, {"title", "Leaks"},
                                           {"action", "stop_use"}, {"match", std::move(match)}}}};
        return logbook::json::canonical(record) + "\n";
    };
    const auto strange = importText(ward, lineOf(1, {{"lotz", logbook::json::Array{"L7"}}}));
    REQUIRE(strange);
    CHECK(strange->added == 1);
    const auto& words = ward.surroundings.words;
    const auto nothing = [&](const char* record) {
        return words.say("notice_reach.imported", {{"key", "fa_1"},
                                                   {"record", record},
                                                   {"told", words.say("notice_reach.nothing")}});
    };
    REQUIRE(strange->remarks.size() == 2);
    CHECK(strange->remarks.front().find("er-2/1 (lotz)") != std::string::npos);
    CHECK(strange->remarks.back() == nothing("er-2/1"));
    const auto plain = importText(ward, lineOf(2, {{"lots", logbook::json::Array{"L7"}}}));
    REQUIRE(plain);
    CHECK(plain->remarks == std::vector<std::string>{nothing("er-2/2")});
    const auto empty = importText(ward, lineOf(3, {{"lots", logbook::json::Array{}}}));
    REQUIRE(empty);
    REQUIRE(empty->remarks.size() == 2);
    CHECK(empty->remarks.front() ==
          words.say("done.match_empty",
                    {{"count", "1"}, {"record", "er-2/3"}, {"fields", "lots"}}));
    // What is here already is not counted again.
    const auto again = importText(ward, lineOf(1, {{"lotz", logbook::json::Array{"L7"}}}));
    REQUIRE(again);
    CHECK(again->skipped == 1);
    CHECK(again->remarks.empty());
}
