// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The disk that fails: SQLite's file layer in front of the system's; see faulty_disk.h.
#include "faulty_disk.h"

#include "faulty_state.h"

#include <cstddef>
#include <sqlite3.h>
#include <string>
#include <utility>

namespace store::test {

namespace {

struct File {
    sqlite3_file base;
    sqlite3_file* system;  // follows this in the same memory
    const char* name;      // SQLite keeps it until the file is closed
    bool newJournal;       // its folder is synced with it, the first time
    bool lost;
};

File* own(sqlite3_file* file) {
    return reinterpret_cast<File*>(file);
}
sqlite3_file* systemFile(sqlite3_file* file) {
    return own(file)->system;
}
std::filesystem::path nameOf(sqlite3_file* file) {
    return own(file)->name == nullptr ? "" : own(file)->name;
}

int close(sqlite3_file* file) {
    return systemFile(file)->pMethods->xClose(systemFile(file));
}

int read(sqlite3_file* file, void* bytes, int count, sqlite3_int64 offset) {
    if (faultyState().fails(Call::Read)) {
        return SQLITE_IOERR_READ;
    }
    return systemFile(file)->pMethods->xRead(systemFile(file), bytes, count, offset);
}

int write(sqlite3_file* file, const void* bytes, int count, sqlite3_int64 offset) {
    FaultyState& state = faultyState();
    if (own(file)->lost) {
        return SQLITE_OK;
    }
    if (!state.dead()) {
        state.model->wrote(nameOf(file), offset,
                           {static_cast<const char*>(bytes), static_cast<std::size_t>(count)});
    }
    if (!state.fails(Call::Write)) {
        return systemFile(file)->pMethods->xWrite(systemFile(file), bytes, count, offset);
    }
    if (state.fault.failure == Failure::Full) {
        return SQLITE_FULL;
    }
    if (state.fault.failure == Failure::ShortWrite) {
        systemFile(file)->pMethods->xWrite(systemFile(file), bytes, count / 2, offset);
    }
    return SQLITE_IOERR_WRITE;
}

int truncate(sqlite3_file* file, sqlite3_int64 size) {
    FaultyState& state = faultyState();
    if (!state.dead()) {
        state.model->truncated(nameOf(file), size);
    }
    if (state.fails(Call::Truncate)) {
        return SQLITE_IOERR_TRUNCATE;
    }
    return systemFile(file)->pMethods->xTruncate(systemFile(file), size);
}

// Nothing has to come to the disk of the computer that runs the test: the model knows.
int sync(sqlite3_file* file, int) {
    FaultyState& state = faultyState();
    if (state.fails(Call::Sync)) {
        return SQLITE_IOERR_FSYNC;
    }
    state.model->synced(nameOf(file));
    if (own(file)->newJournal) {
        own(file)->newJournal = false;
        state.model->synced(state.model->folder());
    }
    return SQLITE_OK;
}

int fileSize(sqlite3_file* file, sqlite3_int64* size) {
    if (faultyState().fails(Call::Look)) {
        return SQLITE_IOERR_FSTAT;
    }
    return systemFile(file)->pMethods->xFileSize(systemFile(file), size);
}

int lock(sqlite3_file* file, int level) {
    if (faultyState().fails(Call::Lock)) {
        return SQLITE_IOERR_LOCK;
    }
    return systemFile(file)->pMethods->xLock(systemFile(file), level);
}

int unlock(sqlite3_file* file, int level) {
    const int result = systemFile(file)->pMethods->xUnlock(systemFile(file), level);
    return faultyState().fails(Call::Unlock) ? SQLITE_IOERR_UNLOCK : result;
}

int checkReservedLock(sqlite3_file* file, int* answer) {
    if (faultyState().fails(Call::Look)) {
        return SQLITE_IOERR_CHECKRESERVEDLOCK;
    }
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
    FaultyState& state = faultyState();
    const bool journal = (flags & SQLITE_OPEN_MAIN_JOURNAL) != 0;
    const bool isNew = name != nullptr && !std::filesystem::exists(name);
    file->pMethods = nullptr;
    if (state.dead() || (isNew && state.fails(Call::Make))) {
        return SQLITE_CANTOPEN;
    }
    *own(file) = {{}, reinterpret_cast<sqlite3_file*>(own(file) + 1), name, journal && isNew,
                  journal && state.journalsLost};
    own(file)->system->pMethods = nullptr;
    const int result =
        state.system->xOpen(state.system, name, own(file)->system, flags, outFlags);
    file->pMethods = own(file)->system->pMethods == nullptr ? nullptr : &methods;
    if (result == SQLITE_OK && isNew) {
        state.model->made(name);
    }
    return result;
}

int remove(sqlite3_vfs*, const char* name, int syncFolder) {
    FaultyState& state = faultyState();
    if (!state.dead()) {
        state.model->removed(name);
    }
    if (state.fails(Call::Delete)) {
        return SQLITE_IOERR_DELETE;
    }
    const int result = state.system->xDelete(state.system, name, 0);
    if (result != SQLITE_OK || syncFolder == 0) {
        return result;
    }
    if (state.foldersNotFlushed || state.fails(Call::Sync)) {
        return SQLITE_IOERR_DIR_FSYNC;
    }
    state.model->synced(std::filesystem::path(name).parent_path());
    return SQLITE_OK;
}

int access(sqlite3_vfs*, const char* name, int flags, int* answer) {
    if (faultyState().fails(Call::Look)) {
        return SQLITE_IOERR_ACCESS;
    }
    FaultyState& state = faultyState();
    return state.system->xAccess(state.system, name, flags, answer);
}

}  // namespace

FaultyDisk::FaultyDisk(const std::filesystem::path& folder, const Fault& fault) {
    FaultyState& state = faultyState();
    state = FaultyState{};
    state.fault = fault;
    state.callsLeft = fault.call;
    state.model = std::make_unique<DiskModel>(folder, fault.seed);
    state.system = sqlite3_vfs_find(nullptr);
    state.layer = *state.system;
    state.layer.zName = "faulty";
    state.layer.szOsFile += static_cast<int>(sizeof(File));
    state.layer.xOpen = open;
    state.layer.xDelete = remove;
    state.layer.xAccess = access;
    sqlite3_vfs_register(&state.layer, 1);
}

FaultyDisk::~FaultyDisk() {
    FaultyState& state = faultyState();
    sqlite3_vfs_unregister(&state.layer);
    sqlite3_vfs_register(state.system, 1);
    state = FaultyState{};
}

void FaultyDisk::loseJournals() {
    faultyState().journalsLost = true;
}

void FaultyDisk::whenFlushed(std::function<void(const std::filesystem::path&)> happens) {
    faultyState().whenFlushed = std::move(happens);
}

void FaultyDisk::flushNoFolders() {
    faultyState().foldersNotFlushed = true;
}

std::optional<Call> FaultyDisk::fired() const {
    return faultyState().fired;
}

void FaultyDisk::heal() {
    faultyState().healed = true;
}

void FaultyDisk::cutPower() {
    heal();
    faultyState().model->cutPower();
}

std::string_view name(Call call) {
    switch (call) {
        case Call::Read: return "read";
        case Call::Write: return "write";
        case Call::Sync: return "sync";
        case Call::Truncate: return "truncate";
        case Call::Delete: return "delete";
        case Call::Lock: return "lock";
        case Call::Unlock: return "unlock";
        case Call::Look: return "look";
        case Call::Make: return "make";
        case Call::Move: return "move";
    }
    return "";
}

std::string_view name(Failure failure) {
    switch (failure) {
        case Failure::Io: return "error";
        case Failure::Full: return "disk full";
        case Failure::ShortWrite: return "short write";
        case Failure::PowerCut: return "power cut";
    }
    return "";
}

}  // namespace store::test
