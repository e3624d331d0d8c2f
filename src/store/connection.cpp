// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Opens the database of a logbook, or refuses it and leaves it as it was.
#include "store/connection.h"

#include "store/computed_schema.h"
#include "store/database.h"
#include "store/foreign_journal.h"
#include "store/header_check.h"
#include "store/journal_file.h"
#include "store/layer_file.h"
#include "store/operating_system.h"
#include "store/schema.h"
#include "store/stray_log.h"
#include "store/undone_mark.h"
#include "store/unfinished_file.h"
#include "store/unread.h"
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

Trouble troubleAt(const std::filesystem::path& path, Trouble::Code code,
                  std::string_view text = {}) {
    Trouble trouble;
    trouble.code = code;
    trouble.path = path;
    trouble.text = text;
    return trouble;
}

// The database follows links, and has its journal beside the file that they lead to: that is the
// place to look at, and stays the place of what was opened though a link is set anew. The path
// itself where no file is there.
std::filesystem::path whereLinksLead(const std::filesystem::path& path) {
    std::error_code error;
    auto place = std::filesystem::canonical(path, error);
    return !error && std::filesystem::is_regular_file(place, error) ? place : path;
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
    const auto kind = std::filesystem::symlink_status(journalOf(path), ignored).type();
    if (kind != std::filesystem::file_type::not_found &&
        kind != std::filesystem::file_type::regular && kind != std::filesystem::file_type::none) {
        return troubleAt(path, Trouble::Code::Io, journalIsNoPlainFile);
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

// Whether that is a logbook of a schema that this version knows.
std::optional<Trouble> refuseMark(const Mark& mark, const std::filesystem::path& path,
                                  Schemas schemas) {
    if (mark.application != applicationId) {
        return troubleAt(path, Trouble::Code::NotALogbook);
    }
    const int schema = mark.schema;
    const bool isOlder = std::ranges::find(olderSchemas(), schema, &OlderSchema::version) !=
                         olderSchemas().end();
    if (schema > schemaVersion || (isOlder && schemas == Schemas::Current)) {
        Trouble trouble = troubleAt(path, Trouble::Code::OtherSchema);
        trouble.schemaFound = schema;
        trouble.schemaKnown = schemaVersion;
        return trouble;
    }
    if (schema != schemaVersion && !isOlder) {
        return troubleAt(path, Trouble::Code::NotALogbook);
    }
    return std::nullopt;
}

Mark markOf(SQLite::Database& database) {
    return {std::stoi(answerTo(database, "application_id")), schemaIn(database)};
}

// Only reads.
std::optional<Trouble> refuseContent(SQLite::Database& database,
                                     const std::filesystem::path& path,
                                     const OpenOptions& options, Schemas schemas) {
    auto trouble = schemas == Schemas::Any ? std::nullopt
                                           : refuseMark(markOf(database), path, schemas);
    if (trouble) {
        return trouble;
    }
    // What bears the name of a table and is none would be computed, for ever if its maker wants.
    // The database finds a table by its name in capitals too.
    SQLite::Statement disguised(
        database, "SELECT name FROM sqlite_schema WHERE lower(name) IN " + std::string(ourTables) +
                      " AND (type <> 'table' OR sql NOT LIKE 'CREATE TABLE%')");
    if (disguised.executeStep()) {
        return troubleAt(path, Trouble::Code::Damaged,
                         disguised.getColumn(0).getString() + " is no table");
    }
    // Of one that is only to be locked nothing is asked.
    const bool isRead = schemas != Schemas::Any || options.access == Access::Read;
    const auto computed = isRead ? computedIn(database) : std::nullopt;
    return computed ? std::optional(troubleAt(path, Trouble::Code::Damaged, *computed))
                    : std::nullopt;
}

// Whether the file is of a kind beside which there is no log: "The Database Header" in SQLite's
// fileformat2.html, offsets 18 and 19. Read by the database's own file, since to close another one
// would let go of the locks of this program. Asked for twice, and thrown, where it is not given.
bool isWithoutLog(const std::filesystem::path& path) {
    LayerFile file(path);
    std::array<char, 2> kind{};
    int code = file.read(kind.data(), kind.size(), 18);
    if (code != SQLITE_OK && code != SQLITE_IOERR_SHORT_READ) {
        code = file.read(kind.data(), kind.size(), 18);
    }
    if (code != SQLITE_OK && code != SQLITE_IOERR_SHORT_READ) {
        throw refusal(std::generic_category().message(file.systemError()));
    }
    return code == SQLITE_OK && kind[0] == 1 && kind[1] == 1;
}

// Whether beside it lies a log as other programs make it, which is not of that file: the database
// would take pages from it. One that is empty has none, and keeps only writers out.
bool hasStrayLog(const std::filesystem::path& path, Access access) {
    auto log = path;
    log += "-wal";
    std::error_code error;
    if (!std::filesystem::exists(std::filesystem::symlink_status(log, error))) {
        return false;
    }
    const bool isEmpty = std::filesystem::is_regular_file(log, error) &&
                         std::filesystem::file_size(log, error) == 0;
    return access == Access::Create ||
           ((access == Access::Write || !isEmpty) && isWithoutLog(path));
}

// What is refused is, before a write that was cut off in it is undone, which would change it. Anew
// after that: another file may have taken the place.
tl::expected<DatabasePointer, Trouble> connectToRead(const std::filesystem::path& path,
                                                     const OpenOptions& options,
                                                     Schemas schemas) {
    const auto read = [&] {
        DatabasePointer database = connect(path, SQLite::OPEN_READONLY, options.busyTimeoutMs);
        tellingRefusal(*database, [&] { return answerTo(*database, "user_version"); });
        return database;
    };
    try {
        return read();
    } catch (const SQLite::Exception& exception) {
        if (!isCutOff(exception) || !system::mayWrite(path) ||
            !system::mayWrite(path.parent_path())) {
            throw;
        }
    }
    const auto mark = markOnceUndone(path);
    auto trouble = mark ? refuseMark(*mark, path, schemas) : std::nullopt;
    if (trouble) {
        return tl::unexpected<Trouble>(*std::move(trouble));
    }
    recover(path, options.busyTimeoutMs);
    return read();
}

// A file that another program has left with a journal of another kind gets its own before anybody
// reads it, and not while whoever asked for the kind has it open.
std::optional<Trouble> leaveOtherJournal(DatabasePointer& database,
                                         const std::filesystem::path& path,
                                         const OpenOptions& options, Schemas schemas) {
    if (answerTo(*database, "journal_mode") == "delete") {
        return std::nullopt;
    }
    database.reset();
    const auto failed =
        applySettings(*connect(path, SQLite::OPEN_READWRITE, options.busyTimeoutMs), options);
    auto again = connectToRead(path, options, schemas);
    if (failed || !again) {
        return failed ? troubleAt(path, Trouble::Code::Io, *failed) : again.error();
    }
    database = *std::move(again);
    return std::nullopt;
}

// The database, to be read, or why not.
tl::expected<DatabasePointer, Trouble> openToRead(const std::filesystem::path& path,
                                                  const OpenOptions& options, Schemas schemas) {
    auto connected = connectToRead(path, options, schemas);
    if (!connected) {
        return connected;
    }
    DatabasePointer database = *std::move(connected);
    auto trouble = tellingRefusal(
        *database, [&] { return refuseContent(*database, path, options, schemas); });
    if (!trouble && options.access != Access::Read) {
        trouble = leaveOtherJournal(database, path, options, schemas);
    }
    if (trouble) {
        return tl::unexpected<Trouble>(*std::move(trouble));
    }
    const auto failed = tellingRefusal(*database, [&] {
        return applySettings(*database, {Access::Read, false, options.busyTimeoutMs});
    });
    if (failed) {
        return tl::unexpected<Trouble>(troubleAt(path, Trouble::Code::Io, *failed));
    }
    return database;
}

// The same, asked for twice where the disk does not give what is to be read.
tl::expected<DatabasePointer, Trouble> openExisting(const std::filesystem::path& path,
                                                    const OpenOptions& options,
                                                    Schemas schemas) {
    try {
        return openToRead(path, options, schemas);
    } catch (const SQLite::Exception& exception) {
        if (!isRefusal(exception) && !(isDamage(exception) && hasJournalLeft(path))) {
            throw;
        }
    }
    try {
        return openToRead(path, options, schemas);
    } catch (const SQLite::Exception& exception) {
        if (!isRefusal(exception)) {
            throw;
        }
        return tl::unexpected<Trouble>(
            unreadTrouble(path, reasonAtBeginning(path, exception)));
    }
}

int schemaOf(SQLite::Database& database) {
    const auto read = [&] { return schemaIn(database); };
    try {
        return tellingRefusal(database, read);
    } catch (const SQLite::Exception& exception) {
        if (!isRefusal(exception)) {
            throw;
        }
    }
    return tellingRefusal(database, read);
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
    if (const auto error = file.takeName()) {
        const bool taken = error == std::errc::file_exists;
        return troubleAt(path, taken ? Trouble::Code::Exists : codeOfSystem(error),
                         error.message());
    }
    if (const auto error = file.confirmName()) {
        return troubleAt(path, Trouble::Code::NotConfirmed, error.message());
    }
    return std::nullopt;
}

}  // namespace

int schemaIn(SQLite::Database& database) {
    return std::stoi(answerTo(database, "user_version"));
}

const char* schemaTextOf(int version) {
    const auto older = std::ranges::find(olderSchemas(), version, &OlderSchema::version);
    return older == olderSchemas().end() ? schemaText : older->text;
}

Connection::Connection(std::filesystem::path path, const OpenOptions& options, int schema,
                       DatabasePointer database)
    : m_path(std::move(path)),
      m_access(options.access == Access::Read ? Access::Read : Access::Write),
      m_busyTimeoutMs(options.busyTimeoutMs),
      m_schema(schema),
      m_database(std::move(database)) {}

tl::expected<std::unique_ptr<Connection>, Trouble> Connection::open(
    const std::filesystem::path& path, const OpenOptions& options, Schemas schemas) {
    std::error_code error;
    // Absolute: SQLite reads a name that begins with "file:" in a way of its own.
    std::filesystem::path whole = std::filesystem::absolute(path, error);
    if (error) {
        return tl::unexpected<Trouble>(troubleAt(path, Trouble::Code::Io, error.message()));
    }
    if (options.access != Access::Create) {
        whole = whereLinksLead(whole);
    }
    if (auto trouble = refusePath(whole, options)) {
        return tl::unexpected<Trouble>(*trouble);
    }
    try {
        if (hasStrayLog(whole, options.access)) {
            return tl::unexpected<Trouble>(troubleAt(whole, Trouble::Code::Io, strayLog));
        }
        if (options.access == Access::Create) {
            if (auto trouble = create(whole, options)) {
                return tl::unexpected<Trouble>(*trouble);
            }
            whole = whereLinksLead(whole);
        }
        auto database = openExisting(whole, options, schemas);
        if (!database) {
            return tl::unexpected<Trouble>(database.error());
        }
        const int schema = schemaOf(**database);
        return std::unique_ptr<Connection>(
            new Connection(whole, options, schema, std::move(*database)));
    } catch (const SQLite::Exception& exception) {
        // Before it is made, nothing is there to be given.
        Trouble trouble = isRefusal(exception) && options.access != Access::Create
                              ? unreadTrouble(whole, exception.what())
                              : troubleOf(whole, exception);
        if ((exception.getErrorCode() & 0xFF) == SQLITE_NOTADB && !harmOfHeader(whole)) {
            trouble.code = Trouble::Code::NotALogbook;
        }
        return tl::unexpected<Trouble>(trouble);
    }
}

bool Connection::undoes(const SQLite::Exception& exception) const {
    if (!isCutOff(exception) || m_access != Access::Write || m_isWriting || hasMoved()) {
        return false;
    }
    try {
        recover(m_path, m_busyTimeoutMs);
        return true;
    } catch (const SQLite::Exception&) {
        return false;
    }
}

bool Connection::hasMoved() const {
    int moved = 0;
    sqlite3_file_control(m_database->getHandle(), "main", SQLITE_FCNTL_HAS_MOVED, &moved);
    return moved != 0;
}

}  // namespace store
