// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Help and the manual page: made from the same data, and the page in docs is the one printed.
#include "cli/help.h"

#include "cli/parser.h"
#include "cli/transcript.h"

#include <catch2/catch.hpp>
#include <set>

using support::Transcript;

TEST_CASE("Help says how each command is called", "[golden]") {
    Transcript transcript;
    transcript.run("help");
    transcript.run("--help");
    transcript.run("--version");
    for (const auto& command : cli::allCommands()) {
        const auto printed =
            transcript.run(std::string(command->description().name) + " --help");
        CHECK(printed.status == 0);
    }
    transcript.check("help");
}

TEST_CASE("The manual page in docs is the one the program prints", "[docs]") {
    Transcript transcript;
    const auto printed = transcript.run("help --man");
    const auto path = std::filesystem::path(AIRMUSTER_SOURCE_DIR) / "docs" / "airmuster-cli.1";
    if (const auto* approve = std::getenv("AIRMUSTER_APPROVE");
        approve != nullptr && std::string_view(approve) == "1") {
        std::ofstream(path, std::ios::binary) << printed.out;
    }
    CHECK(printed.out == support::bytesOf(path));
}

TEST_CASE("Each command has its sentence, and each option is named once", "[docs]") {
    std::set<std::string_view> names;
    for (const auto& command : cli::allCommands()) {
        const auto& description = command->description();
        CAPTURE(std::string(description.name));
        CHECK(names.insert(description.name).second);
        CHECK(description.sentence.ends_with('.'));
        CHECK_FALSE(description.example.empty());
        std::set<std::string_view> options{cli::shared::help.name};
        for (const auto& option : description.options) {
            CAPTURE(std::string(option.name));
            CHECK(option.name.starts_with("--"));
            CHECK(option.sentence.ends_with('.'));
            CHECK(options.insert(option.name).second);
        }
        bool optional = false;
        for (const auto& argument : description.arguments) {
            CHECK((argument.optional || !optional));
            optional = argument.optional;
        }
    }
}

TEST_CASE("Lines of help fit a terminal of 80 columns", "[docs]") {
    for (const auto& command : cli::allCommands()) {
        std::istringstream lines(cli::commandHelp(command->description()));
        for (std::string line; std::getline(lines, line);) {
            CAPTURE(line);
            CHECK((line.size() <= 80 || line.starts_with("  airmuster-cli ")));
        }
    }
}

TEST_CASE("The nearest name is one that is like it", "[unit]") {
    CHECK(cli::nearest("bord", {"board", "backup"}) == "board");
    CHECK(cli::nearest("--jsn", {"--json", "--at"}) == "--json");
    CHECK(cli::nearest("levitate", {"board", "verify"}).empty());
    CHECK(cli::nearest("", {"board"}).empty());
}
