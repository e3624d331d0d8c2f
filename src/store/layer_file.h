// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A file as the database's own layer opens it, for what is asked of it without a database. For this
// folder only, since it shows SQLite.
#pragma once

#include <array>
#include <cstddef>
#include <filesystem>
#include <new>
#include <sqlite3.h>

namespace store {

// A file of the database's own layer: a second one of the system's, once closed, would take this
// program's locks from the first.
class LayerFile {
public:
    explicit LayerFile(const std::filesystem::path& path, int access = SQLITE_OPEN_READONLY)
        : m_layer(sqlite3_vfs_find(nullptr)),
          m_name(sqlite3_create_filename(path.c_str(), "", "", 0, nullptr)),
          m_memory(::operator new(static_cast<std::size_t>(m_layer->szOsFile))) {
        file()->pMethods = nullptr;
        int flags = 0;
        m_isOpen = m_name != nullptr &&
                   m_layer->xOpen(m_layer, m_name, file(), access | SQLITE_OPEN_MAIN_DB,
                                  &flags) == SQLITE_OK;
    }
    ~LayerFile() {
        if (file()->pMethods != nullptr) {
            file()->pMethods->xClose(file());
        }
        sqlite3_free_filename(m_name);
        ::operator delete(m_memory);
    }
    LayerFile(const LayerFile&) = delete;
    LayerFile& operator=(const LayerFile&) = delete;

    [[nodiscard]] sqlite3_int64 size() const {
        sqlite3_int64 size = 0;
        return m_isOpen && file()->pMethods->xFileSize(file(), &size) == SQLITE_OK ? size : 0;
    }
    [[nodiscard]] int systemError() const {
        int error = 0;
        if (m_isOpen) {
            file()->pMethods->xFileControl(file(), SQLITE_FCNTL_LAST_ERRNO, &error);
        }
        return error;
    }
    // A code of the database's.
    [[nodiscard]] int read(char* into, int count, sqlite3_int64 place) const {
        return m_isOpen ? file()->pMethods->xRead(file(), into, count, place) : SQLITE_CANTOPEN;
    }
    [[nodiscard]] bool givesByteAt(sqlite3_int64 place) const {
        std::array<char, 1> byte{};
        return read(byte.data(), 1, place) == SQLITE_OK;
    }
    [[nodiscard]] bool isBeingWritten() const {
        int isReserved = 0;
        return m_isOpen &&
               file()->pMethods->xCheckReservedLock(file(), &isReserved) == SQLITE_OK &&
               isReserved != 0;
    }
    // To one of SQLITE_LOCK_…; a code of the database's.
    [[nodiscard]] int lock(int level) {
        return m_isOpen ? file()->pMethods->xLock(file(), level) : SQLITE_CANTOPEN;
    }
    void unlock() {
        if (m_isOpen) {
            file()->pMethods->xUnlock(file(), SQLITE_LOCK_NONE);
        }
    }

private:
    [[nodiscard]] sqlite3_file* file() const { return static_cast<sqlite3_file*>(m_memory); }

    sqlite3_vfs* m_layer;
    sqlite3_filename m_name;
    void* m_memory;
    bool m_isOpen = false;
};

}  // namespace store
