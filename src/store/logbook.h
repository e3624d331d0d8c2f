// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The logbook file: one SQLite database to which records are appended and from which they are
// read in order. Nothing in it is ever updated or deleted; each record is tied by a hash to those
// before it. May not know rulebooks, the screen or the clock: instants come as parameters.
#pragma once

#include "logbook/instant.h"
#include "logbook/record.h"
#include "store/heads.h"
#include "store/row.h"
#include "store/snapshot.h"
#include "store/trouble.h"
#include "store/verify_report.h"

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace store {

inline constexpr int schemaVersion = 1;
inline constexpr int defaultBusyTimeoutMs = 5000;
inline constexpr int rowsPerTransaction = 20000;
// No more of them are read once their texts are of so many bytes.
inline constexpr std::size_t bytesPerTransaction = 16U << 20U;

struct OpenOptions {
    enum class Access {
        Read,    // works on a read-only file in a read-only folder too
        Write,   // the file must be there
        Create,  // it must not
    };
    Access access = Access::Read;
    bool trustLocks = false;  // also on nfs, cifs, smb, 9p and fuse
    int busyTimeoutMs = defaultBusyTimeoutMs;
};

// Who writes and when; stands in the holder file while the lock is held. `at` is noted as the
// time of arrival of the records written.
struct Writing {
    std::string person;
    logbook::Instant at{};
};

struct ImportResult {
    std::int64_t added = 0;
    std::int64_t skipped = 0;                        // were here already, or twice in the batch
    bool operator==(const ImportResult&) const = default;
};

struct AppendResult : ImportResult {
    std::vector<logbook::RecordName> addedRecords;   // by station and seq
    bool operator==(const AppendResult&) const = default;
};

// One import, for the question who brought what in. Never leaves this file.
struct Import {
    std::string file;
    std::string person;
    logbook::Instant at{};
    std::int64_t added = 0;
    std::int64_t skipped = 0;
    bool operator==(const Import&) const = default;
};

struct BackupResult {
    std::filesystem::path path;
    std::uint64_t bytes = 0;
    Heads heads;
};

// Given the name of the next record of the own station, the records to write: that one and those
// that follow it, none to write nothing. Called once, with the lock held; it may read the logbook
// that calls it, but must be quick.
using OwnRecords = std::function<std::vector<logbook::Record>(const logbook::RecordName& next)>;

// Return false to stop.
using Progress = std::function<bool(std::int64_t done, std::int64_t total)>;
using RowReader = std::function<bool(const Row&)>;

// The device and the content of a record, which hold until it returns.
using ContentReader = std::function<void(std::string_view device, std::string_view content)>;

class Connection;

// One open logbook, used by one thread at a time; several may be open on one file, in one program
// or in several. Closing it leaves no other file behind. One that was moved from may only be
// destroyed or assigned to.
// Any call may give Busy, Damaged, Io, NeedsRecovery or Moved; those that write also ReadOnly and
// DiskFull. What else they give is said at each. Writing calls either do all or nothing.
class Logbook {
public:
    // NotFound, Exists, NotALogbook, OtherSchema, NotPermitted, NetworkFileSystem. A refused file
    // is left as it was, byte for byte.
    [[nodiscard]] static tl::expected<Logbook, Trouble> open(const std::filesystem::path& path,
                                                             const OpenOptions& options);

    // Removes a file into which nothing was written but the name of its station; with the lock
    // held, so that nobody is about to. Whether it did. As open.
    [[nodiscard]] static tl::expected<bool, Trouble> removeEmpty(const std::filesystem::path& path,
                                                                 const OpenOptions& options);
    Logbook(Logbook&&) noexcept;
    Logbook& operator=(Logbook&&) noexcept;
    ~Logbook();

    [[nodiscard]] const std::filesystem::path& path() const;
    [[nodiscard]] OpenOptions::Access access() const;  // Read or Write

    // Whether something was met, since it was opened, that cannot be read and was read round: an
    // index, a page of this file's own, a value longer than any that a logbook holds. Only one
    // opened to read does so; one opened to write gives Damaged.
    [[nodiscard]] bool metDamage() const;
    // Whether some of it is what the disk does not give, asked twice.
    [[nodiscard]] bool metRefusal() const;

    // Appends what is not here yet, in one transaction; each record is read back and hashed anew
    // before the commit. The order of the batch does not matter: within a station it is sorted by
    // seq. Fork, Gap, ChainBroken, FirstChanged; nothing is written then.
    [[nodiscard]] tl::expected<AppendResult, Trouble> append(
        std::span<const logbook::Record> records, const Writing& writing);

    // The same, and notes under which name the file came and who brought it, also if nothing in it
    // was new. `asRead`: the highest arrival of the log on which rests that they may come in; then
    // also LogMoved, where more has come in since.
    [[nodiscard]] tl::expected<ImportResult, Trouble> importRecords(
        std::span<const LentRecord> records, std::string_view fileName, const Writing& writing,
        std::optional<std::int64_t> asRead = {});

    // Writes records of the own station; the names of those written. NoStation, NotOwn,
    // ChainBroken, FirstChanged.
    [[nodiscard]] tl::expected<std::vector<logbook::RecordName>, Trouble> appendOwn(
        const OwnRecords& build, const Writing& writing);

    // The station whose records this file writes; nothing before setStation.
    [[nodiscard]] tl::expected<std::optional<std::string>, Trouble> station() const;

    // Sets it once; the same name again changes nothing. BadStation, StationSet, StationTaken.
    [[nodiscard]] tl::expected<void, Trouble> setStation(std::string_view name,
                                                         const Writing& writing);

    // Settings of this place, any text by any key. Never part of a record.
    [[nodiscard]] tl::expected<std::map<std::string, std::string>, Trouble> settings() const;
    // Nothing as a value removes the setting.
    [[nodiscard]] tl::expected<void, Trouble> setSetting(std::string_view key,
                                                         const std::optional<std::string>& value,
                                                         const Writing& writing);

    // Takes `count` numbers that were never taken here before; the first of them. Those of each
    // series begin with 1.
    [[nodiscard]] tl::expected<std::int64_t, Trouble> takeNumbers(std::string_view series,
                                                                  std::int64_t count,
                                                                  const Writing& writing);

    // In the order in which they were done.
    [[nodiscard]] tl::expected<std::vector<Import>, Trouble> imports() const;

    // Rows in reading order, until there are no more or the reader returns false. At most
    // rowsPerTransaction of them, and not many more than bytesPerTransaction, are read in one
    // transaction, so that writers get their turn: a row that arrives meanwhile is seen if its
    // place is still ahead and the selection takes it.
    [[nodiscard]] tl::expected<void, Trouble> forEachRow(const Selection& selection,
                                                         const RowReader& reader) const;

    // The next of them, as many as `into` has room for, in one transaction: how many there were;
    // fewer than asked for at the end.
    [[nodiscard]] tl::expected<std::size_t, Trouble> readRecords(const Selection& selection,
                                                                 std::span<ReadRecord> into) const;

    // The same as records.
    [[nodiscard]] tl::expected<Records, Trouble> records(const Selection& selection = {}) const;

    // What records of those kinds say, in the order in which they came into this file, unread and
    // not compared with its columns: to find out quickly which records are worth reading. Those up
    // to that arrival, or else all that are here when it is asked.
    [[nodiscard]] tl::expected<void, Trouble> forEachContent(
        const std::vector<std::string>& kinds, const ContentReader& reader,
        const std::optional<std::int64_t>& arrivedUpTo = {}) const;

    // The latest `entered` up to `last`; none if all are later.
    [[nodiscard]] tl::expected<std::optional<logbook::Instant>, Trouble> latestEntered(
        logbook::Instant last) const;

    // NoRecord.
    [[nodiscard]] tl::expected<Row, Trouble> findRecord(const logbook::RecordName& name) const;

    [[nodiscard]] tl::expected<StationHeads, Trouble> heads() const;
    // Whether each of these is the hash of the record by that name here. False too where the page
    // of one is damaged.
    [[nodiscard]] tl::expected<bool, Trouble> holds(const Heads& heads) const;
    [[nodiscard]] tl::expected<std::int64_t, Trouble> count() const;
    // The highest `arrival` of a row, 0 in an empty logbook: has anything come in?
    [[nodiscard]] tl::expected<std::int64_t, Trouble> lastArrival() const;

    // The newest snapshot that is whole, of that engine, and that nothing which came in since
    // reaches before: neither a record nor what a strike strikes, nor who may strike. Nothing where
    // there is none, or none that can be read, which is no trouble.
    [[nodiscard]] tl::expected<std::optional<Snapshot>, Trouble> snapshotFor(
        const SnapshotQuestion& question) const;

    // All that are kept, the oldest place first.
    [[nodiscard]] tl::expected<std::vector<KeptSnapshot>, Trouble> snapshotsKept() const;

    // One of them, whatever came in since; nothing if it is not whole.
    [[nodiscard]] tl::expected<std::optional<Snapshot>, Trouble> snapshotAt(
        const Place& place) const;

    // As Snapshot::strikes for one at that place; `earlier` is a valid one before it, or null.
    [[nodiscard]] tl::expected<std::vector<logbook::RecordName>, Trouble> strikesBeyond(
        const Place& place, const Snapshot* earlier) const;

    // Keeps these, and of those that are kept the ones at `staying`; the others go. Makes the
    // derived tables where there are none of this revision.
    [[nodiscard]] tl::expected<void, Trouble> keepSnapshots(std::span<const Snapshot> snapshots,
                                                            std::span<const Place> staying,
                                                            const Writing& writing);

    // Throws away everything that can be made again.
    [[nodiscard]] tl::expected<void, Trouble> dropDerived(const Writing& writing);

    // How many rows lie after the place, but no more than `most` are counted.
    [[nodiscard]] tl::expected<std::int64_t, Trouble> countAfter(const std::optional<Place>& place,
                                                                 std::int64_t most) const;

    // Reads everything: hashes every record anew, holds columns against contents, looks for gaps
    // and lost tails, holds the schema against this version's, asks the database for the state of
    // its pages. Damage is told in the report, never as Trouble. Cancelled.
    [[nodiscard]] tl::expected<VerifyReport, Trouble> verify(const Progress& progress = {}) const;

    // Notes what verify found, for boards and for the next verify. Damaged, where pages are and a
    // note might be put over a record; Io, where the disk gave errors, and nothing else was found,
    // or where nothing was and the file has a second name.
    [[nodiscard]] tl::expected<void, Trouble> noteVerified(const VerifyReport& report,
                                                           const Writing& writing);
    // The last one noted.
    [[nodiscard]] tl::expected<std::optional<Verification>, Trouble> lastVerification() const;

    // Copies the logbook to `target`, under another name beside it until the copy is whole: it is
    // opened, verified and on the disk before it gets its name. The copy has no station of its
    // own, no settings, imports, PINs or badges, and at no moment holds any: what is restored from
    // it goes on under a new name and starts as a new station does. `progress` counts records.
    // Exists (`target` is there), NotFound (its folder is not), ChainBroken (the logbook does not
    // verify), NotConfirmed, Cancelled.
    [[nodiscard]] tl::expected<BackupResult, Trouble> backup(const std::filesystem::path& target,
                                                             const Progress& progress = {}) const;

private:
    explicit Logbook(std::unique_ptr<Connection> connection);
    std::unique_ptr<Connection> m_connection;
};

}  // namespace store
