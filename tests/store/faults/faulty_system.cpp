// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The system's calls that the store makes itself, in front of the true ones: the linker puts these
// in their place in this test program (--wrap).
#include "faulty_state.h"

#include <cerrno>
#include <cstdarg>
#include <cstdio>
#include <fcntl.h>
#include <filesystem>
#include <string>
#include <sys/types.h>
#include <system_error>
#include <unistd.h>

namespace store::test {

FaultyState& faultyState() {
    static FaultyState state;
    return state;
}

bool& exchangesNames() {
    static bool exchanges = true;
    return exchanges;
}

bool& renamesSafely() {
    static bool safely = true;
    return safely;
}

bool FaultyState::fails(Call call) {
    if (model == nullptr || healed) {
        return false;
    }
    const bool writes = call == Call::Write || call == Call::Make;
    if ((fault.failure == Failure::Full && !writes) ||
        (fault.failure == Failure::ShortWrite && call != Call::Write)) {
        return false;
    }
    if (fired) {
        return fault.forGood || fault.failure == Failure::PowerCut;
    }
    if (fault.call == 0 || --callsLeft > 0) {
        return false;
    }
    fired = call;
    return true;
}

}  // namespace store::test

namespace {

std::filesystem::path pathOf(int file) {
    std::error_code none;
    return std::filesystem::read_symlink("/proc/self/fd/" + std::to_string(file), none);
}

}  // namespace

extern "C" {

int __real_open(const char* path, int flags, ...);
int __real_fsync(int file);
ssize_t __real_write(int file, const void* bytes, size_t count);
int __real_unlink(const char* path);
int __real_link(const char* from, const char* to);
int __real_rename(const char* from, const char* to);
int __real_renameat2(int fromFolder, const char* from, int toFolder, const char* to,
                     unsigned flags);

int __wrap_open(const char* path, int flags, ...) {
    std::va_list arguments;
    va_start(arguments, flags);
    const mode_t mode = (flags & O_CREAT) != 0 ? va_arg(arguments, mode_t) : 0;
    va_end(arguments);
    auto& state = store::test::faultyState();
    if (state.model == nullptr || (flags & O_CREAT) == 0) {
        return __real_open(path, flags, mode);
    }
    if (state.fails(store::test::Call::Make)) {
        errno = state.fault.failure == store::test::Failure::Full ? ENOSPC : EIO;
        return -1;
    }
    const int file = __real_open(path, flags, mode);
    if (file >= 0) {
        state.model->made(path);
    }
    return file;
}

// Of a file that was made before it: a small one beside the logbook, which is advice, is not
// minded.
ssize_t __wrap_write(int file, const void* bytes, size_t count) {
    auto& state = store::test::faultyState();
    const auto path = state.model == nullptr ? std::filesystem::path() : pathOf(file);
    if (state.model == nullptr || !state.model->knows(path)) {
        return __real_write(file, bytes, count);
    }
    if (!state.dead()) {
        state.model->wrote(path, ::lseek(file, 0, SEEK_CUR),
                           {static_cast<const char*>(bytes), count});
    }
    if (!state.fails(store::test::Call::Write)) {
        return __real_write(file, bytes, count);
    }
    if (state.fault.failure == store::test::Failure::ShortWrite && count > 1) {
        // As a disk that fills up: the next call tells, where the disk fails for good.
        return __real_write(file, bytes, count / 2);
    }
    errno = state.fault.failure == store::test::Failure::Full ? ENOSPC : EIO;
    return -1;
}

int __wrap_unlink(const char* path) {
    auto& state = store::test::faultyState();
    if (state.model == nullptr) {
        return __real_unlink(path);
    }
    if (!state.dead()) {
        state.model->removed(path);
    }
    if (state.fails(store::test::Call::Delete)) {
        errno = EIO;
        return -1;
    }
    return __real_unlink(path);
}

int __wrap_link(const char* from, const char* to) {
    auto& state = store::test::faultyState();
    if (state.model == nullptr) {
        return __real_link(from, to);
    }
    if (!state.dead()) {
        state.model->linked(from, to);
    }
    if (state.fails(store::test::Call::Move)) {
        errno = EIO;
        return -1;
    }
    return __real_link(from, to);
}

int __wrap_rename(const char* from, const char* to) {
    auto& state = store::test::faultyState();
    if (state.model == nullptr) {
        return __real_rename(from, to);
    }
    if (!state.dead()) {
        state.model->moved(from, to);
    }
    if (state.fails(store::test::Call::Move)) {
        errno = EIO;
        return -1;
    }
    return __real_rename(from, to);
}

int __wrap_fsync(int file) {
    auto& state = store::test::faultyState();
    if (state.model == nullptr) {
        return __real_fsync(file);
    }
    if (state.fails(store::test::Call::Sync)) {
        errno = EIO;
        return -1;
    }
    const auto path = pathOf(file);
    if (state.foldersNotFlushed && path == state.model->folder()) {
        errno = EINVAL;
        return -1;
    }
    state.model->synced(path);
    if (state.whenFlushed) {
        state.whenFlushed(path);
    }
    return 0;
}

int __wrap_renameat2(int fromFolder, const char* from, int toFolder, const char* to,
                     unsigned flags) {
    auto& state = store::test::faultyState();
    if (state.model == nullptr) {
        return __real_renameat2(fromFolder, from, toFolder, to, flags);
    }
    const bool exchanges = (flags & RENAME_EXCHANGE) != 0;
    if ((exchanges && !store::test::exchangesNames()) ||
        ((flags & RENAME_NOREPLACE) != 0 && !store::test::renamesSafely())) {
        errno = EINVAL;
        return -1;
    }
    if (!state.dead()) {
        exchanges ? state.model->exchanged(from, to) : state.model->moved(from, to);
    }
    if (state.fails(store::test::Call::Move)) {
        errno = EIO;
        return -1;
    }
    return __real_renameat2(fromFolder, from, toFolder, to, flags);
}

}  // extern "C"
