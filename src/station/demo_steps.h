// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The lines a scenario's sessions consist of: "fit circuit lot=C-4471 : why". Only how they are
// written; what they do stands in demo_verbs*.cpp, and data/demo/README.md explains it to people.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace station::demo {

struct Step {
    std::string verb;
    std::vector<std::string> words;
    std::map<std::string, std::string, std::less<>> options;
    std::string text;  // what follows " : "

    // "" if there is no such word or option.
    [[nodiscard]] std::string_view word(std::size_t index) const;
    [[nodiscard]] std::string_view option(std::string_view name) const;

    // "check leak": how a mishap names it.
    [[nodiscard]] std::string key() const;
};

using Routine = std::vector<Step>;

// The error is what is wrong with the line, for whoever wrote the scenario.
[[nodiscard]] tl::expected<Step, std::string> parseStep(std::string_view line);

}  // namespace station::demo
