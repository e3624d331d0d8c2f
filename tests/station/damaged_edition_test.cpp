// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The text of an edition is the longest in a small file, and where damage most likely falls: it is
// told as damage, and not as somebody's slip.
#include "station/answers.h"
#include "station/confirmation.h"
#include "station/damaged_ward.h"
#include "station/lost_records.h"
#include "station/standing.h"

#include <algorithm>
#include <string>

using namespace support;

namespace {

// In the file, wherever it stands.
void alter(Ward& ward, std::string_view from, std::string_view to) {
    auto bytes = ward.bytes();
    auto place = bytes.find(from);
    REQUIRE(place != std::string::npos);
    for (; place != std::string::npos; place = bytes.find(from, place + 1)) {
        bytes.replace(place, from.size(), to);
    }
    ward.folder.write("ward.logbook", bytes);
}

station::Entry adoptionBy(const station::Writer& who, const std::string& edition,
                          std::string_view zone) {
    std::string text(Ward::policy);
    text.replace(text.find("edition = \"1\""), 13, "edition = \"" + edition + "\"");
    text.replace(text.find("America/Chicago"), 15, zone);
    return {who, "adopt", "", {{"edition", edition}, {"text", text}}};
}

void readyWard(Ward& ward) {
    ward.found();
    ward.enrol("KB-0001");
    REQUIRE(ward.check("KB-0001", "pass"));
}

}  // namespace

TEST_CASE("A byte changed in the only edition is told as damage, and nobody adopts another",
          "[fault]") {
    Ward ward;
    readyWard(ward);
    alter(ward, "America/Chicago", "Amdrica/Chicago");
    const auto asked = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE_FALSE(asked);
    CHECK(asked.error().code == "trouble.chain_broken");
    const auto bytes = ward.bytes();
    CHECK(codeOf(ward, adoptionBy("zz", "2", "Europe/Berlin")) == "trouble.chain_broken");
    CHECK(codeOf(ward, adoptionBy("mt", "2", "Europe/Berlin")) == "trouble.chain_broken");
    CHECK((ward.bytes() == bytes));
    CHECK(codeOf(ward, {"mt", "use_start", "KB-0001"}) == "");
    CHECK_FALSE(station::standing(ward.surroundings, ward.logbook, {}));
}

TEST_CASE("A byte changed in the edition in force leaves the board in doubt, not away", "[fault]") {
    Ward ward;
    readyWard(ward);
    ward.clock.advance(logbook::Duration{60'000});
    REQUIRE(codeOf(ward, adoptionBy(ward.as("mt"), "2", "Europe/Berlin")) == "");
    ward.clock.advance(logbook::Duration{60'000});
    const auto before = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(before);
    CHECK(station::provenanceOf(ward.surroundings, *before).problems.empty());
    alter(ward, "Europe/Berlin", "Europa/Berlin");
    const auto standing = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(standing);
    REQUIRE(standing->facts.unread.size() == 1);
    const auto whole = station::wholeStanding(ward.surroundings, ward.logbook, {});
    REQUIRE(whole);
    CHECK(whole->facts.unread == standing->facts.unread);
    const auto board = station::board(ward.surroundings, *standing);
    REQUIRE(board.rows.size() == 1);
    CHECK(board.rows[0].inDoubt);
    CHECK(codeOf(ward, {"mt", "use_start", "KB-0001"}) == "");
}

TEST_CASE("A byte changed in a person takes and gives no role in silence", "[fault]") {
    Ward ward;
    readyWard(ward);
    ward.person("rs", "biomed");
    alter(ward, R"("roles":["biomed"])", R"("roles":["biomew"])");
    const auto standing = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(standing);
    CHECK(standing->facts.unread.size() == 1);
}

TEST_CASE("Where an index leads to no edition the log is in doubt, not without one", "[fault]") {
    Ward ward;
    readyWard(ward);
    loseFromIndex(ward.logbook.path, "records_that_found", "kind = 'adopt'");
    const bool isVerified = GENERATE(false, true);
    CAPTURE(isVerified);
    if (isVerified) REQUIRE_FALSE(station::verify(ward.surroundings, ward.logbook)->ok());
    const auto standing = station::standing(ward.surroundings, ward.logbook, {});
    REQUIRE(standing);
    const auto board = station::board(ward.surroundings, *standing);
    REQUIRE(board.rows.size() == 1);
    CHECK(board.rows[0].inDoubt);
    const auto bytes = ward.bytes();
    CHECK(codeOf(ward, adoptionBy("zz", "2", "Europe/Berlin")) ==
          (isVerified ? "trouble.pages_damaged" : "sign_in.unknown"));
    CHECK((ward.bytes() == bytes));
    CHECK(codeOf(ward, {"mt", "use_start", "KB-0001"}) == "");
}

TEST_CASE("What is recorded where no edition can be read is told to be kept on paper too",
          "[fault]") {
    Ward ward;
    readyWard(ward);
    const auto told = [&](const station::Entry& entry) {
        const auto written = station::writeEntry(ward.surroundings, ward.logbook, entry);
        REQUIRE(written);
        std::string all;
        for (const auto& warning : written->warnings) all += warning + "\n";
        return all;
    };
    const station::Entry start{"mt", "use_start", "KB-0001"};
    const auto has = [](const std::string& text, std::string_view part) {
        return text.find(part) != std::string::npos;
    };
    constexpr std::string_view onPaper = "Keep it on paper too, with its time and who did it.";
    SECTION("of a whole file nothing is said of paper") {
        CHECK_FALSE(has(told(start), "paper"));
    }
    SECTION("nor where another edition is whole") {
        ward.clock.advance(logbook::Duration{60'000});
        REQUIRE(codeOf(ward, adoptionBy(ward.as("mt"), "2", "Europe/Berlin")) == "");
        ward.clock.advance(logbook::Duration{60'000});
        alter(ward, "Europe/Berlin", "Europa/Berlin");
        const auto warned = told(start);
        CHECK(has(warned, "The file is damaged."));
        CHECK_FALSE(has(warned, "paper"));
    }
    SECTION("with the one edition gone") {
        alter(ward, "America/Chicago", "Amdrica/Chicago");
        const auto warned = told(start);
        CHECK(has(warned, onPaper));
        CHECK_FALSE(has(warned, "knows nobody"));
        CHECK(has(warned, "Whether the log knows anybody called mt cannot be told"));
        const auto waiting = station::waiting(ward.surroundings, ward.logbook);
        REQUIRE_FALSE(waiting);
        CHECK(waiting.error().code == "confirm.not_told");
        CHECK(waiting.error().weight == station::Problem::Weight::Logbook);
        REQUIRE_FALSE(waiting.error().details.empty());
        CHECK(has(waiting.error().details.back(), "icu-1/5"));
    }
}

TEST_CASE("Nobody is said to be unknown where a person cannot be read", "[fault]") {
    Ward ward;
    readyWard(ward);
    ward.person("rs", "biomed");
    REQUIRE(station::writeEntry(ward.surroundings, ward.logbook, {"rs", "use_start", "KB-0001"})
                ->warnings.empty());
    alter(ward, R"("roles":["biomed"])", R"("roles":["biomew"])");
    const auto written =
        station::writeEntry(ward.surroundings, ward.logbook, {"rs", "use_end", "KB-0001"});
    REQUIRE(written);
    const auto& words = ward.surroundings.words;
    const auto hasBeenTold = [&](std::string_view key) {
        return std::ranges::count(written->warnings, words.say(key, {{"person", "rs"}})) == 1;
    };
    CHECK(hasBeenTold("sign_in.taken_unread"));
    CHECK_FALSE(hasBeenTold("sign_in.taken_unknown"));
}
