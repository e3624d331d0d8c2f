// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A database as each connection to a logbook has it: what it may do with a stranger's file, and its
// settings. For this folder only, since it shows SQLite; throws SQLite::Exception.
#pragma once

#include "store/logbook.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>

#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>

struct sqlite3_stmt;

namespace store {

// Statements that are asked again and again, of a fixed text each: prepared once, and lent out to
// one at a time. For RowCursor and RowWriter.
class Database : public SQLite::Database {
public:
    using SQLite::Database::Database;
    ~Database();
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;

    [[nodiscard]] sqlite3_stmt* borrow(const std::string& query);
    // As borrow gave it, whatever was done with it.
    void giveBack(sqlite3_stmt* statement, const std::string& query);

    // What guardSchema has seen in it.
    struct SeenSchema {
        std::string cookie{};   // a number that each change of the schema raises; "" nothing yet
        std::string foreign{};  // the first of what is not as it was made; "" all is
    };
    [[nodiscard]] const SeenSchema& seenSchema() const { return m_seenSchema; }
    void noteSchema(SeenSchema seen) { m_seenSchema = std::move(seen); }

private:
    std::map<std::string, sqlite3_stmt*> m_prepared{};  // those that are not lent
    SeenSchema m_seenSchema{};
};

using DatabasePointer = std::unique_ptr<Database>;

// `flags`: as of sqlite3_open_v2. Reads nothing yet.
[[nodiscard]] DatabasePointer connect(const std::filesystem::path& path, int flags,
                                      int busyTimeoutMs);

// The first value; empty if there is none.
std::string answerTo(SQLite::Database& database, const std::string& pragma);

// The name of the setting that did not take, if there is one.
[[nodiscard]] std::optional<std::string> applySettings(SQLite::Database& database,
                                                       const OpenOptions& options);

// Undoes a write that was cut off, where the file may be written to.
void recover(const std::filesystem::path& path, int busyTimeoutMs);

// Whether that has to be done before the file can be read.
[[nodiscard]] bool isCutOff(const SQLite::Exception& exception);

}  // namespace store
