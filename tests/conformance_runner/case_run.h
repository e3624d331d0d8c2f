// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Puts one case to the program: imports its log, tries what is to be refused, asks its questions.
#pragma once

#include "conformance_runner/case_file.h"
#include "conformance_runner/comparison.h"

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace conformance {

// What is put to the program. A month is asked if `month` or `starts` is.
struct Asked {
    bool board = false;
    bool plan = false;
    bool month = false;
    bool starts = false;
    bool rulebook = false;
    bool import = false;
};

struct Settings {
    std::filesystem::path program;
    Asked asked;
    std::chrono::seconds limit{120};
    std::optional<std::uint64_t> renameSeed;  // every name of the case is replaced by another
};

// Counts of one case, or of many.
struct Counts {
    std::map<Command, int> asked;
    std::map<Command, int> passedOver;  // not asked, because they come next
    int monthsInPart = 0;
    int refusedImports = 0;

    [[nodiscard]] int questions() const;
    Counts& operator+=(const Counts& other);
};

struct CaseResult {
    Counts counts;
    std::vector<std::string> failures;
};

// Throws std::runtime_error where the runner itself cannot go on.
[[nodiscard]] CaseResult runCase(const Case& given, const Settings& settings);

}  // namespace conformance
