// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The calls by which the database and the streams of the language read, in front of the system's in
// this test program; see bad_sectors.h.
#include "bad_sectors.h"

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <mutex>
#include <thread>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/types.h>
#include <unistd.h>

namespace store::test {

namespace {

struct State {
    std::atomic<bool> isOn = false;
    std::mutex mutex{};
    ino_t file = 0;
    BadPlace place;
    int met = 0;
};

State& state() {
    static State only;
    return only;
}

// How much is read before the bad place; -1 if that begins here, and errno is set.
ssize_t readable(int file, std::uint64_t from, std::size_t count) {
    auto& now = state();
    struct stat status {};
    if (!now.isOn || count == 0 || ::fstat(file, &status) != 0) {
        return static_cast<ssize_t>(count);
    }
    std::unique_lock lock(now.mutex);
    const auto bad = now.place;
    const auto end = bad.from + bad.size;
    if (status.st_ino != now.file || from >= end || from + count <= bad.from ||
        from >= static_cast<std::uint64_t>(status.st_size) || now.met >= bad.times) {
        return static_cast<ssize_t>(count);
    }
    if (from < bad.from) {
        return static_cast<ssize_t>(bad.from - from);
    }
    ++now.met;
    lock.unlock();
    std::this_thread::sleep_for(bad.takes);
    errno = bad.error;
    return -1;
}

}  // namespace

BadSectors::BadSectors(const std::filesystem::path& file, const BadPlace& place) {
    auto& now = state();
    const std::lock_guard lock(now.mutex);
    struct stat status {};
    (void)::stat(file.c_str(), &status);
    now.file = status.st_ino;
    now.place = place;
    now.met = 0;
    now.isOn = true;
}

BadSectors::~BadSectors() {
    state().isOn = false;
}

int BadSectors::met() const {
    auto& now = state();
    const std::lock_guard lock(now.mutex);
    return now.met;
}

}  // namespace store::test

extern "C" {

ssize_t pread64(int file, void* bytes, size_t count, off64_t place) {
    const auto readable =
        store::test::readable(file, static_cast<std::uint64_t>(place), count);
    return readable < 0 ? readable
                        : ::syscall(SYS_pread64, file, bytes, readable, place);
}

ssize_t read(int file, void* bytes, size_t count) {
    const auto place = ::lseek64(file, 0, SEEK_CUR);
    const auto readable =
        place < 0 ? static_cast<ssize_t>(count)
                  : store::test::readable(file, static_cast<std::uint64_t>(place), count);
    return readable < 0 ? readable : ::syscall(SYS_read, file, bytes, readable);
}

}  // extern "C"
