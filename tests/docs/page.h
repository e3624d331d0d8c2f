// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The project's documents as the tests see them: their text, the commands in their `sh` blocks and
// where they link to. Runs nothing.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace docs {

// A command as a reader types it, with the exit status that the page says it has.
struct Shown {
    std::string command;
    int line = 0;
    int exitStatus = 0;  // of a comment "# exit status N" right before it; else 0
    std::string newPin;  // of a comment "# PIN 731905" right before it: the one to be set
};

// `path` is relative to the project's folder. The text is empty if there is no such file.
[[nodiscard]] std::string textOf(const std::string& path);

// The commands in the page's ```sh blocks. A line that ends with a backslash goes on in the next.
[[nodiscard]] std::vector<Shown> commandsIn(std::string_view text);

// Names and PINs in the page's table of people, "| Mara Toller | `731905` |".
[[nodiscard]] std::map<std::string, std::string> pinsIn(const std::string& text);

// Where the page's links go to, without web addresses and without what follows a `#`.
[[nodiscard]] std::vector<std::string> linksIn(const std::string& text);

// All pages: README.md, DEVELOPERS.md and every .md in docs and data, relative to the project.
[[nodiscard]] std::vector<std::string> allPages();

// The first cell of each row of every table that has this title in its first column, as the words
// in backticks there.
[[nodiscard]] std::vector<std::string> firstCells(const std::string& text, std::string_view title);

}  // namespace docs
