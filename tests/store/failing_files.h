// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A file layer for SQLite that fails at a chosen call: full disk, failed write, failed sync. It
// stands in for the system's own while an object of it lives, so that the store under test is the
// one that people run.
#pragma once

namespace store::test {

class FailingFiles {
public:
    enum class Failure {
        Full,       // the write says that the disk is full
        HalfWrite,  // half of the bytes are written, then an error
        Io,         // writes, syncs, truncations and deletions fail
        Kill,       // the program ends there and cleans nothing up
    };
    explicit FailingFiles(Failure failure);
    ~FailingFiles();
    FailingFiles(const FailingFiles&) = delete;
    FailingFiles& operator=(const FailingFiles&) = delete;

    // The call of that number from now on fails, and all after it if `forGood`. 0: none.
    void failAt(int call, bool forGood);
    // Whether that call has come.
    [[nodiscard]] bool failed() const;
};

}  // namespace store::test
