// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Taking the lock of a file; see file_lock.h.
#include "store/file_lock.h"

#include <cerrno>
#include <chrono>
#include <system_error>
#include <thread>

namespace store {

namespace {

constexpr std::chrono::milliseconds betweenTries{10};
constexpr int mostFailures = 3;  // a lock that failed once may be had the next time

// What the system says where it has no locks for a file.
bool knowsNoLocks(int systemError) {
    return systemError == EINVAL || systemError == ENOSYS || systemError == EOPNOTSUPP;
}

}  // namespace

FileLock::FileLock(const std::filesystem::path& file, int busyTimeoutMs)
    : m_file(file, SQLITE_OPEN_READWRITE) {
    const auto end = std::chrono::steady_clock::now() + std::chrono::milliseconds(busyTimeoutMs);
    for (int failures = 0;;) {
        int code = m_file.lock(SQLITE_LOCK_SHARED);
        if (code == SQLITE_OK) {
            code = m_file.lock(SQLITE_LOCK_EXCLUSIVE);
        }
        m_isBusy = (code & 0xFF) == SQLITE_BUSY;
        m_failure.reset();
        const int error = m_file.systemError();
        if (code != SQLITE_OK && code != SQLITE_CANTOPEN && !m_isBusy && !knowsNoLocks(error)) {
            m_failure = error == 0 ? sqlite3_errstr(code)
                                   : std::generic_category().message(error);
        }
        failures += m_isBusy ? 0 : 1;
        const bool isOver =
            code == SQLITE_OK || code == SQLITE_CANTOPEN || failures == mostFailures;
        if (isOver || std::chrono::steady_clock::now() >= end) {
            return;
        }
        m_file.unlock();
        std::this_thread::sleep_for(betweenTries);
    }
}

FileLock::~FileLock() {
    m_file.unlock();
}

}  // namespace store
