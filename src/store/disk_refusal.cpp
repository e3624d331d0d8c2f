// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the disk does not give; see disk_refusal.h.
#include "store/disk_refusal.h"

#include "store/connection.h"

#include <array>
#include <cerrno>
#include <memory>
#include <new>
#include <sqlite3.h>
#include <system_error>

namespace store {

namespace {

constexpr sqlite3_int64 placesTried = 16;

// A file of the database's own layer: a second one of the system's, once closed, would take this
// program's locks from the first.
class LayerFile {
public:
    explicit LayerFile(const std::filesystem::path& path)
        : m_layer(sqlite3_vfs_find(nullptr)),
          m_name(sqlite3_create_filename(path.c_str(), "", "", 0, nullptr)),
          m_memory(::operator new(static_cast<std::size_t>(m_layer->szOsFile))) {
        file()->pMethods = nullptr;
        int flags = 0;
        m_isOpen = m_name != nullptr &&
                   m_layer->xOpen(m_layer, m_name, file(),
                                  SQLITE_OPEN_READONLY | SQLITE_OPEN_MAIN_DB, &flags) == SQLITE_OK;
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
    [[nodiscard]] bool givesByteAt(sqlite3_int64 place) const {
        std::array<char, 1> byte{};
        return file()->pMethods->xRead(file(), byte.data(), 1, place) == SQLITE_OK;
    }

private:
    [[nodiscard]] sqlite3_file* file() const { return static_cast<sqlite3_file*>(m_memory); }

    sqlite3_vfs* m_layer;
    sqlite3_filename m_name;
    void* m_memory;
    bool m_isOpen = false;
};

}  // namespace

bool isRefusal(const SQLite::Exception& exception) {
    const int extended = exception.getExtendedErrorCode();
    switch (extended > 0 ? extended : exception.getErrorCode()) {
        case SQLITE_IOERR_READ:
        case SQLITE_IOERR_SHORT_READ:
        case SQLITE_IOERR_DATA:
        case SQLITE_IOERR_CORRUPTFS:
        // What was to be written after the database had ended the transaction at that.
        case SQLITE_CONSTRAINT_COMMITHOOK: return true;
        default: return false;
    }
}

bool isRefusedBy(SQLite::Database& database, const SQLite::Exception& exception) {
    if (isRefusal(exception)) {
        return true;
    }
    // In reading the schema the database keeps to itself what the error was at.
    const bool isOfSchema = exception.getExtendedErrorCode() == SQLITE_IOERR;
    const int error = systemErrorOf(database);
    return (isDamage(exception) || isOfSchema) && error != 0 && error != ENOLCK;
}

int systemErrorOf(SQLite::Database& database) {
    int error = 0;
    sqlite3_file_control(database.getHandle(), "main", SQLITE_FCNTL_LAST_ERRNO, &error);
    return error;
}

void forgetSystemError(SQLite::Database& database) {
    sqlite3_file* file = nullptr;
    sqlite3_file_control(database.getHandle(), "main", SQLITE_FCNTL_FILE_POINTER, &file);
    sqlite3_int64 size = 0;
    if (file == nullptr || file->pMethods == nullptr ||
        file->pMethods->xFileSize(file, &size) != SQLITE_OK) {
        return;
    }
    std::array<char, 1> byte{};
    (void)file->pMethods->xRead(file, byte.data(), 1, size);
}

std::string reasonOf(int systemError, const SQLite::Exception& exception) {
    return systemError == 0 ? exception.what() : std::generic_category().message(systemError);
}

SQLite::Exception refusal(const std::string& reason) {
    return {reason, SQLITE_IOERR_READ};
}

std::string reasonAtBeginning(const std::filesystem::path& path,
                              const SQLite::Exception& exception) {
    const LayerFile file(path);
    const bool isGiven = file.size() > 0 && file.givesByteAt(0);
    return reasonOf(isGiven ? 0 : file.systemError(), exception);
}

bool isDiskThere(const std::filesystem::path& path) {
    const LayerFile file(path);
    const auto size = file.size();
    for (sqlite3_int64 i = 0; i < placesTried && size > 0; ++i) {
        if (file.givesByteAt((size - 1) / (placesTried - 1) * i)) {
            return true;
        }
    }
    return false;
}

}  // namespace store
