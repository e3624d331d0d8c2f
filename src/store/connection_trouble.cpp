// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Errors of the database and the system as trouble; see connection.h.
#include "store/connection.h"

#include "store/header_check.h"
#include "store/journal_file.h"
#include "store/operating_system.h"
#include "store/unread.h"

#include <cerrno>
#include <sqlite3.h>
#include <string>
#include <system_error>
#include <utility>

namespace store {

namespace {

// Once a logbook is open, what cannot be opened is the journal in its folder, and the database does
// not tell why.
Trouble::Code whyNoFileIsMade(const std::filesystem::path& logbook) {
    auto path = logbook;
    path += ".unfinished-" + std::to_string(system::processNumber());
    // The name of a journal too, that is cleared away where it is left over.
    path = journalOf(path);
    const auto error = system::makePrivateFile(path);
    if (error) {
        return codeOfSystem(error);
    }
    std::error_code ignored;
    std::filesystem::remove(path, ignored);
    return Trouble::Code::Io;
}

}  // namespace

Trouble troubleOf(const std::filesystem::path& path, const SQLite::Exception& exception) {
    // A backup's steps give no extended code.
    const int code = exception.getExtendedErrorCode() > 0 ? exception.getExtendedErrorCode()
                                                          : exception.getErrorCode();
    Trouble trouble;
    trouble.code = codeOf(code);
    trouble.path = path;
    trouble.text = exception.what();
    if (trouble.code == Trouble::Code::ReadOnly || (code & 0xFF) == SQLITE_NOTADB) {
        if (auto harm = harmOfHeader(path)) {
            trouble.code = Trouble::Code::Damaged;
            trouble.text = *std::move(harm);
        }
    }
    if (trouble.code == Trouble::Code::Busy) {
        trouble.holder = readHolder(path);
    }
    if ((code & 0xFF) == SQLITE_CANTOPEN) {
        trouble.code = whyNoFileIsMade(path);
    }
    trouble.isUnread = trouble.code == Trouble::Code::Io && (code & 0xFF) == SQLITE_IOERR &&
                       isNothingGiven(path);
    return trouble;
}

Trouble::Code codeOf(int extendedResultCode) {
    switch (extendedResultCode) {
        case SQLITE_READONLY_ROLLBACK:
        case SQLITE_READONLY_RECOVERY: return Trouble::Code::NeedsRecovery;
        case SQLITE_READONLY_DBMOVED: return Trouble::Code::Moved;
        case SQLITE_IOERR_CORRUPTFS: return Trouble::Code::Damaged;
        case SQLITE_CONSTRAINT_COMMITHOOK: return Trouble::Code::Io;  // what could not be whole
        // No flush of a folder is the database's: as WriteTransaction::commit throws it.
        case SQLITE_IOERR_DIR_FSYNC: return Trouble::Code::WriteNotConfirmed;
        default: break;
    }
    switch (extendedResultCode & 0xFF) {
        case SQLITE_BUSY:
        case SQLITE_LOCKED: return Trouble::Code::Busy;
        case SQLITE_FULL: return Trouble::Code::DiskFull;
        case SQLITE_READONLY: return Trouble::Code::ReadOnly;
        case SQLITE_CORRUPT:
        // A value longer than any that a logbook holds.
        case SQLITE_TOOBIG:
        // A table that is not there, or lacks a column that every logbook has.
        case SQLITE_ERROR:
        // A schema or a trigger that is not this version's, or a value that no program writes.
        case SQLITE_CONSTRAINT:
        case SQLITE_MISMATCH:
        case SQLITE_NOTADB: return Trouble::Code::Damaged;
        case SQLITE_PERM:
        case SQLITE_AUTH: return Trouble::Code::NotPermitted;
        default: return Trouble::Code::Io;
    }
}

Trouble::Code codeOfSystem(const std::error_code& error) {
    if (error == std::errc::no_space_on_device || error == std::errc::file_too_large ||
        error == std::error_condition(EDQUOT, std::generic_category())) {
        return Trouble::Code::DiskFull;
    }
    const bool readOnly = error == std::errc::permission_denied ||
                          error == std::errc::read_only_file_system;
    return readOnly ? Trouble::Code::ReadOnly : Trouble::Code::Io;
}

bool isDamage(const SQLite::Exception& exception) {
    const int code = exception.getErrorCode() & 0xFF;
    return code == SQLITE_CORRUPT || code == SQLITE_TOOBIG || isRefusal(exception);
}

Trouble Connection::trouble(Trouble::Code code, std::string_view text) const {
    Trouble trouble;
    trouble.code = code;
    trouble.path = m_path;
    trouble.text = text;
    trouble.isUnread = code == Trouble::Code::Io && isNothingGiven(m_path);
    return trouble;
}

Trouble Connection::trouble(const SQLite::Exception& exception) const {
    Trouble trouble = troubleOf(m_path, exception);
    // What is left there of a write is the other file's.
    if (trouble.code == Trouble::Code::NeedsRecovery && hasMoved()) {
        trouble.code = Trouble::Code::Moved;
    } else if (trouble.code == Trouble::Code::NeedsRecovery && reasonOfJournal(m_path)) {
        return unreadTrouble(m_path, trouble.text);
    } else if (exception.getExtendedErrorCode() == SQLITE_IOERR_WRITE && m_writingError == EFBIG) {
        trouble.code = Trouble::Code::DiskFull;  // the file may grow no further
    }
    return trouble;
}

bool Connection::isRefused(const SQLite::Exception& exception) const {
    return isRefusedBy(database(), exception) || (isDamage(exception) && m_writingError != 0);
}

bool Connection::mayAskAgain(const SQLite::Exception& exception) const {
    // What of a journal is not given the database takes for a damaged page as well.
    const bool mayBeRefused =
        isRefused(exception) || (isDamage(exception) && hasJournalLeft(m_path));
    if (m_isWriting || !mayBeRefused) {
        return false;
    }
    forgetSystemError(database());
    return true;
}

Trouble Connection::lastingTrouble(const SQLite::Exception& exception) const {
    if (!isRefused(exception)) {
        return trouble(exception);
    }
    const int error = systemErrorOf(database());
    return unreadTrouble(m_path, reasonOf(error == 0 ? m_writingError : error, exception));
}

}  // namespace store
