// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Holding a logbook against heads that were typed from paper or cut by a mail: what cannot be read
// is never passed over, and what was compared is named.
#include "cli/calling.h"

#include "station/damaged_ward.h"

using namespace support;
using Catch::Contains;

namespace {

constexpr std::string_view leading = "icu-9: up to entry 3, ";
constexpr std::size_t hashFigures = 64;

// Stations icu-1 and icu-9, with the report of the month.
struct Reported {
    Ward ward;
    std::string report;
    std::size_t place = 0;  // of the hash of icu-9 in it

    Reported() {
        ward.found();
        ward.enrol("KB-0001");
        keepNotes(ward, 1, 3);
        const auto month = call(ward, {"month", ward.logbook.path.string(), "2026-03"});
        REQUIRE(month.status == 0);
        report = month.out;
        place = report.find(leading) + leading.size();
        REQUIRE(report.find(leading) != std::string::npos);
        REQUIRE(report.at(place + hashFigures) == '\n');
    }

    [[nodiscard]] std::string hash() const { return report.substr(place, hashFigures); }

    Called verifyWith(const std::string& text, const std::vector<std::string>& more = {}) {
        const auto file = ward.folder.write("heads.txt", text);
        std::vector<std::string> words{"verify", ward.logbook.path.string(), "--heads",
                                       file.string()};
        words.insert(words.end(), more.begin(), more.end());
        return call(ward, words);
    }
};

}  // namespace

TEST_CASE("Which heads a logbook was held against is told", "[unit]") {
    Reported reported;
    const auto whole = reported.verifyWith(reported.report);
    CHECK(whole.status == 0);
    CHECK_THAT(whole.out, Contains("It has the heads in"));
    CHECK_THAT(whole.out, Contains("Heads compared: 2, of icu-1 and icu-9."));
    CHECK_THAT(whole.out, !Contains("No head of"));
    const auto lines = reported.report.substr(0, reported.place - leading.size());
    const auto part = reported.verifyWith(lines);
    CHECK(part.status == 0);
    CHECK_THAT(part.out, Contains("Heads compared: 1, of icu-1."));
    CHECK_THAT(part.out, Contains("No head of icu-9 stands in it"));
    CHECK(reported.verifyWith(whole.out).status == 0);
    CHECK(reported.verifyWith(part.out).status == 0);
    const auto json = reported.verifyWith(reported.report, {"--json"});
    CHECK_THAT(json.out, Contains("\"heads\": 2") && Contains("\"unread\": []"));
    CHECK(reported.verifyWith(json.out).status == 0);
}

TEST_CASE("A head that was typed wrong or cut is told, and the logbook not said to have it",
          "[unit]") {
    Reported reported;
    const auto text = reported.report;
    auto typed = reported.hash();
    typed[5] = 'O';
    std::string seen;
    std::string held;
    SECTION("a letter for a figure") {
        seen = typed;
        held = text.substr(0, reported.place) + typed + text.substr(reported.place + hashFigures);
    }
    SECTION("cut short") {
        seen = reported.hash().substr(0, 20);
        held = text.substr(0, reported.place) + seen + "\n";
    }
    SECTION("cut before it") { held = text.substr(0, reported.place); }
    SECTION("as JSON") {
        seen = "zz";
        held = R"({"icu-9":[3,"zz"],"icu-9":[3,")" + reported.hash() + "\"]}";
    }
    const auto wrong = reported.verifyWith(held);
    CHECK(wrong.status == 1);
    CHECK_THAT(wrong.out, !Contains("It has the heads"));
    CHECK_THAT(wrong.out, Contains("For icu-9/3 stands \"" + seen + "\""));
    CHECK_THAT(wrong.out, Contains("Heads compared: 1, of icu-"));
    const auto json = reported.verifyWith(held, {"--json"});
    CHECK(json.status == 1);
    CHECK_THAT(json.out, Contains("\"ok\": false") && Contains("For icu-9/3 stands"));
    // What was printed about it is meant as no head.
    CHECK(reported.verifyWith(wrong.out).status == 0);
    CHECK(reported.verifyWith(json.out).status == 0);
}

TEST_CASE("Where no head can be read at all it is told what stands there", "[unit]") {
    Reported reported;
    const auto none = reported.verifyWith(std::string(leading) + reported.hash().substr(1));
    CHECK(none.status == 2);
    CHECK_THAT(none.error, Contains("There are no chain heads in"));
    CHECK_THAT(none.error, Contains("For icu-9/3 stands \"" + reported.hash().substr(1) + "\""));
    CHECK_THAT(reported.verifyWith("Dear Rowan").error, !Contains("stands"));
}
