// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Opens the database of a logbook, or refuses it and leaves it as it was.
#include "store/connection.h"

#include "store/operating_system.h"
#include "store/schema.h"
#include "store/unfinished_file.h"
#include "store/wiped_memory.h"

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <sqlite3.h>
#include <string>
#include <system_error>
#include <utility>
#include <vector>

namespace store {

namespace {

// A program that goes on would leave hashes in its memory and say nothing of it.
bool wipeOrStop() {
    if (!wipeFreedMemory()) {
        std::fputs("store: the database had begun its work before its memory could be wiped\n",
                   stderr);
        std::abort();
    }
    return true;
}

// Before main, since the database takes no setting once it has begun its work.
[[maybe_unused]] const bool memoryIsWiped = wipeOrStop();

using Access = OpenOptions::Access;
using DatabasePointer = std::unique_ptr<SQLite::Database>;

// Bytes: far beyond a kept state of ten million records, the largest value that a logbook holds.
constexpr int longestValue = 256 * 1024 * 1024;

Trouble troubleAt(const std::filesystem::path& path, Trouble::Code code,
                  std::string_view text = {}) {
    Trouble trouble;
    trouble.code = code;
    trouble.path = path;
    trouble.text = text;
    return trouble;
}

// What can be told before the database is asked.
std::optional<Trouble> refusePath(const std::filesystem::path& path, const OpenOptions& options) {
    std::error_code ignored;
    const bool there = std::filesystem::exists(path, ignored);
    if (options.access == Access::Create) {
        if (std::filesystem::exists(std::filesystem::symlink_status(path, ignored))) {
            return troubleAt(path, Trouble::Code::Exists);
        }
        if (!std::filesystem::is_directory(path.parent_path(), ignored)) {
            return troubleAt(path, Trouble::Code::NotFound);
        }
    } else if (!there) {
        return troubleAt(path, Trouble::Code::NotFound);
    } else if (!std::filesystem::is_regular_file(path, ignored)) {
        return troubleAt(path, Trouble::Code::NotALogbook);
    } else if (!system::mayRead(path)) {
        return troubleAt(path, Trouble::Code::NotPermitted);
    }
    // The database would wait for a pipe for ever.
    auto journal = path;
    journal += "-journal";
    const auto kind = std::filesystem::symlink_status(journal, ignored).type();
    if (kind != std::filesystem::file_type::not_found &&
        kind != std::filesystem::file_type::regular && kind != std::filesystem::file_type::none) {
        return troubleAt(path, Trouble::Code::Io, "its -journal is no plain file");
    }
    if (options.access != Access::Read &&
        (!system::mayWrite(path.parent_path()) || (there && !system::mayWrite(path)))) {
        return troubleAt(path, Trouble::Code::ReadOnly);
    }
    const auto type = system::networkFileSystemOf(there ? path : path.parent_path());
    if (type && !options.trustLocks) {
        return troubleAt(path, Trouble::Code::NetworkFileSystem, *type);
    }
    return std::nullopt;
}

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

// Used by one thread at a time: SQLite need not lock at every call.
DatabasePointer connect(const std::filesystem::path& path, int flags, int busyTimeoutMs) {
    auto database = std::make_unique<SQLite::Database>(
        path.native(), flags | SQLite::OPEN_NOMUTEX, busyTimeoutMs);
    guard(database->getHandle());
    return database;
}

std::string answerTo(SQLite::Database& database, const std::string& pragma) {
    SQLite::Statement statement(database, "PRAGMA " + pragma);
    return statement.executeStep() ? statement.getColumn(0).getString() : std::string();
}

// The name of the setting that did not take, if there is one.
std::optional<std::string> applySettings(SQLite::Database& database, const OpenOptions& options) {
    struct Setting {
        std::string name, value, answer;
    };
    const std::string timeout = std::to_string(options.busyTimeoutMs);
    std::vector<Setting> settings = {
        {"busy_timeout", timeout, timeout},
        {"synchronous", "EXTRA", "3"},
        {"foreign_keys", "ON", "1"},
        {"cell_size_check", "ON", "1"},
        // What must be undone if a row of many is refused, page by page, not in a file beside.
        {"temp_store", "MEMORY", "2"},
    };
    if (options.access != Access::Read) {
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

// Whether the file is a logbook of a schema that this version knows. Only reads.
std::optional<Trouble> refuseContent(SQLite::Database& database,
                                     const std::filesystem::path& path, Schemas schemas) {
    if (std::stoll(answerTo(database, "application_id")) != applicationId) {
        return troubleAt(path, Trouble::Code::NotALogbook);
    }
    const int schema = schemaIn(database);
    const bool isOlder = std::ranges::find(olderSchemas(), schema, &OlderSchema::version) !=
                         olderSchemas().end();
    if (schema > schemaVersion || (isOlder && schemas == Schemas::Current)) {
        Trouble trouble = troubleAt(path, Trouble::Code::NewerSchema);
        trouble.schemaFound = schema;
        trouble.schemaKnown = schemaVersion;
        return trouble;
    }
    if (schema != schemaVersion && !isOlder) {
        return troubleAt(path, Trouble::Code::NotALogbook);
    }
    // What bears the name of a table and is none would be computed, for ever if its maker wants.
    // The database finds a table by its name in capitals too.
    SQLite::Statement disguised(
        database, "SELECT name FROM sqlite_schema WHERE lower(name) IN ('records', 'local_heads',"
                  " 'local_station', 'local_settings', 'local_imports', 'local_credentials',"
                  " 'local_badges', 'local_verifications', 'derived_revision',"
                  " 'derived_snapshots') AND (type <> 'table' OR sql NOT LIKE 'CREATE TABLE%')");
    if (disguised.executeStep()) {
        return troubleAt(path, Trouble::Code::Damaged,
                         disguised.getColumn(0).getString() + " is no table");
    }
    return std::nullopt;
}

// Undoes a write that was cut off: reading does that, where the file may be written to.
void recover(const std::filesystem::path& path, int busyTimeoutMs) {
    const DatabasePointer database = connect(path, SQLite::OPEN_READWRITE, busyTimeoutMs);
    answerTo(*database, "user_version");
}

DatabasePointer connectToRead(const std::filesystem::path& path, const OpenOptions& options) {
    DatabasePointer database = connect(path, SQLite::OPEN_READONLY, options.busyTimeoutMs);
    try {
        answerTo(*database, "user_version");
    } catch (const SQLite::Exception& exception) {
        const Trouble::Code code = codeOf(exception.getExtendedErrorCode());
        if (code != Trouble::Code::NeedsRecovery || !system::mayWrite(path) ||
            !system::mayWrite(path.parent_path())) {
            throw;
        }
        recover(path, options.busyTimeoutMs);
        answerTo(*database, "user_version");
    }
    return database;
}

// The database as asked for, or why not. A file is only ever opened for writing once it is known
// for a logbook.
tl::expected<DatabasePointer, Trouble> openExisting(const std::filesystem::path& path,
                                                    const OpenOptions& options,
                                                    Schemas schemas) {
    DatabasePointer database = connectToRead(path, options);
    if (auto trouble = refuseContent(*database, path, schemas)) {
        return tl::unexpected<Trouble>(*trouble);
    }
    if (options.access != Access::Read) {
        database = connect(path, SQLite::OPEN_READWRITE, options.busyTimeoutMs);
        if (sqlite3_db_readonly(database->getHandle(), "main") != 0) {
            return tl::unexpected<Trouble>(troubleAt(path, Trouble::Code::ReadOnly));
        }
    }
    if (const auto failed = applySettings(*database, options)) {
        return tl::unexpected<Trouble>(troubleAt(path, Trouble::Code::Io, *failed));
    }
    return database;
}

// Makes an empty logbook there, or nothing.
std::optional<Trouble> create(const std::filesystem::path& path, const OpenOptions& options) {
    const UnfinishedFile file(path);
    if (const auto error = system::makePrivateFile(file.path())) {
        return troubleAt(path, codeOfSystem(error), error.message());
    }
    {
        const DatabasePointer database =
            connect(file.path(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, 0);
        if (const auto failed = applySettings(*database, options)) {
            return troubleAt(path, Trouble::Code::Io, *failed);
        }
        SQLite::Transaction transaction(*database, SQLite::TransactionBehavior::IMMEDIATE);
        database->exec(schemaText);
        database->exec("PRAGMA application_id = " + std::to_string(applicationId));
        database->exec("PRAGMA user_version = " + std::to_string(schemaVersion));
        transaction.commit();
    }
    if (const auto error = file.finish()) {
        const bool taken = error == std::errc::file_exists;
        return troubleAt(path, taken ? Trouble::Code::Exists : Trouble::Code::Io,
                         error.message());
    }
    return std::nullopt;
}

Trouble troubleOf(const std::filesystem::path& path, const SQLite::Exception& exception) {
    // A backup's steps give no extended code.
    const int code = exception.getExtendedErrorCode() > 0 ? exception.getExtendedErrorCode()
                                                          : exception.getErrorCode();
    Trouble trouble = troubleAt(path, codeOf(code), exception.what());
    if (trouble.code == Trouble::Code::Busy) {
        trouble.holder = readHolder(path);
    }
    return trouble;
}

}  // namespace

Trouble::Code codeOf(int extendedResultCode) {
    switch (extendedResultCode) {
        case SQLITE_READONLY_ROLLBACK:
        case SQLITE_READONLY_RECOVERY: return Trouble::Code::NeedsRecovery;
        case SQLITE_READONLY_DBMOVED: return Trouble::Code::Io;
        case SQLITE_IOERR_CORRUPTFS: return Trouble::Code::Damaged;
        default: break;
    }
    switch (extendedResultCode & 0xFF) {
        case SQLITE_BUSY:
        case SQLITE_LOCKED: return Trouble::Code::Busy;
        case SQLITE_FULL: return Trouble::Code::DiskFull;
        // Once a logbook is open, what cannot be opened is the journal in its folder.
        case SQLITE_CANTOPEN:
        case SQLITE_READONLY: return Trouble::Code::ReadOnly;
        case SQLITE_CORRUPT:
        // A value longer than any that a logbook holds.
        case SQLITE_TOOBIG:
        // A table that is not there, or lacks a column that every logbook has.
        case SQLITE_ERROR:
        case SQLITE_NOTADB: return Trouble::Code::Damaged;
        case SQLITE_PERM:
        case SQLITE_AUTH: return Trouble::Code::NotPermitted;
        default: return Trouble::Code::Io;
    }
}

Trouble::Code codeOfSystem(const std::error_code& error) {
    if (error == std::errc::no_space_on_device) {
        return Trouble::Code::DiskFull;
    }
    const bool readOnly = error == std::errc::permission_denied ||
                          error == std::errc::read_only_file_system;
    return readOnly ? Trouble::Code::ReadOnly : Trouble::Code::Io;
}

bool isDamage(const SQLite::Exception& exception) {
    const int code = exception.getErrorCode() & 0xFF;
    return code == SQLITE_CORRUPT || code == SQLITE_TOOBIG;
}

int schemaIn(SQLite::Database& database) {
    return std::stoi(answerTo(database, "user_version"));
}

const char* schemaTextOf(int version) {
    const auto older = std::ranges::find(olderSchemas(), version, &OlderSchema::version);
    return older == olderSchemas().end() ? schemaText : older->text;
}

Connection::Connection(std::filesystem::path path, OpenOptions::Access access, int schema,
                       std::unique_ptr<SQLite::Database> database)
    : m_path(std::move(path)),
      m_access(access),
      m_schema(schema),
      m_database(std::move(database)) {}

tl::expected<std::unique_ptr<Connection>, Trouble> Connection::open(
    const std::filesystem::path& path, const OpenOptions& options, Schemas schemas) {
    std::error_code error;
    // Absolute: SQLite reads a name that begins with "file:" in a way of its own.
    const std::filesystem::path whole = std::filesystem::absolute(path, error);
    if (error) {
        return tl::unexpected<Trouble>(troubleAt(path, Trouble::Code::Io, error.message()));
    }
    if (auto trouble = refusePath(whole, options)) {
        return tl::unexpected<Trouble>(*trouble);
    }
    try {
        if (options.access == Access::Create) {
            if (auto trouble = create(whole, options)) {
                return tl::unexpected<Trouble>(*trouble);
            }
        }
        auto database = openExisting(whole, options, schemas);
        if (!database) {
            return tl::unexpected<Trouble>(database.error());
        }
        const Access access = options.access == Access::Read ? Access::Read : Access::Write;
        const int schema = schemaIn(**database);
        return std::unique_ptr<Connection>(
            new Connection(whole, access, schema, std::move(*database)));
    } catch (const SQLite::Exception& exception) {
        Trouble trouble = troubleOf(whole, exception);
        if ((exception.getErrorCode() & 0xFF) == SQLITE_NOTADB) {
            trouble.code = Trouble::Code::NotALogbook;
        }
        return tl::unexpected<Trouble>(trouble);
    }
}

Trouble Connection::trouble(Trouble::Code code, std::string_view text) const {
    return troubleAt(m_path, code, text);
}

Trouble Connection::trouble(const SQLite::Exception& exception) const {
    return troubleOf(m_path, exception);
}

WriteTransaction::WriteTransaction(const Connection& connection, const Writing& writing)
    : m_transaction(connection.database(), SQLite::TransactionBehavior::IMMEDIATE),
      m_holderFile(connection.path(), Holder{writing.person, system::computerName(),
                                             system::processNumber(), writing.at}) {}

}  // namespace store
