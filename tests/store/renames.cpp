// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The call that gives names, in front of the system's in this test program; see renames.h.
#include "renames.h"

#include <sys/syscall.h>
#include <unistd.h>
#include <utility>

namespace store::test {

namespace {

Renames::Act& current() {
    static Renames::Act act;
    return act;
}

}  // namespace

Renames::Renames(Act act) {
    current() = std::move(act);
}

Renames::~Renames() {
    current() = nullptr;
}

}  // namespace store::test

extern "C" {

int renameat2(int fromFolder, const char* from, int toFolder, const char* to,
              unsigned int flags) {
    if (const auto& act = store::test::current()) {
        act(from, to);
    }
    return static_cast<int>(::syscall(SYS_renameat2, fromFolder, from, toFolder, to, flags));
}

}  // extern "C"
