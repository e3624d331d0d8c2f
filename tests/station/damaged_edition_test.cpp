// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The text of an edition is the longest in a small file, and where damage most likely falls: it is
// told as damage, and not as somebody's slip.
#include "station/answers.h"
#include "station/damaged_ward.h"
#include "station/lost_records.h"
#include "station/standing.h"

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
