// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A conformance case: a log, and questions with the answers expected. Knows the form of the files
// and nothing of the program that is asked.
#pragma once

#include "logbook/json.h"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace conformance {

using logbook::json::Value;

enum class Command { Board, Plan, Month, Rulebook };

[[nodiscard]] std::string_view commandName(Command command);

struct Question {
    Command command{};
    std::string device;  // these are empty where not given
    std::string month;
    std::string at;
    std::string knownAt;
    std::string group;
    std::string text;           // the rulebook asked about
    Value expected;             // null: the call is in error
    std::optional<int> status;  // the exit status, where it is given
};

// Records to write as a file of lines; a text among them is a line as it stands.
using Records = std::vector<Value>;

struct Case {
    std::string name;
    std::string clause;
    std::optional<Records> log;                    // nothing: rulebook cases, or logFile is given
    std::optional<std::filesystem::path> logFile;  // a JSON Lines file
    std::vector<Records> refused;
    std::vector<Question> questions;
};

// Error: what is wrong, for a person; a field or question this reader does not know among them.
[[nodiscard]] tl::expected<Case, std::string> readCase(const std::filesystem::path& file);

// The same for the text of a file in `folder`.
[[nodiscard]] tl::expected<Case, std::string> readCaseText(std::string_view text,
                                                           const std::filesystem::path& folder);

// Every case file of a folder (or the one file) whose name contains `part`, sorted by name.
[[nodiscard]] tl::expected<std::vector<Case>, std::string> readCases(
    const std::filesystem::path& place, std::string_view part);

[[nodiscard]] tl::expected<std::string, std::string> readText(const std::filesystem::path& file);

}  // namespace conformance
