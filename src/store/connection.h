// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The connection to the database behind a logbook: opening, its settings, write transactions and
// the translation of database errors. For this folder only, since it shows SQLite.
#pragma once

#include "store/database.h"
#include "store/disk_refusal.h"
#include "store/heads.h"
#include "store/holder.h"
#include "store/logbook.h"
#include "store/row.h"
#include "store/trouble.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Exception.h>
#include <SQLiteCpp/Statement.h>
#include <SQLiteCpp/Transaction.h>

#include <atomic>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string_view>
#include <system_error>
#include <tl/expected.hpp>
#include <vector>

namespace store {

// Whether a page, or a value, is not what a logbook has there, or the disk does not give it.
[[nodiscard]] bool isDamage(const SQLite::Exception& exception);

enum class Schemas {
    Current,
    Older,  // also those from which there is a way to this one
    Any,    // also what is no logbook, as long as it is a database: only to be locked
};

// Two connections to one file: one that reads, and from the first transaction on one that writes,
// which does nothing in between. For a file that was put aside stands under another name, where
// what that name's new file is writing would be taken for a write of its own that was cut off, and
// undone: so it begins only while the one that reads keeps the file where it is.
class Connection {
public:
    // As Logbook::open.
    [[nodiscard]] static tl::expected<std::unique_ptr<Connection>, Trouble> open(
        const std::filesystem::path& path, const OpenOptions& options,
        Schemas schemas = Schemas::Current);

    [[nodiscard]] int schema() const { return m_schema; }  // as it was when it was opened

    // Within a WriteTransaction the one that writes.
    [[nodiscard]] Database& database() const {
        return m_isWriting ? *m_writing : *m_database;
    }
    [[nodiscard]] const std::filesystem::path& path() const { return m_path; }
    [[nodiscard]] OpenOptions::Access access() const { return m_access; }

    [[nodiscard]] Trouble trouble(Trouble::Code code, std::string_view text = {}) const;
    [[nodiscard]] Trouble trouble(const SQLite::Exception& exception) const;

    // What the function returns, or the trouble that the database had in it. It is called again
    // where a write that was cut off had to be undone first, and where the disk did not give what
    // was to be read; not within a transaction, which the database may have ended at that, nor once
    // `mayRepeat` has become false.
    template <class Function>
    [[nodiscard]] auto guarded(Function function, const bool& mayRepeat = always) const
        -> decltype(function()) {
        bool wasRefused = false;
        try {
            return function();
        } catch (const SQLite::Exception& exception) {
            wasRefused = mayRepeat && mayAskAgain(exception);
            if (!wasRefused && !(mayRepeat && undoes(exception))) {
                return tl::unexpected<Trouble>(trouble(exception));
            }
        }
        try {
            return function();
        } catch (const SQLite::Exception& exception) {
            return tl::unexpected<Trouble>(wasRefused && mayRepeat ? lastingTrouble(exception)
                                                                   : trouble(exception));
        }
    }

    // As guarded. Where what is asked cannot be read, in a file that is opened to read, `round` is
    // asked in its place, which keeps to what can be.
    template <class Function, class Round>
    [[nodiscard]] auto readingRound(Function function, Round round) const
        -> decltype(function()) {
        const bool isRead = m_access == OpenOptions::Access::Read;
        bool wasRefused = false;
        try {
            return function();
        } catch (const SQLite::Exception& exception) {
            wasRefused = mayAskAgain(exception);
            if (undoes(exception) || (wasRefused && !isRead)) {
                return guarded(function);
            }
            if (!isRead || !isDamage(exception)) {
                return tl::unexpected<Trouble>(trouble(exception));
            }
        }
        std::optional<Trouble> refused;
        try {
            if (wasRefused) {
                return function();
            }
        } catch (const SQLite::Exception& exception) {
            if (!isDamage(exception)) {
                return tl::unexpected<Trouble>(trouble(exception));
            }
            refused = lastingTrouble(exception);
        }
        auto result = guarded(round);
        if (result && refused && !isDiskThere(m_path)) {
            return tl::unexpected<Trouble>(trouble(Trouble::Code::Io, refused->text));
        }
        if (result) {
            m_metDamage = true;
            m_metRefusal = m_metRefusal || refused;
        }
        return result;
    }
    [[nodiscard]] bool metDamage() const { return m_metDamage; }
    // Whether what was read round is what the disk did not give.
    [[nodiscard]] bool metRefusal() const { return m_metRefusal; }

    // Whether the disk did not give what was to be read.
    [[nodiscard]] bool isRefused(const SQLite::Exception& exception) const;
    // Whether it did not, and may be asked again; what it said is forgotten then.
    [[nodiscard]] bool mayAskAgain(const SQLite::Exception& exception) const;
    // Of what was asked for twice: what the disk still does not give is damage, if it gives others.
    [[nodiscard]] Trouble lastingTrouble(const SQLite::Exception& exception) const;

    // Whether another file stands at the path now, or none.
    [[nodiscard]] bool hasMoved() const;

    // What is deleted from now on is written over in the file.
    void wipeDeleted() { m_wipesDeleted = true; }

    // As guarded, under the write lock; commits if the function returns a value, else rolls back.
    // What was about to be committed is not done again.
    template <class Function>
    [[nodiscard]] auto writing(const Writing& writing, Function function) const
        -> decltype(function());

private:
    friend class WriteTransaction;
    static constexpr bool always = true;
    // Whether it says that a write was cut off, in a file opened to write, and that is undone now.
    [[nodiscard]] bool undoes(const SQLite::Exception& exception) const;
    Connection(std::filesystem::path path, const OpenOptions& options, int schema,
               DatabasePointer database);

    std::filesystem::path m_path;
    OpenOptions::Access m_access;
    int m_busyTimeoutMs;
    int m_schema;
    bool m_wipesDeleted = false;
    DatabasePointer m_database;         // reads
    mutable DatabasePointer m_writing;  // null before the first transaction
    mutable bool m_isWriting = false;                     // within a transaction
    mutable int m_writingError = 0;  // what the system last told the one that wrote
    mutable std::atomic<bool> m_metDamage = false;
    mutable std::atomic<bool> m_metRefusal = false;
};

// A transaction that writes, and tells others who holds the lock. Rolls back unless committed. The
// database ends a transaction by itself where the disk fails: nothing that is written after that
// stays, and nothing is committed but by commit(). Throws SQLite::Exception, with
// SQLITE_READONLY_DBMOVED where the connection's file has moved.
class WriteTransaction {
public:
    enum class Lock {
        Writers,   // keeps out
        Everyone,  // so that nobody is about to begin either: the file may be moved
    };
    WriteTransaction(const Connection& connection, const Writing& writing,
                     Lock lock = Lock::Writers);
    ~WriteTransaction();
    WriteTransaction(const WriteTransaction&) = delete;
    WriteTransaction& operator=(const WriteTransaction&) = delete;
    // Throws as a disk that did not give what was to be read where it has been ended.
    void requireWhole() const;
    // On the disk too. What fails once it may stand in the file is thrown as Trouble's
    // WriteNotConfirmed.
    void commit();

private:
    void open() const;
    [[nodiscard]] bool isUndone(std::optional<std::uint32_t> before) const;
    void begin();
    [[nodiscard]] bool hasBegun();
    void beginAlone();
    void outdateJournals() const;
    void end();

    const Connection& m_connection;
    std::unique_ptr<SQLite::Transaction> m_transaction;
    bool m_isCommitting = false;  // nothing else may
    bool m_isCommitted = false;
    std::optional<HolderFile> m_holderFile;  // written under the lock
};

template <class Function>
auto Connection::writing(const Writing& writing, Function function) const
    -> decltype(function()) {
    if (m_access == OpenOptions::Access::Read) {
        return tl::unexpected<Trouble>(trouble(Trouble::Code::ReadOnly));
    }
    bool mayRepeat = true;
    return guarded(
        [&]() -> decltype(function()) {
            WriteTransaction transaction(*this, writing);
            auto result = function();
            if (result) {
                transaction.requireWhole();
                mayRepeat = false;
                transaction.commit();
            }
            return result;
        },
        mayRepeat);
}

// As Connection::trouble, of a file that has no connection.
[[nodiscard]] Trouble troubleOf(const std::filesystem::path& path,
                                const SQLite::Exception& exception);

// The code for an extended result code of SQLite.
[[nodiscard]] Trouble::Code codeOf(int extendedResultCode);

// The code for a file that the system does not let be made.
[[nodiscard]] Trouble::Code codeOfSystem(const std::error_code& error);

// The columns that rowOf reads, in its order.
inline constexpr std::string_view rowColumns =
    "arrival, station, seq, at_ms, entered_ms, device, kind, content, hash, arrived_ms";
[[nodiscard]] Row rowOf(SQLite::Statement& statement);
// Whether `content`, which its row says is of that kind, was read into `record`.
[[nodiscard]] bool readContent(std::string_view content, std::string_view kind,
                               logbook::Record& record,
                               logbook::WithContent withContent = logbook::WithContent::Yes);
// Nothing if its content is no record, or not that of its columns.
[[nodiscard]] std::optional<logbook::Record> recordOf(const Row& row);
// Zeros if the column holds no 32 bytes, which no chain of records has.
[[nodiscard]] Hash hashOf(const SQLite::Column& column);
void bindHash(SQLite::Statement& statement, int index, const Hash& hash);

// The condition of the index by that name, word for word, without which it is not used.
inline constexpr std::string_view thatFound = "kind IN ('adopt', 'person', 'strike')";

// Parts of Logbook that more than one of its files needs; they throw SQLite::Exception.
[[nodiscard]] std::optional<std::string> ownStation(Database& database);
[[nodiscard]] std::optional<Head> lastRecordOf(Database& database, const std::string& station);
[[nodiscard]] std::optional<Row> findRow(SQLite::Database& database,
                                         const logbook::RecordName& name);
[[nodiscard]] std::int64_t lastArrivalIn(Database& database);
[[nodiscard]] std::optional<Verification> readVerification(Database& database,
                                                           std::string_view condition);
[[nodiscard]] Heads notedHeads(Database& database);
[[nodiscard]] int schemaIn(SQLite::Database& database);

// Damaged, where the last verify has found pages that are not whole or the schema is strange; Io,
// where the file has a second name: for what can wait.
[[nodiscard]] std::optional<Trouble> refuseDamagedPages(const Connection& connection);

// What the database says of its pages, as many at most.
inline constexpr std::size_t mostMessages = 100;

// As Logbook::verify, held against that schema.
[[nodiscard]] tl::expected<VerifyReport, Trouble> verifyAs(int schema,
                                                           const Connection& connection,
                                                           const Progress& progress);
// As Logbook::backup; the copy has the schema of the file.
[[nodiscard]] tl::expected<BackupResult, Trouble> backUp(const Connection& connection,
                                                         const std::filesystem::path& target,
                                                         const Progress& progress);

// As Logbook::setStation and Logbook::appendOwn, within a transaction of the caller's.
[[nodiscard]] tl::expected<void, Trouble> nameStation(const Connection& connection,
                                                      const std::string& name,
                                                      logbook::Instant since);
[[nodiscard]] tl::expected<std::vector<logbook::RecordName>, Trouble> appendOwnRecords(
    const Connection& connection, const OwnRecords& build, const Writing& writing);

}  // namespace store
