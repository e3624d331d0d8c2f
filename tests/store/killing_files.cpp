// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The file layer that ends the program: every call goes on to the system's own until its turn.
#include "killing_files.h"

#include <csignal>
#include <sqlite3.h>

namespace store::test {

namespace {

struct State {
    int callsLeft = 0;
    sqlite3_vfs* system = nullptr;
    sqlite3_vfs layer{};
};
State state;

void countCall() {
    if (state.callsLeft > 0 && --state.callsLeft == 0) {
        ::raise(SIGKILL);
    }
}

struct File {
    sqlite3_file base;
    sqlite3_file* system;  // follows this in the same memory
};

sqlite3_file* systemFile(sqlite3_file* file) {
    return reinterpret_cast<File*>(file)->system;
}

int close(sqlite3_file* file) {
    return systemFile(file)->pMethods->xClose(systemFile(file));
}
int read(sqlite3_file* file, void* bytes, int count, sqlite3_int64 offset) {
    return systemFile(file)->pMethods->xRead(systemFile(file), bytes, count, offset);
}
int write(sqlite3_file* file, const void* bytes, int count, sqlite3_int64 offset) {
    countCall();
    return systemFile(file)->pMethods->xWrite(systemFile(file), bytes, count, offset);
}
int truncate(sqlite3_file* file, sqlite3_int64 size) {
    countCall();
    return systemFile(file)->pMethods->xTruncate(systemFile(file), size);
}
int sync(sqlite3_file* file, int flags) {
    countCall();
    return systemFile(file)->pMethods->xSync(systemFile(file), flags);
}
int fileSize(sqlite3_file* file, sqlite3_int64* size) {
    return systemFile(file)->pMethods->xFileSize(systemFile(file), size);
}
int lock(sqlite3_file* file, int level) {
    return systemFile(file)->pMethods->xLock(systemFile(file), level);
}
int unlock(sqlite3_file* file, int level) {
    return systemFile(file)->pMethods->xUnlock(systemFile(file), level);
}
int checkReservedLock(sqlite3_file* file, int* answer) {
    return systemFile(file)->pMethods->xCheckReservedLock(systemFile(file), answer);
}
int fileControl(sqlite3_file* file, int operation, void* argument) {
    return systemFile(file)->pMethods->xFileControl(systemFile(file), operation, argument);
}
int sectorSize(sqlite3_file* file) {
    return systemFile(file)->pMethods->xSectorSize(systemFile(file));
}
int deviceCharacteristics(sqlite3_file* file) {
    return systemFile(file)->pMethods->xDeviceCharacteristics(systemFile(file));
}

// Version 1: no shared memory and no memory mapping, neither of which the store uses.
const sqlite3_io_methods methods = {
    1,      close,  read,     write,  truncate,          sync,        fileSize,
    lock,   unlock, checkReservedLock, fileControl, sectorSize, deviceCharacteristics,
    nullptr, nullptr, nullptr, nullptr, nullptr, nullptr,
};

int open(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* outFlags) {
    File* own = reinterpret_cast<File*>(file);
    own->system = reinterpret_cast<sqlite3_file*>(own + 1);
    own->system->pMethods = nullptr;
    const int result = state.system->xOpen(state.system, name, own->system, flags, outFlags);
    own->base.pMethods = own->system->pMethods == nullptr ? nullptr : &methods;
    return result;
}

int remove(sqlite3_vfs*, const char* name, int syncFolder) {
    countCall();
    return state.system->xDelete(state.system, name, syncFolder);
}

}  // namespace

KillingFiles::KillingFiles() {
    state = State{};
    state.system = sqlite3_vfs_find(nullptr);
    state.layer = *state.system;
    state.layer.zName = "killing";
    state.layer.szOsFile += static_cast<int>(sizeof(File));
    state.layer.xOpen = open;
    state.layer.xDelete = remove;
    sqlite3_vfs_register(&state.layer, 1);
}

KillingFiles::~KillingFiles() {
    sqlite3_vfs_unregister(&state.layer);
    sqlite3_vfs_register(state.system, 1);
}

void KillingFiles::killAt(int call) {
    state.callsLeft = call;
}

}  // namespace store::test
