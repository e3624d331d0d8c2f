// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Tables for spreadsheets: what RFC 4180 asks for, formulas made harmless, and the board as one.
#include "report/board_csv.h"
#include "report/csv_table.h"
#include "report/small_log.h"
#include "words/approved.h"

namespace {

std::string cellOf(std::string_view text) {
    report::CsvTable table;
    table.text(text);
    return table.bytes();
}

}  // namespace

TEST_CASE("commas, line ends and quotation marks stay inside their cell", "[unit]") {
    // RFC 4180, section 2, rules 6 and 7: the example of a doubled quotation mark.
    report::CsvTable table;
    for (const auto* text : {"aaa", "b\"bb", "ccc"}) table.text(text);
    table.endRow();
    for (const auto* text : {"a,b", "c\r\nd", ""}) table.text(text);
    table.endRow();
    CHECK(table.bytes() == "\"aaa\",\"b\"\"bb\",\"ccc\"\r\n\"a,b\",\"c\r\nd\",\"\"\r\n");
}

TEST_CASE("what a spreadsheet takes for a formula is made harmless", "[reference]") {
    // OWASP, CSV Injection (owasp.org/www-community/attacks/CSV_Injection).
    CHECK(cellOf("=1+2\";=1+2") == "\"'=1+2\"\";=1+2\"");
    // OWASP, Application Security Verification Standard 5.0, 1.2.10: these first letters.
    for (const auto* sign : {"=", "+", "-", "@", "\t"})
        CHECK(cellOf(std::string(sign) + "1") == "\"'" + std::string(sign) + "1\"");
    CHECK(cellOf(std::string("\0", 1)) == std::string("\"'\0\"", 4));
}

TEST_CASE("nothing gets past the apostrophe by a blank, a line end or a wide sign", "[unit]") {
    CHECK(cellOf("  =1") == "\"'  =1\"");
    CHECK(cellOf("\r=1") == "\"'\r=1\"");
    CHECK(cellOf("\n=1") == "\"'\n=1\"");
    CHECK(cellOf("\xEF\xBC\x9D" "1") == "\"'\xEF\xBC\x9D" "1\"");
    CHECK(cellOf("\xEF\xBC\xA0x") == "\"'\xEF\xBC\xA0x\"");
    for (const auto* text : {"ICU 4", "5 = 5", "a-b", " ", "", "KB-0142", "\xEF\xBC\xA1"})
        CHECK(cellOf(text) == "\"" + std::string(text) + "\"");
}

TEST_CASE("a number stays a number, below zero too", "[unit]") {
    report::CsvTable table;
    table.text("drift");
    table.number("-0.3");
    table.number("12");
    table.endRow();
    CHECK(table.bytes() == "\"drift\",-0.3,12\r\n");
}

TEST_CASE("the board as a table is the approved one", "[golden]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    const auto board = report::makeBoard(scene.state, scene.lookup(), {scene.asked, {}},
                                         sample::provenance(scene));
    support::requireApproved("tests/report/approved/board.csv",
                             report::toCsv({board, {}}, *words::Words::builtIn()));
}

TEST_CASE("a place and a model out of a record are no formulas on the board", "[unit]") {
    sample::Story story;
    story.unit("=KB-1").tell("10 07:00", "enrol",
                             R"({"model":"@Larch","groups":["adult"],"features":[],)"
                             R"("commissioned":"2026-11-09","location":"+ICU \"4\""})");
    const sample::Scene scene(story, "10 12:10");
    const auto board =
        report::makeBoard(scene.state, scene.lookup(), {scene.asked, {}}, report::Provenance{});
    const auto table = report::toCsv({board, {}}, *words::Words::builtIn());
    CHECK(table.find("\r\n\"'=KB-1\",\"\",\"'@Larch\",\"'+ICU \"\"4\"\"\",") != std::string::npos);
}

TEST_CASE("a unit in doubt is not ready in the table", "[unit]") {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    auto provenance = sample::provenance(scene);
    provenance.devicesInDoubt = {"KB-0142"};
    provenance.problems = {"From record icu-1/12 on, the log does not fit its own seal."};
    provenance.staleAfter = logbook::Duration{3'600'000};
    const auto board =
        report::makeBoard(scene.state, scene.lookup(), {scene.asked, {}}, provenance);
    const auto table = report::toCsv({board, {}}, *words::Words::builtIn());
    const auto begin = table.find("\"KB-0142\"");
    REQUIRE(begin != std::string::npos);
    const auto line = table.substr(begin, table.find("\r\n", begin) - begin);
    CHECK(line.find("ATTENTION: From record icu-1/12 on") != std::string::npos);
    CHECK(line.find("Station icu-5 was last heard") == std::string::npos);
    CHECK(line.find("Station icu-2 was last heard") != std::string::npos);
    CHECK(line.find("\"not known\",\"\",\"\",,\"the log is in doubt") != std::string::npos);
}
