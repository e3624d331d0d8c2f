// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Opening a database and its settings; see database.h.
#include "store/database.h"

#include "store/connection.h"
#include "store/disk_refusal.h"
#include "store/journal_check.h"

#include <SQLiteCpp/Statement.h>

#include <array>
#include <sqlite3.h>
#include <utility>
#include <vector>

namespace store {

namespace {

// Bytes: far beyond a kept state of ten million records, the largest value that a logbook holds.
constexpr int longestValue = 256 * 1024 * 1024;

void demand(bool holds) {
    if (!holds) {
        throw SQLite::Exception("a guard of the database did not take");
    }
}

// Before anything in the file is believed, which may be a stranger's: its schema calls no function
// that is not harmless, none of its pages is written past the database, and what it holds is no
// larger than what any logbook holds.
void guard(sqlite3* database) {
    constexpr std::array<std::pair<int, int>, 4> switches = {{
        {SQLITE_DBCONFIG_DQS_DML, 0},
        {SQLITE_DBCONFIG_DQS_DDL, 0},
        {SQLITE_DBCONFIG_DEFENSIVE, 1},
        {SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0},
    }};
    for (const auto& [setting, value] : switches) {
        int answer = -1;
        sqlite3_db_config(database, setting, value, &answer);
        demand(answer == value);
    }
    constexpr std::array<std::pair<int, int>, 4> limits = {{
        {SQLITE_LIMIT_LENGTH, longestValue},
        {SQLITE_LIMIT_ATTACHED, 0},
        {SQLITE_LIMIT_TRIGGER_DEPTH, 4},
        {SQLITE_LIMIT_EXPR_DEPTH, 100},
    }};
    for (const auto& [limit, most] : limits) {
        sqlite3_limit(database, limit, most);
        demand(sqlite3_limit(database, limit, -1) == most);
    }
}

}  // namespace

Database::~Database() {
    for (const auto& [query, statement] : m_prepared) {
        sqlite3_finalize(statement);
    }
}

sqlite3_stmt* Database::borrow(const std::string& query) {
    if (auto kept = m_prepared.extract(query)) {
        return kept.mapped();
    }
    sqlite3_stmt* statement = nullptr;
    const int code = sqlite3_prepare_v3(getHandle(), query.data(), static_cast<int>(query.size()),
                                        SQLITE_PREPARE_PERSISTENT, &statement, nullptr);
    if (code != SQLITE_OK) {
        throw SQLite::Exception(getHandle(), code);
    }
    return statement;
}

void Database::giveBack(sqlite3_stmt* statement, const std::string& query) {
    sqlite3_reset(statement);
    sqlite3_clear_bindings(statement);
    if (!m_prepared.emplace(query, statement).second) {
        sqlite3_finalize(statement);
    }
}

DatabasePointer connect(const std::filesystem::path& path, int flags, int busyTimeoutMs) {
    if (const auto refused = refuseJournal(path)) {
        throw SQLite::Exception(std::string(*refused), SQLITE_IOERR);
    }
    // Used by one thread at a time: SQLite need not lock at every call.
    auto database = std::make_unique<Database>(
        path.native(), flags | SQLite::OPEN_NOMUTEX, busyTimeoutMs);
    guard(database->getHandle());
    return database;
}

std::string answerTo(SQLite::Database& database, const std::string& pragma) {
    SQLite::Statement statement(database, "PRAGMA " + pragma);
    return statement.executeStep() ? statement.getColumn(0).getString() : std::string();
}

std::optional<std::string> applySettings(SQLite::Database& database, const OpenOptions& options) {
    struct Setting {
        std::string name, value, answer;
    };
    const std::string timeout = std::to_string(options.busyTimeoutMs);
    std::vector<Setting> settings = {
        {"busy_timeout", timeout, timeout},
        // The folder is flushed by whoever commits, who can tell then that only this has failed.
        {"synchronous", "FULL", "2"},
        // None is ours, and what another one does to rows is done by no trigger.
        {"foreign_keys", "OFF", "0"},
        {"cell_size_check", "ON", "1"},
        // What must be undone if a row of many is refused, page by page, not in a file beside.
        {"temp_store", "MEMORY", "2"},
    };
    if (options.access != OpenOptions::Access::Read) {
        settings.push_back({"journal_mode", "DELETE", "delete"});
        // 64 MiB, so that a large import need not write, and shut readers out, before its end.
        settings.push_back({"cache_size", "-65536", "-65536"});
    }
    for (const Setting& setting : settings) {
        answerTo(database, setting.name + " = " + setting.value);
        if (answerTo(database, setting.name) != setting.answer) {
            return setting.name;
        }
    }
    return std::nullopt;
}

void recover(const std::filesystem::path& path, int busyTimeoutMs) {
    // Reading does that.
    const auto undo = [&] {
        const DatabasePointer database = connect(path, SQLite::OPEN_READWRITE, busyTimeoutMs);
        tellingRefusal(*database, [&] { return answerTo(*database, "user_version"); });
    };
    try {
        undo();
        return;
    } catch (const SQLite::Exception& exception) {
        if (!isDamage(exception)) {
            throw;
        }
    }
    // What the disk did not give of the journal it may give when it is asked again.
    undo();
}

bool isCutOff(const SQLite::Exception& exception) {
    return codeOf(exception.getExtendedErrorCode()) == Trouble::Code::NeedsRecovery;
}

}  // namespace store
