// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Backups: a copy that has been proved before it has a name.
#include "store/logbook.h"

#include "store/connection.h"
#include "store/operating_system.h"
#include "store/page_damage.h"
#include "store/schema.h"
#include "store/unfinished_file.h"

#include <algorithm>
#include <cstdint>
#include <sqlite3.h>
#include <string>
#include <system_error>
#include <utility>

namespace store {

namespace {

constexpr std::size_t mostNamed = 100;

enum class Copied { Whole, Cancelled };

// Of the two files it is the one that is read.
struct SourceFailure {
    SQLite::Exception exception;
};

// What the function returns; throws SourceFailure.
template <class Function>
auto inSource(Function function) -> decltype(function()) {
    try {
        return function();
    } catch (const SQLite::Exception& exception) {
        throw SourceFailure{exception};
    }
}

// A table, with the columns in which it is the same in both files.
struct Table {
    std::string name, columns, rows;  // `rows`: the condition and order of those to copy
};

void bindAs(SQLite::Statement& statement, int index, const SQLite::Column& column) {
    switch (column.getType()) {
        case SQLITE_INTEGER: statement.bind(index, column.getInt64()); break;
        case SQLITE_BLOB: statement.bind(index, column.getBlob(), column.getBytes()); break;
        default: statement.bind(index, column.getString()); break;
    }
}

// How many rows there were.
std::int64_t copyRows(Database& from, Database& to, const Table& table) {
    SQLite::Statement read(from, "SELECT " + table.columns + " FROM " + table.name + " " +
                                     table.rows);
    std::string places = "?";
    for (int column = 1; column < read.getColumnCount(); ++column) {
        places += ", ?";
    }
    SQLite::Statement write(to, "INSERT INTO " + table.name + " (" + table.columns +
                                    ") VALUES (" + places + ")");
    std::int64_t rows = 0;
    for (; inSource([&] { return read.executeStep(); }); ++rows) {
        for (int column = 0; column < read.getColumnCount(); ++column) {
            bindAs(write, column + 1, read.getColumn(column));
        }
        write.exec();
        write.reset();
    }
    return rows;
}

// An empty logbook that takes rows as they come: a gap that the other has is found by verifying the
// copy. `finishCopy` makes it a logbook like any other.
std::string beginCopy(Database& copy, int schema) {
    copy.exec("PRAGMA synchronous = FULL");
    SQLite::Transaction transaction(copy, SQLite::TransactionBehavior::IMMEDIATE);
    copy.exec(schemaTextOf(schema));
    copy.exec("PRAGMA application_id = " + std::to_string(applicationId));
    copy.exec("PRAGMA user_version = " + std::to_string(schema));
    const auto guard =
        copy.execAndGet("SELECT sql FROM sqlite_master WHERE name = 'records_are_only_appended'")
            .getString();
    copy.exec("DROP TRIGGER records_are_only_appended");
    transaction.commit();
    return guard;
}

// What is copied is what was there at one moment: heads and notes of verify, which guard the
// records, and the records up to the last one then. The rest belongs to the other file alone, and
// its secrets are never on the way here.
Copied copyTables(Database& from, Database& copy, const Progress& progress) {
    const std::string guard = beginCopy(copy, inSource([&] { return schemaIn(from); }));
    std::int64_t last = 0;
    {
        SQLite::Transaction moment(from);
        SQLite::Transaction transaction(copy, SQLite::TransactionBehavior::IMMEDIATE);
        last = inSource([&] { return lastArrivalIn(from); });
        copyRows(from, copy, {"local_heads", "station, seq, hash, entered_ms, arrived_ms", ""});
        // Damaged pages are those of the other file.
        copyRows(from, copy,
                 {"local_verifications", "ok, number, at_ms, checked, heads, breaks",
                  "WHERE checked <> " + std::to_string(pagesDamaged)});
        transaction.commit();
    }
    std::int64_t done = 0;
    for (bool more = true; more;) {
        SQLite::Transaction transaction(copy, SQLite::TransactionBehavior::IMMEDIATE);
        const auto rows = copyRows(
            from, copy,
            {"records", std::string(rowColumns),
             "WHERE arrival > " + std::to_string(done) + " AND arrival <= " +
                 std::to_string(last) + " ORDER BY arrival LIMIT " +
                 std::to_string(rowsPerTransaction)});
        more = rows == rowsPerTransaction;
        done = more ? lastArrivalIn(copy) : last;
        if (!more) {
            copy.exec(guard);
        }
        transaction.commit();
        if (progress && !progress(done, last)) {
            return Copied::Cancelled;
        }
    }
    return Copied::Whole;
}

Trouble troubleAt(const std::filesystem::path& path, Trouble trouble) {
    trouble.path = path;
    return trouble;
}

// Of the two files, what is broken or locked is the one that is read.
bool arisesInSource(Trouble::Code code) {
    return code == Trouble::Code::Busy || code == Trouble::Code::Damaged ||
           code == Trouble::Code::NeedsRecovery;
}

// Throws SourceFailure.
tl::expected<Copied, Trouble> copyOnce(const Connection& source, const UnfinishedFile& file,
                                       const Progress& progress) {
    if (const auto error = system::makePrivateFile(file.path())) {
        return tl::unexpected<Trouble>(troubleAt(
            file.finalPath(), source.trouble(codeOfSystem(error), error.message())));
    }
    try {
        Database copy(file.path().native(), SQLite::OPEN_READWRITE);
        return copyTables(source.database(), copy, progress);
    } catch (const SQLite::Exception& exception) {
        // What cannot be opened is the journal of the copy: the other file is only read.
        const bool isOfCopy = (exception.getErrorCode() & 0xFF) == SQLITE_CANTOPEN;
        Trouble trouble = isOfCopy ? troubleOf(file.path(), exception) : source.trouble(exception);
        // What no whole logbook holds, this one has; what the database takes for damage of the copy
        // is what the copy's disk does not give.
        if ((exception.getErrorCode() & 0xFF) == SQLITE_CONSTRAINT) {
            trouble.code = Trouble::Code::Damaged;
        } else if (trouble.code == Trouble::Code::Damaged) {
            trouble.code = Trouble::Code::Io;
        }
        if (arisesInSource(trouble.code)) {
            return tl::unexpected<Trouble>(trouble);
        }
        return tl::unexpected<Trouble>(troubleAt(file.finalPath(), trouble));
    }
}

tl::expected<Copied, Trouble> copyForBackup(const Connection& source, const UnfinishedFile& file,
                                            const Progress& progress) {
    try {
        return copyOnce(source, file, progress);
    } catch (const SourceFailure& failure) {
        if (!source.isRefused(failure.exception)) {
            return tl::unexpected<Trouble>(source.trouble(failure.exception));
        }
    }
    // What the disk did not give it may give when it is asked again.
    if (const auto error = system::removeFile(file.path())) {
        return tl::unexpected<Trouble>(
            troubleAt(file.finalPath(), source.trouble(codeOfSystem(error), error.message())));
    }
    try {
        return copyOnce(source, file, progress);
    } catch (const SourceFailure& failure) {
        return tl::unexpected<Trouble>(source.lastingTrouble(failure.exception));
    }
}

// Every head of either is a record of the other.
bool sameHeads(Database& source, const Heads& before, const Heads& copied) {
    for (const auto& [station, head] : before) {
        const auto there = copied.find(station);
        if (there == copied.end() || there->second.seq < head.seq) {
            return false;
        }
    }
    for (const auto& [station, head] : copied) {
        const auto row = findRow(source, {station, head.seq});
        if (!row || row->hash != head.hash) {
            return false;
        }
    }
    return true;
}

// In English, and may be empty.
std::string firstFinding(const VerifyReport& report) {
    if (!report.integrity.empty()) {
        return report.integrity.front();
    }
    if (!report.schemaChanged.empty()) {
        return report.schemaChanged.front();
    }
    return report.breaks.empty() ? "" : report.breaks.front().detail;
}

Trouble brokenChain(const Connection& source, const VerifyReport& report) {
    Trouble trouble = source.trouble(Trouble::Code::ChainBroken);
    for (const Break& found : report.breaks) {
        if (trouble.records.size() < mostNamed) {
            trouble.records.push_back(found.record);
        }
    }
    trouble.text = firstFinding(report);
    return trouble;
}

bool isSame(const Row& one, const Row& other) {
    return one.place == other.place && one.device == other.device && one.kind == other.kind &&
           one.content == other.content && one.hash == other.hash &&
           one.arrival == other.arrival;
}

// Whether what does not fit in the copy stands just so in the logbook. What concerns no record is
// the copy's alone, since all but the rows was made anew.
bool standsInBoth(Database& source, Database& copy, const VerifyReport& report) {
    return report.integrity.empty() && report.schemaChanged.empty() &&
           std::ranges::all_of(report.breaks, [&](const Break& found) {
               const auto there = findRow(source, found.record);
               const auto here = findRow(copy, found.record);
               return there.has_value() == here.has_value() && (!there || isSame(*there, *here));
           });
}

struct Proof {
    Heads heads;
    std::uint64_t bytes = 0;
};

// Of the copy, once it has been read from its disk and found whole.
tl::expected<Proof, Trouble> provedCopy(const Connection& source, const Heads& before,
                                        const UnfinishedFile& file) {
    const auto refused = [&](Trouble trouble) {
        // It is no logbook yet, and nothing is to be read round in it.
        if (trouble.isUnread) {
            trouble.isUnread = false;
            trouble.code = Trouble::Code::Io;
        }
        return tl::unexpected<Trouble>(troubleAt(file.finalPath(), std::move(trouble)));
    };
    if (const auto error = system::flushAndForget(file.path())) {
        return refused(source.trouble(codeOfSystem(error), error.message()));
    }
    // Nobody else uses a file of that name, so its locks need no trust.
    const auto copy = Connection::open(file.path(), {OpenOptions::Access::Read, true},
                                       Schemas::Older);
    if (!copy) {
        return refused(copy.error());
    }
    const auto report = verifyAs(source.schema(), **copy, {});
    if (!report) {
        return refused(report.error());
    }
    if (report->diskFailed) {
        return refused(source.trouble(Trouble::Code::Io, firstFinding(*report)));
    }
    auto& written = (*copy)->database();
    if (!report->ok()) {
        return standsInBoth(source.database(), written, *report)
                   ? tl::unexpected<Trouble>(brokenChain(source, *report))
                   : refused(source.trouble(Trouble::Code::Io,
                                            "what was read back is not what was written"));
    }
    if (!sameHeads(source.database(), before, report->heads)) {
        return refused(source.trouble(Trouble::Code::Io, "the heads of the copy are others"));
    }
    std::error_code error;
    const auto bytes = std::filesystem::file_size(file.path(), error);
    return Proof{report->heads, error ? 0 : bytes};
}

tl::expected<Proof, Trouble> makeCopy(const Connection& source, const Heads& before,
                                      const UnfinishedFile& file, const Progress& progress) {
    const auto copied = copyForBackup(source, file, progress);
    if (!copied) {
        return tl::unexpected<Trouble>(copied.error());
    }
    if (*copied == Copied::Cancelled) {
        return tl::unexpected<Trouble>(
            troubleAt(file.finalPath(), source.trouble(Trouble::Code::Cancelled)));
    }
    return source.guarded([&] { return provedCopy(source, before, file); });
}

// Why nothing can be put there.
std::optional<Trouble::Code> refuseTarget(const std::filesystem::path& target) {
    std::error_code ignored;
    if (std::filesystem::exists(std::filesystem::symlink_status(target, ignored))) {
        return Trouble::Code::Exists;
    }
    if (!std::filesystem::is_directory(target.parent_path(), ignored)) {
        return Trouble::Code::NotFound;
    }
    if (!system::mayWrite(target.parent_path())) {
        return Trouble::Code::ReadOnly;
    }
    return std::nullopt;
}

}  // namespace

tl::expected<BackupResult, Trouble> Logbook::backup(const std::filesystem::path& target,
                                                    const Progress& progress) const {
    return backUp(*m_connection, target, progress);
}

tl::expected<BackupResult, Trouble> backUp(const Connection& connection,
                                           const std::filesystem::path& target,
                                           const Progress& progress) {
    std::error_code error;
    const std::filesystem::path whole = std::filesystem::absolute(target, error);
    const auto refused = [&](const Trouble& trouble) {
        return tl::unexpected<Trouble>(troubleAt(whole, trouble));
    };
    if (const auto code = refuseTarget(whole)) {
        return refused(connection.trouble(*code));
    }
    const auto before = connection.guarded([&]() -> tl::expected<Heads, Trouble> {
        return notedHeads(connection.database());
    });
    if (!before) {
        return tl::unexpected<Trouble>(before.error());
    }
    const UnfinishedFile copy(whole);
    copy.removeLeftOvers();
    const auto copied = makeCopy(connection, *before, copy, progress);
    if (!copied) {
        return tl::unexpected<Trouble>(copied.error());
    }
    if (const auto failed = copy.takeName()) {
        const bool taken = failed == std::errc::file_exists;
        return refused(connection.trouble(taken ? Trouble::Code::Exists : Trouble::Code::Io,
                                             failed.message()));
    }
    if (const auto failed = copy.confirmName()) {
        return refused(connection.trouble(Trouble::Code::NotConfirmed, failed.message()));
    }
    return BackupResult{whole, copied->bytes, copied->heads};
}

}  // namespace store
