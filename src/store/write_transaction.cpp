// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Taking the lock of a logbook, in the file that was opened and in no other; see connection.h.
#include "store/connection.h"

#include "store/database.h"
#include "store/journal_file.h"
#include "store/operating_system.h"
#include "store/schema_guard.h"
#include "store/second_name.h"

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <sqlite3.h>
#include <string>
#include <system_error>
#include <thread>
#include <utility>

namespace store {

namespace {

constexpr std::chrono::milliseconds betweenTries{10};

// The file's own count of its commits; nothing where the disk does not give it.
std::optional<std::uint32_t> commitsIn(Database& database) {
    constexpr sqlite3_int64 place = 24;  // by the format of database files
    sqlite3_file* file = nullptr;
    sqlite3_file_control(database.getHandle(), "main", SQLITE_FCNTL_FILE_POINTER, &file);
    std::uint32_t count = 0;
    if (file == nullptr || file->pMethods == nullptr ||
        file->pMethods->xRead(file, &count, sizeof count, place) != SQLITE_OK) {
        return std::nullopt;
    }
    return count;
}

// Where a link leads to.
std::filesystem::path placeOf(Database& database) {
    return sqlite3_db_filename(database.getHandle(), "main");
}

// By its code it is told as Trouble::Code::WriteNotConfirmed.
SQLite::Exception notConfirmed(const std::string& reason) {
    return {reason, SQLITE_IOERR_DIR_FSYNC};
}

}  // namespace

WriteTransaction::WriteTransaction(const Connection& connection, const Writing& writing,
                                   Lock lock)
    : m_connection(connection) {
    try {
        lock == Lock::Writers ? begin() : beginAlone();
        m_connection.m_isWriting = true;
        sqlite3_commit_hook(
            m_connection.m_writing->getHandle(),
            [](void* transaction) {
                return static_cast<WriteTransaction*>(transaction)->m_isCommitting ? 0 : 1;
            },
            this);
        m_holderFile.emplace(connection.path(), Holder{writing.person, system::computerName(),
                                                       system::processNumber(), writing.at});
    } catch (...) {
        end();
        throw;
    }
}

WriteTransaction::~WriteTransaction() {
    end();
}

void WriteTransaction::requireWhole() const {
    if (sqlite3_get_autocommit(m_connection.m_writing->getHandle()) != 0) {
        throw refusal("the database has ended the transaction");
    }
}

// What is to be undone has its journal beside the file until it is. Where nothing says that it is,
// the last step of a commit may have failed behind the one that makes it so.
bool WriteTransaction::isUndone(std::optional<std::uint32_t> before) const {
    Database& database = *m_connection.m_writing;
    const auto now = commitsIn(database);
    std::error_code unknown;
    return before && now &&
           (*now == *before || std::filesystem::exists(journalOf(placeOf(database)), unknown));
}

void WriteTransaction::commit() {
    const auto before = commitsIn(*m_connection.m_writing);
    m_isCommitting = true;
    try {
        m_transaction->commit();
    } catch (const SQLite::Exception& exception) {
        if (isUndone(before)) {
            throw;
        }
        throw notConfirmed(exception.what());
    }
    m_isCommitted = true;
    m_connection.m_writingError = 0;
    if (hasSecondName(m_connection.path())) {
        outdateJournals();
    }
    // That the journal is gone makes the commit, and has to come to the disk too. A folder whose
    // names may not be read cannot be waited for.
    const auto error = system::flush(placeOf(*m_connection.m_writing).parent_path());
    if (error && error != std::errc::permission_denied) {
        throw notConfirmed(error.message());
    }
}

// Beside another name of the file the journal of a write that was cut off may lie, which would be
// taken for one of the write that was just made, and undo it. One that is two writes old is known
// to be of another time; see journal_check.h. So another one follows, which changes nothing.
void WriteTransaction::outdateJournals() const {
    try {
        Database& database = *m_connection.m_writing;
        SQLite::Transaction another(database, SQLite::TransactionBehavior::IMMEDIATE);
        database.exec("PRAGMA user_version = " + answerTo(database, "user_version"));
        another.commit();
    } catch (const SQLite::Exception&) {
        // What was asked for stands there.
        return;
    }
}

// What was not committed may have left the connection in any state.
void WriteTransaction::end() {
    m_holderFile.reset();
    m_transaction.reset();
    m_connection.m_isWriting = false;
    if (m_connection.m_writing) {
        sqlite3_commit_hook(m_connection.m_writing->getHandle(), nullptr, nullptr);
    }
    if (!m_isCommitted && m_connection.m_writing) {
        m_connection.m_writingError = systemErrorOf(*m_connection.m_writing);
        m_connection.m_writing.reset();
    }
}

void WriteTransaction::open() const {
    auto database = connect(m_connection.path(), SQLite::OPEN_READWRITE, 0);
    // Before anything of it is read.
    if (m_connection.hasMoved()) {
        throw SQLite::Exception("another file stands there", SQLITE_READONLY_DBMOVED);
    }
    if (sqlite3_db_readonly(database->getHandle(), "main") != 0) {
        throw SQLite::Exception("it can only be read", SQLITE_READONLY);
    }
    if (const auto failed = applySettings(*database, {OpenOptions::Access::Write, false, 0})) {
        throw SQLite::Exception(*failed, SQLITE_IOERR);
    }
    m_connection.m_writing = std::move(database);
}

void WriteTransaction::begin() {
    const auto end = std::chrono::steady_clock::now() +
                     std::chrono::milliseconds(m_connection.m_busyTimeoutMs);
    while (!hasBegun()) {
        if (std::chrono::steady_clock::now() >= end) {
            throw SQLite::Exception("others go on writing", SQLITE_BUSY);
        }
        std::this_thread::sleep_for(betweenTries);
    }
    m_connection.m_writing->setBusyTimeout(m_connection.m_busyTimeoutMs);
    guardSchema(*m_connection.m_writing, m_connection.schema());
}

// False where others write. As long as the other connection reads, nobody puts the file aside, who
// has to wait for all to be done: so it is this file whose journal stands there when the one that
// writes looks at it, and nothing else is undone as a write of its own that was cut off.
bool WriteTransaction::hasBegun() {
    try {
        const SQLite::Transaction moment(*m_connection.m_database);
        answerTo(*m_connection.m_database, "user_version");
        if (m_connection.hasMoved()) {
            throw SQLite::Exception("another file stands there", SQLITE_READONLY_DBMOVED);
        }
        if (!m_connection.m_writing) {
            open();
        }
        m_connection.m_writing->setBusyTimeout(0);
        if (m_connection.m_wipesDeleted) {
            m_connection.m_writing->exec("PRAGMA secure_delete = ON");
        }
        m_transaction = std::make_unique<SQLite::Transaction>(
            *m_connection.m_writing, SQLite::TransactionBehavior::IMMEDIATE);
        return true;
    } catch (const SQLite::Exception& exception) {
        if (isCutOff(exception) && !m_connection.hasMoved()) {
            recover(m_connection.path(), m_connection.m_busyTimeoutMs);
        } else if ((exception.getErrorCode() & 0xFF) != SQLITE_BUSY) {
            throw;
        }
    }
    return false;
}

void WriteTransaction::beginAlone() {
    open();
    m_connection.m_writing->setBusyTimeout(m_connection.m_busyTimeoutMs);
    m_transaction = std::make_unique<SQLite::Transaction>(
        *m_connection.m_writing, SQLite::TransactionBehavior::EXCLUSIVE);
    if (m_connection.hasMoved()) {
        throw SQLite::Exception("another file stands there", SQLITE_READONLY_DBMOVED);
    }
}

}  // namespace store
