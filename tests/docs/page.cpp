// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reads the documents; see page.h.
#include "docs/page.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <regex>
#include <sstream>

namespace docs {

namespace {

namespace fs = std::filesystem;

void addPages(const fs::path& top, const std::string& folder, std::vector<std::string>& pages) {
    for (const auto& entry : fs::recursive_directory_iterator(top / folder)) {
        if (entry.path().extension() == ".md") {
            pages.push_back(entry.path().lexically_relative(top).generic_string());
        }
    }
}

std::vector<std::string> wordsInBackticks(const std::string& text) {
    static const std::regex ticks("`([^`]+)`");
    std::vector<std::string> words;
    for (std::sregex_iterator match(text.begin(), text.end(), ticks), end; match != end; ++match) {
        words.push_back((*match)[1]);
    }
    return words;
}

}  // namespace

std::string textOf(const std::string& path) {
    std::ifstream file(fs::path(AIRMUSTER_SOURCE_DIR) / path, std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

std::vector<Shown> commandsIn(std::string_view text) {
    static const std::regex status("# exit status ([0-9]+)");
    static const std::regex pin("# PIN ([0-9]+)");
    std::vector<Shown> commands;
    std::istringstream lines{std::string(text)};
    bool inside = false;
    bool goesOn = false;
    int said = 0;
    std::string newPin;
    int number = 0;
    for (std::string line; std::getline(lines, line);) {
        ++number;
        if (line.starts_with("```")) {
            inside = line == "```sh";
            goesOn = false;
            continue;
        }
        if (!inside || line.empty()) {
            continue;
        }
        if (std::smatch match; std::regex_match(line, match, status)) {
            said = std::stoi(match[1]);
            continue;
        }
        if (std::smatch match; std::regex_match(line, match, pin)) {
            newPin = match[1];
            continue;
        }
        const bool more = line.ends_with('\\');
        if (more) {
            line.pop_back();
        }
        if (goesOn) {
            commands.back().command += line;
        } else {
            commands.push_back({line, number, said, newPin});
            said = 0;
            newPin.clear();
        }
        goesOn = more;
    }
    return commands;
}

std::map<std::string, std::string> pinsIn(const std::string& text) {
    static const std::regex row("\\| ([^|`]+) \\| `([0-9]{6,})` \\|");
    std::map<std::string, std::string> pins;
    for (std::sregex_iterator match(text.begin(), text.end(), row), end; match != end; ++match) {
        pins[(*match)[1]] = (*match)[2];
    }
    return pins;
}

std::vector<std::string> linksIn(const std::string& text) {
    static const std::regex link(R"(\]\(([^)#:]+)(#[^)]*)?\))");
    std::vector<std::string> targets;
    for (std::sregex_iterator match(text.begin(), text.end(), link), end; match != end; ++match) {
        targets.push_back((*match)[1]);
    }
    return targets;
}

std::vector<std::string> allPages() {
    const fs::path top = AIRMUSTER_SOURCE_DIR;
    std::vector<std::string> pages{"README.md", "DEVELOPERS.md"};
    addPages(top, "docs", pages);
    addPages(top, "data", pages);
    std::sort(pages.begin(), pages.end());
    return pages;
}

std::vector<std::string> firstCells(const std::string& text, std::string_view title) {
    std::vector<std::string> words;
    std::istringstream lines(text);
    bool inside = false;
    for (std::string line; std::getline(lines, line);) {
        if (!line.starts_with("|")) {
            inside = false;
            continue;
        }
        const std::string cell = line.substr(1, line.find('|', 1) - 1);
        if (cell == " " + std::string(title) + " ") {
            inside = true;
        } else if (inside) {
            const auto found = wordsInBackticks(cell);
            words.insert(words.end(), found.begin(), found.end());
        }
    }
    return words;
}

}  // namespace docs
