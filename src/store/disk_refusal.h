// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whether it is the disk that does not give what is to be read, or what stands there is not what a
// database has there. For this folder only, since it shows SQLite.
#pragma once

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>

#include <filesystem>
#include <string>

namespace store {

// By its code alone.
[[nodiscard]] bool isRefusal(const SQLite::Exception& exception);

// Also where the database takes what the disk does not give for a damaged page.
[[nodiscard]] bool isRefusedBy(SQLite::Database& database, const SQLite::Exception& exception);

// What the system last told the database of its file, since that was opened; 0: of no error.
[[nodiscard]] int systemErrorOf(SQLite::Database& database);

// So that the next error is told by what the system says then. Reads where the file has ended.
void forgetSystemError(SQLite::Database& database);

// The system's own words for it, else the database's.
[[nodiscard]] std::string reasonOf(int systemError, const SQLite::Exception& exception);

// The same where no database could be opened: what the system says of the beginning of the file.
[[nodiscard]] std::string reasonAtBeginning(const std::filesystem::path& file,
                                            const SQLite::Exception& exception);

[[nodiscard]] SQLite::Exception refusal(const std::string& reason);

// What the function returns; that the disk refused is thrown as that, not as damage.
template <class Function>
auto tellingRefusal(SQLite::Database& database, Function function) -> decltype(function()) {
    try {
        return function();
    } catch (const SQLite::Exception& exception) {
        if (!isRefusedBy(database, exception)) {
            throw;
        }
        throw refusal(reasonOf(systemErrorOf(database), exception));
    }
}

// Whether the disk gives any of the file: else it is not a place of it that is gone, but the disk.
[[nodiscard]] bool isDiskThere(const std::filesystem::path& file);

}  // namespace store
