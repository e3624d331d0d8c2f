// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a user sees who owns nothing here.
#pragma once

#include <functional>
#include <grp.h>
#include <sys/wait.h>
#include <unistd.h>

namespace store::test {

// Runs as a user who owns nothing here, also if the tests run as root, whom no mode of a file
// stops. The answer is the function's.
inline int asNobody(const std::function<int()>& function) {
    const pid_t child = ::fork();
    if (child == 0) {
        constexpr int nobody = 65534;
        if (::geteuid() == 0 &&
            (::setgroups(0, nullptr) != 0 || ::setgid(nobody) != 0 || ::setuid(nobody) != 0)) {
            ::_exit(100);
        }
        ::_exit(function());
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

}  // namespace store::test
