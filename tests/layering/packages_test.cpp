// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// On a clean machine each script installs what it needs: whatever builds asks for packages first,
// for purposes that the list has, and programs that a plain Debian lacks are among them.
#include "layering/source_file.h"

#include <catch2/catch.hpp>
#include <map>
#include <regex>
#include <set>
#include <sstream>

using namespace layering;

namespace {

// The packages of each purpose.
std::map<std::string, std::set<std::string>> packages() {
    std::map<std::string, std::set<std::string>> all;
    for (const SourceFile& file : sourceFiles()) {
        if (file.path != "packaging/packages.txt") continue;
        for (const std::string& line : file.lines) {
            std::istringstream words(line.substr(0, line.find('#')));
            std::string purpose, package;
            if (words >> purpose >> package) all[purpose].insert(package);
        }
    }
    return all;
}

// "install-packages.sh" build test: each line's purposes.
std::vector<std::set<std::string>> purposesAsked(const SourceFile& script) {
    static const std::regex call(R"re(^[^#]*install-packages\.sh"?((?: [a-z]+)+)$)re");
    std::vector<std::set<std::string>> all;
    for (const std::string& line : script.lines) {
        std::smatch found;
        if (!std::regex_search(line, found, call)) continue;
        std::istringstream words(found[1].str());
        std::set<std::string> purposes;
        for (std::string word; words >> word;) purposes.insert(word);
        all.push_back(std::move(purposes));
    }
    return all;
}

// Programs and libraries that are no part of what builds, by how a script or a build calls them,
// and their package.
const std::map<std::string, std::string> calls{{"/usr/bin/time ", "time"},
                                               {"sqlite3 ", "sqlite3"},
                                               {"-DBUILD_TESTING=ON", "catch2"},
                                               {"python3 ", "python3"}};

}  // namespace

TEST_CASE("A script that builds installs what it needs", "[layering]") {
    const auto list = packages();
    int scripts = 0;
    for (const SourceFile& script : sourceFiles()) {
        const bool builds = script.isIn("packaging/") && script.path.ends_with(".sh") &&
                            script.text.find("cmake --build \"$") != std::string::npos;
        if (!builds) continue;
        CAPTURE(script.path);
        ++scripts;
        const auto asked = purposesAsked(script);
        CHECK_FALSE(asked.empty());
        std::set<std::string> installed;
        for (const auto& purposes : asked) {
            CHECK(purposes.contains("build"));
            for (const auto& purpose : purposes) {
                CAPTURE(purpose);
                REQUIRE(list.contains(purpose));
                installed.insert(list.at(purpose).begin(), list.at(purpose).end());
            }
        }
        for (const auto& [call, package] : calls) {
            CAPTURE(package);
            CHECK((script.text.find(call) == std::string::npos || installed.contains(package)));
        }
    }
    CHECK(scripts >= 3);
}
