// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the disk does not give; see disk_refusal.h.
#include "store/disk_refusal.h"

#include "store/connection.h"
#include "store/layer_file.h"
#include "store/unread.h"

#include <array>
#include <cerrno>
#include <sqlite3.h>
#include <system_error>

namespace store {

namespace {

constexpr sqlite3_int64 placesTried = 16;

std::string pathOf(SQLite::Database& database) {
    const char* path = sqlite3_db_filename(database.getHandle(), "main");
    return path == nullptr ? std::string() : std::string(path);
}

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
    if (!isDamage(exception) && !isOfSchema) {
        return false;
    }
    const int error = systemErrorOf(database);
    return (error != 0 && error != ENOLCK) || reasonOfJournal(pathOf(database)).has_value();
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
