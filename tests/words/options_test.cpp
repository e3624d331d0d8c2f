// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The window says most sentences that the command line says, and has no options: what a sentence
// asks to be said is named by its option where the command line prints it.
#include "support/folder.h"

#include <catch2/catch.hpp>
#include <regex>
#include <set>
#include <sstream>
#include <string>

namespace {

// Said by commands alone, each of which is called, or by a logbook that no window opens.
const std::set<std::string> byCommandsOnly{
    "call.bad_body do",          "call.bad_body says",
    "call.one_form says",        "done month_ahead",
    "entry.only_notice do",      "import.nobody do",
    "people.edition_is_there do", "people.no_code do",
    "people.no_edition do",      "people.no_name do",
    "pin.not_given do",          "safeguard.change_not_meant do",
    "safeguard.who_confirms do", "settings.nobody do",
    "sign_in.no_pin_given do",   "snapshots wrong_stays"};

// Those that name an option without the command that takes it.
std::set<std::string> namingOptions(const std::string& language) {
    const std::regex section(R"(^\[(.*)\]$)"), sentence("^(\\w+) = (\".*\")$");
    const std::regex option(R"((^|[^-\w])--[a-z])");
    std::istringstream lines(
        support::bytesOf(AIRMUSTER_SOURCE_DIR "/data/words/" + language + ".toml"));
    std::set<std::string> found;
    std::string inSection;
    std::smatch parts;
    for (std::string line; std::getline(lines, line);) {
        if (std::regex_match(line, parts, section)) {
            inSection = parts[1];
        } else if (std::regex_match(line, parts, sentence)) {
            const auto says = parts[2].str();
            const bool hasCommand = says.find("airmuster-cli") != std::string::npos;
            if (!hasCommand && std::regex_search(says, option))
                found.insert(inSection + " " + parts[1].str());
        }
    }
    return found;
}

}  // namespace

TEST_CASE("no sentence that the window shows names an option of the command line", "[unit]") {
    for (const auto* language : {"en", "es"}) {
        CAPTURE(language);
        for (const auto& found : namingOptions(language)) {
            CAPTURE(found);
            CHECK(byCommandsOnly.contains(found));
        }
    }
}
