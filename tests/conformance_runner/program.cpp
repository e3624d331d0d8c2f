// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Child processes by posix_spawn, their output kept in files. The one file that calls the system.
#include "conformance_runner/program.h"

#include "conformance_runner/case_file.h"

#include <fcntl.h>
#include <poll.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>
#include <cstdlib>
#include <stdexcept>
#include <system_error>

// glibc 2.36 declares this C function without saying so.
extern "C" {
#include <sys/pidfd.h>
}

namespace conformance {

namespace {

std::vector<std::string> environment() {
    std::vector<std::string> variables{"TZ=UTC", "LC_ALL=C.UTF-8"};
    for (char** variable = environ; *variable != nullptr; ++variable) {
        const std::string text = *variable;
        if (text.rfind("TZ=", 0) != 0 && text.rfind("LC_ALL=", 0) != 0) {
            variables.push_back(text);
        }
    }
    return variables;
}

std::vector<char*> pointers(std::vector<std::string>& texts) {
    std::vector<char*> result;
    result.reserve(texts.size() + 1);
    for (std::string& text : texts) {
        result.push_back(text.data());
    }
    result.push_back(nullptr);
    return result;
}

// Each call has files of its own, since calls of one case follow each other in one folder.
pid_t start(const Call& call, const std::filesystem::path& output,
            const std::filesystem::path& errors) {
    constexpr int flags = O_WRONLY | O_CREAT | O_TRUNC;
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, output.c_str(), flags, 0600);
    posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, errors.c_str(), flags, 0600);
    std::vector<std::string> words = call.words;
    std::vector<std::string> variables = environment();
    pid_t child = 0;
    const int trouble = posix_spawn(&child, words.front().c_str(), &actions, nullptr,
                                    pointers(words).data(), pointers(variables).data());
    posix_spawn_file_actions_destroy(&actions);
    if (trouble != 0) {
        throw std::runtime_error("cannot start " + call.words.front() + ": " +
                                 std::generic_category().message(trouble));
    }
    return child;
}

bool endsWithin(pid_t child, std::chrono::seconds limit) {
    const int handle = pidfd_open(child, 0);
    pollfd waiting{handle, POLLIN, 0};
    const int ready = poll(&waiting, 1, static_cast<int>(limit.count() * 1000));
    close(handle);
    return ready > 0;
}

}  // namespace

Outcome run(const Call& call) {
    const auto outputFile = call.folder / "output";
    const auto errorFile = call.folder / "errors";
    const pid_t child = start(call, outputFile, errorFile);
    Outcome outcome;
    if (!endsWithin(child, call.limit)) {
        outcome.timedOut = true;
        kill(child, SIGKILL);
    }
    int status = 0;
    waitpid(child, &status, 0);
    outcome.status = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    outcome.output = readText(outputFile).value_or("");
    outcome.errors = readText(errorFile).value_or("");
    return outcome;
}

TemporaryFolder::TemporaryFolder() {
    std::string name =
        (std::filesystem::temp_directory_path() / "airmuster-conformance-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr) {
        throw std::runtime_error("cannot make a folder in " + name);
    }
    m_path = name;
}

TemporaryFolder::~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(m_path, ignored);
}

}  // namespace conformance
