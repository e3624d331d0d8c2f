// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Calls that are taken though they are not typed quite as they should be, looks at a notice before
// it is recorded, and what is told of settings that cannot be read.
#include "cli/calling.h"

#include "station/damaged_ward.h"
#include "station/settings.h"

using namespace support;

TEST_CASE("A start is taken though its words are not typed quite as they should be", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const auto path = ward.logbook.path.string();
    const auto start =
        call(ward, {"log", path, "Use-Start", " KB-0001", "--location", " Room  12 ", "--group",
                    "Adult", "--precautions", "Yes ", "--emergency", "--at", " 14:00 ", "--as",
                    "mt "});
    INFO(start.error);
    CHECK(start.status == 0);
    CHECK_THAT(start.out, Catch::Contains("Recorded"));
}

TEST_CASE("A notice is looked at before it is recorded", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    const auto before = ward.bytes();
    const auto path = ward.logbook.path.string();
    const auto& words = ward.surroundings.words;
    const auto look = [&](const std::string& match) {
        return call(ward, {"log", path, "notice", "--dry", "--key", "fa_1", "--title", "Leaks",
                           "--action", "stop_use", "--json", R"({"match":)" + match + "}", "--as",
                           "mt"});
    };
    const auto unit = look(R"({"devices":["KB-0001"]})");
    CHECK(unit.status == 0);
    CHECK(unit.out == words.say("notice_reach.units", {{"units", "1"}}) + "\n" +
                          words.say("notice_reach.dry") + "\n");
    CHECK(unit.error.empty());
    CHECK(look(R"({"devices":["KB-0002"]})").error == words.say("notice_reach.nothing") + "\n");
    CHECK(call(ward, {"log", path, "note", "KB-0001", "--dry", "--text", "Seen", "--as", "mt"})
              .status == 2);
    CHECK((ward.bytes() == before));
}

TEST_CASE("Settings that cannot be read are not told as not set", "[fault]") {
    Ward ward;
    ward.found();
    REQUIRE(station::changeSettings(ward.surroundings, ward.logbook,
                                    {ward.as("mt"), {{"second-backup", "/media/copy"}}}));
    const auto path = ward.logbook.path.string();
    zeroLeaf(ward, "second_backup");
    using Words = std::vector<std::string>;
    for (const auto& more : {Words{}, Words{"second-backup"}, Words{"--json"}}) {
        Words words{"settings", path};
        words.insert(words.end(), more.begin(), more.end());
        const auto told = call(ward, words);
        CHECK(told.status == 3);
        CHECK(told.out.empty());
        CHECK_THAT(told.error, Catch::Contains("cannot be read"));
    }
}
