// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Runs a program as a child process, and folders for its files. Knows nothing of cases.
#pragma once

#include <chrono>
#include <filesystem>
#include <string>
#include <vector>

namespace conformance {

struct Outcome {
    int status = 0;  // as a shell says it: 128 and the signal's number if a signal ended it
    std::string output;
    std::string errors;
    bool timedOut = false;
};

struct Call {
    std::vector<std::string> words;  // the program first
    std::filesystem::path folder;    // where its output may be kept meanwhile
    std::chrono::seconds limit{120};
};

// Waits for the child, with TZ=UTC and LC_ALL=C.UTF-8 and no input. Stops it after the limit.
// Throws std::runtime_error if it cannot be started.
[[nodiscard]] Outcome run(const Call& call);

// A new empty folder that goes with this object.
class TemporaryFolder {
public:
    TemporaryFolder();  // throws std::runtime_error
    ~TemporaryFolder();
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;

    [[nodiscard]] const std::filesystem::path& path() const { return m_path; }

private:
    std::filesystem::path m_path;
};

}  // namespace conformance
