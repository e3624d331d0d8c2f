// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the documents list is what the program knows: kinds, findings, commands, the caution; and
// what they link to is there.
#include "cli/commands.h"
#include "docs/page.h"
#include "logbook/kind.h"
#include "rules/assess.h"
#include "rules/fold.h"
#include "station/demo.h"
#include "words/words.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>

namespace {

namespace fs = std::filesystem;
using Names = std::vector<std::string>;

Names sorted(Names names) {
    std::sort(names.begin(), names.end());
    names.erase(std::unique(names.begin(), names.end()), names.end());
    return names;
}

}  // namespace

TEST_CASE("Every page that a page links to is there", "[docs]") {
    const fs::path top = AIRMUSTER_SOURCE_DIR;
    std::size_t links = 0;
    for (const auto& page : docs::allPages()) {
        for (const auto& target : docs::linksIn(docs::textOf(page))) {
            ++links;
            CAPTURE(page, target);
            CHECK(fs::exists((top / page).parent_path() / target));
        }
    }
    CHECK(links > 40);
}

TEST_CASE("Every page is on the map", "[docs]") {
    const auto map = docs::linksIn(docs::textOf("docs/index.md"));
    for (const auto& page : docs::allPages()) {
        if (page.starts_with("docs/") && page != "docs/index.md") {
            CAPTURE(page);
            CHECK(std::find(map.begin(), map.end(), page.substr(5)) != map.end());
        }
    }
}

TEST_CASE("The page on records names every kind", "[docs]") {
    Names kinds;
    for (int index = 0; index < logbook::kindCount; ++index) {
        kinds.emplace_back(logbook::kindName(static_cast<logbook::Kind>(index)));
    }
    CHECK(sorted(docs::firstCells(docs::textOf("docs/reference/records.md"), "kind")) ==
          sorted(kinds));
}

TEST_CASE("The page on records names every anomaly", "[docs]") {
    Names anomalies;
    for (int index = 0; index <= static_cast<int>(rules::AnomalyCode::WaiverRefused); ++index) {
        anomalies.emplace_back(name(static_cast<rules::AnomalyCode>(index)));
    }
    CHECK(anomalies.size() == 8);
    CHECK(sorted(docs::firstCells(docs::textOf("docs/reference/records.md"), "anomaly")) ==
          sorted(anomalies));
}

TEST_CASE("The page on the rules names every finding", "[docs]") {
    Names findings;
    for (int index = 0; index <= static_cast<int>(rules::FindingCode::WornOut); ++index) {
        findings.emplace_back(name(static_cast<rules::FindingCode>(index)));
    }
    CHECK(sorted(docs::firstCells(docs::textOf("docs/reference/rules.md"), "finding")) ==
          sorted(findings));
}

TEST_CASE("The page on the command line names every command", "[docs]") {
    Names commands;
    for (const auto& command : cli::allCommands()) {
        commands.emplace_back(command->description().name);
    }
    CHECK(sorted(docs::firstCells(docs::textOf("docs/reference/command-line.md"), "command")) ==
          sorted(commands));
}

TEST_CASE("The README names the PINs of the demo's people", "[docs]") {
    const auto text = docs::textOf("README.md");
    std::size_t withPin = 0;
    for (const auto& person : station::kestrelBay().persons) {
        withPin += person.pin.empty() ? 0 : 1;
        CAPTURE(person.key);
        CHECK((person.pin.empty() || text.find("| `" + person.key + "` | " + person.name + " | ") !=
                                         std::string::npos));
        CHECK((person.pin.empty() ||
               text.find(" | `" + person.pin + "` |") != std::string::npos));
    }
    CHECK(withPin > 10);
}

TEST_CASE("The caution in the README is the one the program says", "[docs]") {
    const auto* words = words::Words::builtIn();
    REQUIRE(words != nullptr);
    CHECK(docs::textOf("README.md").find("\n\n\"" + words->say("caution.full") + "\"\n\n") !=
          std::string::npos);
}

TEST_CASE("The first section of each release is about data safety", "[docs]") {
    const auto text = docs::textOf("docs/changelog.md");
    int releases = 0;
    for (auto place = text.find("\n## "); place != std::string::npos;
         place = text.find("\n## ", place + 1)) {
        ++releases;
        const auto section = text.find("\n### ", place);
        REQUIRE(section != std::string::npos);
        CHECK(text.substr(section + 5, 11) == "Data safety");
    }
    CHECK(releases >= 1);
}
