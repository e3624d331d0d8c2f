// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The real command line, run as a process that can be killed. Knows no command.
#pragma once

#include "support/folder.h"

#include <chrono>
#include <filesystem>
#include <functional>
#include <string>
#include <sys/types.h>
#include <vector>

namespace program {

struct Said {
    int status = -1;     // -1: it was killed
    std::string out;     // on both streams
    std::chrono::microseconds took{0};
};

class Running {
public:
    // In that folder. `before` is called in the new process, before the program takes its place.
    Running(const std::filesystem::path& folder, const std::vector<std::string>& words,
            const std::function<void()>& before = {});
    ~Running();
    Running(const Running&) = delete;
    Running& operator=(const Running&) = delete;

    void kill();
    [[nodiscard]] bool hasEnded();
    // Until it has written something or ended.
    void waitUntilTold() const;
    // Waits for its end.
    [[nodiscard]] Said said();

private:
    pid_t m_process = -1;
    int m_output = -1;
    int m_status = 0;
    bool m_hasEnded = false;
    std::chrono::steady_clock::time_point m_began;
    std::chrono::steady_clock::time_point m_ended;
};

// Runs it to its end.
[[nodiscard]] Said said(const std::filesystem::path& folder, const std::vector<std::string>& words,
                        const std::function<void()>& before = {});

// Whoever runs it owns nothing here, also where the tests run as root, whom no mode stops.
void becomeNobody();

// A ward's logbook "ward.logbook" with a manager, r.halvorsen, and one unit, KB-0001.
class Ward {
public:
    Ward();

    [[nodiscard]] std::filesystem::path logbook() const { return folder.file("ward.logbook"); }
    // Its words after `airmuster-cli`.
    [[nodiscard]] static std::vector<std::string> logFault();
    // Opens the file with the manager's PIN as descriptor 3.
    [[nodiscard]] std::function<void()> withPin() const;
    [[nodiscard]] Said ran(const std::vector<std::string>& words,
                           const std::function<void()>& before = {}) const;

    support::Folder folder;
};

}  // namespace program
