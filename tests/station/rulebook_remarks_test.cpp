// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What there is to think about in a rulebook, for whoever chooses one: by label, and where it is.
#include "station/rulebook_remarks.h"

#include "station/system.h"

#include <catch2/catch.hpp>

TEST_CASE("a remark says what it is about and where it stands", "[unit]") {
    const std::string text =
        "format = 1\ntitle = \"Ward\"\nedition = \"1\"\ntime_zone = \"UTC\"\n"
        "[groups.adult]\n"
        "[checks.leak]\nlabel = \"Leak test\"\ntakes = \"PT2M\"\nvalid_for = \"P31D\"\n";
    const auto zones = station::system::systemZones();
    const auto reading = rules::readRulebook(text, zones);
    REQUIRE(reading.rulebook != nullptr);
    const auto lines = station::remarksInWords(*words::Words::builtIn(), *reading.rulebook,
                                               reading.warnings);
    REQUIRE(lines.size() == reading.warnings.size());
    bool isPlaced = false;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        INFO(lines[i]);
        const auto line = reading.warnings[i].line;
        CHECK((line == 0 || lines[i].find("(Line " + std::to_string(line)) != std::string::npos));
        isPlaced = isPlaced || lines[i].starts_with("Leak test: ");
        CHECK(lines[i].find('_') == std::string::npos);
    }
    CHECK(isPlaced);
    CHECK(lines[0].find("Line 0") == std::string::npos);
}
