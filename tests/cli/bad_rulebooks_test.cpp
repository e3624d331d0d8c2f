// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Ten rulebooks that would show units as ready that nobody should use, tests/cli/bad_rulebooks,
// each with a slip that its head tells: each is warned of or refused, for that and in words.
#include "cli/transcript.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <vector>

namespace {

namespace fs = std::filesystem;

std::vector<fs::path> badRulebooks() {
    const auto folder = fs::path(AIRMUSTER_SOURCE_DIR) / "tests" / "cli" / "bad_rulebooks";
    std::vector<fs::path> result;
    for (const auto& entry : fs::directory_iterator(folder)) {
        result.push_back(entry.path());
    }
    std::ranges::sort(result);
    return result;
}

std::string textOf(const fs::path& path) {
    std::ostringstream text;
    text << std::ifstream(path).rdbuf();
    return text.str();
}

}  // namespace

TEST_CASE("Ten bad rulebooks are each warned of or refused", "[golden]") {
    const auto paths = badRulebooks();
    REQUIRE(paths.size() == 10);
    support::Transcript transcript;
    for (const auto& path : paths) {
        const auto name = path.filename().string();
        transcript.write(name, textOf(path));
        const auto printed = transcript.run("rulebook check " + name);
        INFO(name);
        CHECK((printed.status == 1 || printed.out.find("Warnings: ") != std::string::npos));
    }
    transcript.check("bad_rulebooks");
}
