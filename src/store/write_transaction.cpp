// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Taking the lock of a logbook, in the file that was opened and in no other; see connection.h.
#include "store/connection.h"

#include "store/database.h"
#include "store/operating_system.h"
#include "store/schema_guard.h"

#include <chrono>
#include <sqlite3.h>
#include <thread>
#include <utility>

namespace store {

namespace {

constexpr std::chrono::milliseconds betweenTries{10};

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

void WriteTransaction::commit() {
    m_isCommitting = true;
    m_transaction->commit();
    m_isCommitted = true;
    m_connection.m_writingError = 0;
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
