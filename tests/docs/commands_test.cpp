// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every command that the tutorial and the guides show is typed as a reader would type it, in
// order, in an empty folder, with a PIN where one is asked for; each guide goes on where the
// tutorial ends, in a copy of what was there then.
#include "docs/page.h"
#include "docs/terminal.h"

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <regex>
#include <unistd.h>

namespace {

namespace fs = std::filesystem;

constexpr auto tutorial = "docs/tutorial/first-night.md";

// A folder of its own, gone at the end.
class Folder {
public:
    Folder() {
        std::string name = (fs::temp_directory_path() / "airmuster-docs-XXXXXX").string();
        REQUIRE(mkdtemp(name.data()) != nullptr);
        m_path = name;
        fs::create_directory(m_path / "bin");
        fs::create_directory(m_path / "empty");
        fs::create_symlink(AIRMUSTER_CLI, m_path / "bin" / "airmuster-cli");
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder() {
        std::error_code ignored;
        fs::remove_all(m_path, ignored);
    }
    [[nodiscard]] const fs::path& path() const { return m_path; }

private:
    fs::path m_path;
};

bool isFamiliar(const std::string& command) {
    static const std::array<std::string, 7> beginnings{
        "airmuster-cli ", "cp ", "mv ", "sed ", "month=$", "now=$", "(umask 077 && printf "};
    return std::any_of(beginnings.begin(), beginnings.end(),
                       [&](const std::string& each) { return command.starts_with(each); });
}

// A script that types the commands and stops, with a word, at the first that ends otherwise than
// the page says.
std::string scriptOf(const std::string& page) {
    std::string script;
    const auto commands = docs::commandsIn(docs::textOf(page));
    REQUIRE(commands.size() > 2);
    for (const auto& shown : commands) {
        CAPTURE(page, shown.line, shown.command);
        REQUIRE(isFamiliar(shown.command));
        const std::string place = page + ":" + std::to_string(shown.line);
        script += "echo '" + place + "'\nstatus=0\n";
        script += shown.newPin.empty() ? "" : "echo 'PIN: " + shown.newPin + "'\n";
        script += shown.command + " || status=$?\n";
        script += "if [ $status != " + std::to_string(shown.exitStatus) + " ]; then\n    echo \"" +
                  place + " ended with exit status $status\"\n    exit 1\nfi\n";
    }
    return script;
}

// What the script tells the typist is not what the program shows.
std::string withoutStatedPins(const std::string& said) {
    return std::regex_replace(said, std::regex("\nPIN: [0-9]+"), "");
}

// Types a page in the folder, where another may have been typed before by that typist; what they
// know then.
docs::Typist type(const Folder& folder, const std::string& page, const docs::Typist& typist) {
    std::ofstream script(folder.path() / "script.sh");
    script << "set -u\ncd '" << (folder.path() / "empty").string() << "'\n"
           << "PATH='" << (folder.path() / "bin").string() << "':$PATH\n"
           << "AIRMUSTER='" << AIRMUSTER_SOURCE_DIR << "'\n"
           << scriptOf(page);
    script.close();
    auto session = docs::typeAtTerminal((folder.path() / "script.sh").string(), typist);
    const auto& said = session.typist.said;
    INFO(said.substr(said.size() > 6000 ? said.size() - 6000 : 0));
    CHECK(session.status == 0);
    for (const auto& [name, pin] : typist.pins) {
        INFO("The PIN of " << name << " stands on the terminal");
        CHECK(withoutStatedPins(said).find(pin) == std::string::npos);
    }
    return std::move(session.typist);
}

std::vector<std::string> guides() {
    std::vector<std::string> pages;
    for (const auto& page : docs::allPages()) {
        if (page.starts_with("docs/guides/")) {
            pages.push_back(page);
        }
    }
    return pages;
}

}  // namespace

TEST_CASE("The first night can be typed as it stands, and every guide after it", "[docs]") {
    const auto pins = docs::pinsIn(docs::textOf(tutorial));
    CHECK(pins.size() == 3);
    const Folder night;
    const auto typist = type(night, tutorial, {pins});
    CHECK(guides().size() >= 6);
    for (const auto& guide : guides()) {
        INFO(guide);
        const Folder copy;
        fs::copy(night.path() / "empty", copy.path() / "empty", fs::copy_options::recursive);
        (void)type(copy, guide, typist);
    }
}
