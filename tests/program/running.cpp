// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Runs the real command line; see running.h.
#include "running.h"

#include <array>
#include <catch2/catch.hpp>
#include <cerrno>
#include <csignal>
#include <fcntl.h>
#include <grp.h>
#include <poll.h>
#include <sys/wait.h>
#include <unistd.h>

namespace program {

namespace {

constexpr int pinDescriptor = 3;

[[noreturn]] void becomeProgram(const std::filesystem::path& folder, int output,
                                const std::vector<std::string>& words,
                                const std::function<void()>& before) {
    std::vector<std::string> all{AIRMUSTER_CLI};
    all.insert(all.end(), words.begin(), words.end());
    std::vector<char*> arguments;
    for (auto& word : all) {
        arguments.push_back(word.data());
    }
    arguments.push_back(nullptr);
    const bool prepared = ::chdir(folder.c_str()) == 0 && ::dup2(output, STDOUT_FILENO) >= 0 &&
                          ::dup2(output, STDERR_FILENO) >= 0;
    if (before) {
        before();
    }
    if (prepared) {
        ::execv(AIRMUSTER_CLI, arguments.data());
    }
    ::_exit(126);
}

}  // namespace

Running::Running(const std::filesystem::path& folder, const std::vector<std::string>& words,
                 const std::function<void()>& before) {
    std::array<int, 2> pipe{};
    REQUIRE(::pipe2(pipe.data(), O_CLOEXEC) == 0);
    m_began = std::chrono::steady_clock::now();
    m_process = ::fork();
    REQUIRE(m_process >= 0);
    if (m_process == 0) {
        becomeProgram(folder, pipe[1], words, before);
    }
    ::close(pipe[1]);
    m_output = pipe[0];
}

Running::~Running() {
    if (!m_hasEnded) {
        kill();
        ::waitpid(m_process, nullptr, 0);
    }
    ::close(m_output);
}

void Running::kill() {
    if (!m_hasEnded) {
        ::kill(m_process, SIGKILL);
    }
}

bool Running::hasEnded() {
    if (!m_hasEnded && ::waitpid(m_process, &m_status, WNOHANG) == m_process) {
        m_hasEnded = true;
        m_ended = std::chrono::steady_clock::now();
    }
    return m_hasEnded;
}

void Running::waitUntilTold() const {
    pollfd output{m_output, POLLIN, 0};
    (void)::poll(&output, 1, -1);
}

Said Running::said() {
    Said said;
    std::array<char, 4096> buffer{};
    for (;;) {
        const auto count = ::read(m_output, buffer.data(), buffer.size());
        if (count < 0 && errno == EINTR) {
            continue;
        }
        if (count <= 0) {
            break;
        }
        said.out.append(buffer.data(), static_cast<std::size_t>(count));
    }
    if (!m_hasEnded) {
        ::waitpid(m_process, &m_status, 0);
        m_hasEnded = true;
        m_ended = std::chrono::steady_clock::now();
    }
    said.status = WIFEXITED(m_status) ? WEXITSTATUS(m_status) : -1;
    said.took = std::chrono::duration_cast<std::chrono::microseconds>(m_ended - m_began);
    return said;
}

Said said(const std::filesystem::path& folder, const std::vector<std::string>& words,
          const std::function<void()>& before) {
    return Running(folder, words, before).said();
}

void becomeNobody() {
    constexpr int nobody = 65534;
    if (::geteuid() == 0 &&
        (::setgroups(0, nullptr) != 0 || ::setgid(nobody) != 0 || ::setuid(nobody) != 0)) {
        ::_exit(125);
    }
}

Ward::Ward() {
    folder.write("pin", "731905\n");
    const auto begun = ran({"init", "ward.logbook", "--station", "icu-1", "--rulebook",
                            AIRMUSTER_SOURCE_DIR "/data/rulebooks/adult_intensive_care.toml",
                            "--manager", "r.halvorsen", "--name", "Runa Halvorsen", "--pin-fd",
                            "3"},
                           withPin());
    INFO(begun.out);
    REQUIRE(begun.status == 0);
    const auto enrolled = ran({"log", "ward.logbook", "enrol", "KB-0001", "--model", "Larch 2",
                               "--group", "adult", "--commissioned", "2026-01-15", "--as",
                               "r.halvorsen", "--pin-fd", "3"},
                              withPin());
    INFO(enrolled.out);
    REQUIRE(enrolled.status == 0);
}

std::vector<std::string> Ward::logFault() {
    return {"log",    "ward.logbook", "fault",        "KB-0001", "--code",
            "noisy_fan", "--text",       "since the move", "--as",    "r.halvorsen"};
}

std::function<void()> Ward::withPin() const {
    return [pin = folder.file("pin")] {
        ::dup2(::open(pin.c_str(), O_RDONLY | O_CLOEXEC), pinDescriptor);
    };
}

Said Ward::ran(const std::vector<std::string>& words, const std::function<void()>& before) const {
    return said(folder.path(), words, before);
}

}  // namespace program
