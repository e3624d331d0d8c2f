// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A logbook's file that somebody has given a second name: it is told, what can wait is refused, and
// what must not wait is recorded and goes on paper too.
#include "station/damaged_ward.h"

#include <filesystem>

using namespace support;
using Catch::Contains;

namespace {

constexpr std::string_view second = "desk.logbook";

void giveSecondName(const Ward& ward) {
    std::filesystem::create_hard_link(ward.logbook.path, ward.folder.file(second));
}

station::Entry noteBy(station::Writer writer) {
    return {std::move(writer), "note", "KB-0001", {{"text", "Seen"}}};
}

}  // namespace

TEST_CASE("In a file with two names a start is recorded, and nothing that waits", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    giveSecondName(ward);
    // Nobody is asked for a PIN in vain.
    station::Writer writer("mt");
    writer.ask = [](const std::string&) {
        FAIL("asked");
        return std::nullopt;
    };
    const auto bytes = ward.bytes();
    CHECK(codeOf(ward, noteBy(writer)) == "trouble.two_names");
    CHECK(codeOf(ward, noteBy(ward.as("mt"))) == "trouble.two_names");
    CHECK(ward.bytes() == bytes);
    for (const auto name : {std::string_view("ward.logbook"), second}) {
        const station::LogbookFile file{ward.folder.file(name)};
        const auto started =
            station::writeEntry(ward.surroundings, file, {"mt", "use_start", "KB-0001"});
        INFO((started ? "" : started.error().notice.text()));
        REQUIRE(started);
        REQUIRE_FALSE(started->warnings.empty());
        CHECK_THAT(started->warnings.back(),
                   Contains("has a second name") && Contains("on paper too"));
        const auto ended =
            station::writeEntry(ward.surroundings, file, {"mt", "use_end", "KB-0001"});
        CHECK(ended);
    }
    std::filesystem::remove(ward.folder.file(second));
    CHECK(codeOf(ward, noteBy(ward.as("mt"))) == "");
}

TEST_CASE("A second name that a file gets while a PIN is asked for is told", "[unit]") {
    Ward ward;
    ward.found();
    ward.enrol("KB-0001");
    int asked = 0;
    station::Writer writer("mt");
    writer.ask = [&](const std::string&) {
        ++asked;
        giveSecondName(ward);
        return std::optional(secretOf(testPin));
    };
    CHECK(codeOf(ward, noteBy(writer)) == "trouble.two_names");
    CHECK(asked == 1);
}

TEST_CASE("Verify tells of a second name and notes nothing", "[unit]") {
    Ward ward;
    ward.found();
    giveSecondName(ward);
    const auto& words = ward.surroundings.words;
    const auto found = station::verify(ward.surroundings, ward.logbook);
    REQUIRE(found);
    CHECK(found->report.ok());
    CHECK_FALSE(found->noted);
    const auto told = station::twoNamesTold(words, *found);
    REQUIRE(told);
    CHECK_THAT(*told, Contains("has a second name"));
    CHECK(station::findingsOf(words, *found, station::ToldBy::Window) ==
          std::vector<std::string>{*told});
    std::filesystem::remove(ward.folder.file(second));
    const auto again = station::verify(ward.surroundings, ward.logbook);
    REQUIRE(again);
    CHECK(again->noted);
    CHECK_FALSE(station::twoNamesTold(words, *again));
}
