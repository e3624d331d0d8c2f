// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Downtime forms: what is on one, and that every line can be printed.
#include "report/downtime_forms.h"
#include "report/small_log.h"
#include "words/approved.h"

#include <sstream>

namespace {

std::string formsText(const std::vector<std::string>& numbers, std::size_t width) {
    const sample::Scene scene(sample::smallLog(), "13 08:00");
    const auto board = report::makeBoard(scene.state, report::lookupIn(scene.log),
                                         {scene.asked, std::nullopt}, sample::provenance(scene));
    return report::toText(report::DowntimeForms{board, numbers}, *words::Words::builtIn(),
                          {.width = width});
}

std::vector<std::string> pages(const std::string& text) {
    std::istringstream stream(text);
    std::vector<std::string> found;
    for (std::string page; std::getline(stream, page, '\f');) found.push_back(page);
    return found;
}

}  // namespace

TEST_CASE("a downtime form is the approved one", "[golden]") {
    support::requireApproved("tests/report/approved/downtime_form.txt",
                             pages(formsText({"icu-1-F7"}, 90)).at(1));
}

TEST_CASE("the board comes first, then each form with its number", "[unit]") {
    const auto found = pages(formsText({"icu-1-F7", "icu-1-F8"}, 90));
    REQUIRE(found.size() == 3);
    CHECK(found[0].find("KB-0142") != std::string::npos);
    CHECK(found[1].find("icu-1-F7") != std::string::npos);
    CHECK(found[1].find("icu-1-F8") == std::string::npos);
    CHECK(found[2].find("icu-1-F8") != std::string::npos);
}

TEST_CASE("no line of a form is wider than the paper", "[unit]") {
    for (const std::size_t width : {60, 72, 90}) {
        CAPTURE(width);
        std::istringstream stream(pages(formsText({"icu-1-F7"}, width)).at(1));
        for (std::string line; std::getline(stream, line);) {
            CAPTURE(line);
            CHECK(line.size() <= width);
        }
    }
}
