// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Restoring; see restore.h.
#include "store/restore.h"

#include "store/connection.h"
#include "store/file_lock.h"
#include "store/in_place.h"
#include "store/journal_file.h"
#include "store/left_alone.h"
#include "store/operating_system.h"
#include "store/unfinished_file.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <memory>
#include <sqlite3.h>
#include <system_error>
#include <utility>

namespace store {

namespace {

using Access = OpenOptions::Access;
using Code = Trouble::Code;
using Path = std::filesystem::path;

Trouble troubleAt(const Path& path, Code code, std::string text = {}) {
    Trouble trouble;
    trouble.code = code;
    trouble.path = path;
    trouble.text = std::move(text);
    return trouble;
}

// A whole copy under the name of the file that is not finished, with its new station.
tl::expected<Heads, Trouble> prepare(const Path& backup, const UnfinishedFile& file,
                                     const RestoreTo& to, const Writing& writing) {
    const auto source = LeftAlone::open(backup, file.finalPath());
    if (!source) {
        return tl::unexpected<Trouble>(source.error());
    }
    const auto copied = source->logbook().backup(file.path());
    if (!copied) {
        return tl::unexpected<Trouble>(source->told(copied.error()));
    }
    auto copy = Logbook::open(file.path(), {Access::Write, to.trustLocks});
    if (!copy) {
        return tl::unexpected<Trouble>(copy.error());
    }
    if (const auto named = copy->setStation(to.station, writing); !named) {
        return tl::unexpected<Trouble>(named.error());
    }
    return copied->heads;
}

// "ward.logbook.before-20260302T140000Z"
Path asideName(const Path& path, logbook::Instant at) {
    std::string time = toText(logbook::Instant{at.ms / 1000 * 1000});
    std::erase_if(time, [](char letter) { return letter == '-' || letter == ':'; });
    return Path(path) += ".before-" + time;
}

bool haveSameBytes(const Path& one, const Path& other) {
    std::ifstream first(one, std::ios::binary);
    std::ifstream second(other, std::ios::binary);
    const auto bytesOf = [](std::ifstream& file) { return std::istreambuf_iterator<char>(file); };
    try {
        return first && second &&
               std::equal(bytesOf(first), {}, bytesOf(second), std::istreambuf_iterator<char>());
    } catch (const std::ios_base::failure&) {
        return false;  // what is not given is not known to be the same
    }
}

// What is left of a write that was cut off goes with its file: without it that is not whole, and
// beside another file it would be taken for that one's. So it is there before its file is, and
// stays where that was until its new name is on the disk: the power may take that back. If the disk
// does not say so, it stays; and it is there already where the file comes back from such a move.
std::error_code moveWithJournal(const Path& from, const Path& to) {
    const Path journal = journalOf(from);
    std::error_code error;
    if (!std::filesystem::is_regular_file(std::filesystem::symlink_status(journal, error))) {
        return system::moveWithoutReplacing(from, to);
    }
    error = system::copyFile(journal, journalOf(to));
    std::error_code ignored;
    if (error == std::errc::file_exists &&
        (std::filesystem::equivalent(journal, journalOf(to), ignored) ||
         haveSameBytes(journal, journalOf(to)))) {
        error.clear();
    } else if (error && error != std::errc::file_exists) {
        // A second name needs nothing of it, which the disk may not give.
        std::filesystem::create_hard_link(journal, journalOf(to), ignored);
        error = ignored ? error : std::error_code();
    }
    if (error) {
        return error;
    }
    error = system::flush(to.parent_path());
    if (!error) {
        error = system::moveWithoutReplacing(from, to);
    }
    if (error) {
        (void)system::removeFile(journalOf(to));
    } else if (!system::flush(to.parent_path())) {
        (void)system::removeFile(journal);
    }
    return error;
}

tl::expected<void, Trouble> moveAside(const Path& from, const Path& to) {
    if (const auto error = moveWithJournal(from, to)) {
        const bool taken = error == std::errc::file_exists;
        return tl::unexpected<Trouble>(
            troubleAt(taken ? to : from, taken ? Code::Exists : codeOfSystem(error),
                      error.message()));
    }
    return {};
}

// The database makes a journal as soon as it is to lock one; it takes one byte for nothing too.
bool isEmpty(const Path& path) {
    std::error_code error;
    return std::filesystem::file_size(path, error) <= 1 && !error;
}

enum class Placed {
    Exchanged,  // the backup stands in the place
    Aside,      // nothing stands there yet
};

// Takes back a copy that could not be exchanged, unless it is another file that stands there.
std::error_code takeBack(const UnfinishedFile& file, const Path& aside,
                         const std::optional<std::uint64_t>& copy) {
    if (system::fileNumber(aside) != copy) {
        return std::make_error_code(std::errc::io_error);
    }
    return system::moveWithoutReplacing(aside, file.path());
}

// The copy gets the name for what is put aside, and then the two change names, so that no moment is
// without a logbook and what is there is never under a name that may be deleted. False where the
// file system has no such step, or where a write was cut off: its journal would be played back into
// the copy.
tl::expected<bool, Trouble> exchange(const UnfinishedFile& file, const Path& path,
                                     const Path& aside) {
    std::error_code ignored;
    if (std::filesystem::exists(std::filesystem::symlink_status(journalOf(path), ignored))) {
        return false;
    }
    const auto copy = system::fileNumber(file.path());
    auto error = system::flush(file.path());
    if (!error) {
        error = system::moveWithoutReplacing(file.path(), aside);
    }
    if (error) {
        const bool taken = error == std::errc::file_exists;
        return tl::unexpected<Trouble>(
            troubleAt(taken ? aside : path, taken ? Code::Exists : codeOfSystem(error),
                      error.message()));
    }
    error = system::flush(aside.parent_path());
    if (!error) {
        error = system::exchangeNames(aside, path);
    }
    // A share may do it and tell of an error all the same.
    if (!error || system::fileNumber(path) == copy) {
        return true;
    }
    const auto failed = takeBack(file, aside, copy);
    const bool unknown =
        error == std::errc::invalid_argument || error == std::errc::function_not_supported;
    if (unknown && !failed) {
        return false;
    }
    if (failed && system::fileNumber(aside) == copy) {
        std::filesystem::remove(aside, ignored);
    }
    return tl::unexpected<Trouble>(troubleAt(path, codeOfSystem(error), error.message()));
}

tl::expected<Placed, Trouble> place(const UnfinishedFile& file, const Path& path,
                                    const Path& aside) {
    const auto exchanged = exchange(file, path, aside);
    if (!exchanged) {
        return tl::unexpected<Trouble>(exchanged.error());
    }
    if (*exchanged) {
        return Placed::Exchanged;
    }
    return moveAside(path, aside).map([] { return Placed::Aside; });
}

// What was put aside has its new name on the disk before another file takes the old one: else the
// power might go in between and leave the new file alone, or beside the old one's journal.
std::error_code takePlace(const UnfinishedFile& file, const RestoreResult& result) {
    if (result.aside) {
        if (const auto error = system::flush(result.aside->parent_path())) {
            return error;
        }
    }
    return file.takeName();
}

// The backup has not taken the place: what stood there goes back, and where nothing did somebody
// else may have been quicker.
Trouble notRestored(const RestoreResult& result, const std::error_code& failed) {
    const bool isTaken = failed == std::errc::file_exists && !result.aside;
    Trouble trouble = troubleAt(result.path, isTaken ? Code::Exists : codeOfSystem(failed),
                                failed.message());
    if (result.aside) {
        if (moveWithJournal(*result.aside, result.path)) {
            trouble.code = Code::LeftAside;
            trouble.aside = *result.aside;
        } else {
            (void)system::flush(result.path.parent_path());
        }
    }
    return trouble;
}

// Puts aside what stands there, as the result then tells. With the lock held, so that nobody writes
// into it or is about to, whatever version of the program they have: without reading it where it is
// no database or is not given. Where the system knows no locks it is put aside all the same.
class Replacing {
public:
    Replacing(const UnfinishedFile& file, const RestoreTo& to, const Writing& writing)
        : m_file(file), m_to(to), m_writing(writing), m_aside(asideName(to.path, writing.at)) {}

    tl::expected<Placed, Trouble> run(RestoreResult& result) {
        // Opened first, so that what is locked later is what is looked at.
        m_number = system::fileNumber(m_to.path);
        const auto connection =
            Connection::open(m_to.path, {Access::Write, m_to.trustLocks}, Schemas::Any);
        auto inPlace = lookAt(m_to.path, m_to.trustLocks, {m_file.path(), result.heads});
        if (!inPlace) {
            return tl::unexpected<Trouble>(inPlace.error());
        }
        m_inPlace = *std::move(inPlace);
        if (auto taken = refuseTaken()) {
            return tl::unexpected<Trouble>(*std::move(taken));
        }
        auto placed = putAside(connection);
        if (placed) {
            result.aside = m_aside;
            std::error_code ignored;
            if (std::filesystem::exists(journalOf(m_aside), ignored)) {
                result.asideJournal = journalOf(m_aside);
            }
            result.later = m_inPlace.later;
            result.isAtLeast = !m_inPlace.isWhole;
            result.isOther = m_inPlace.isOther;
        }
        return placed;
    }

private:
    [[nodiscard]] std::optional<Trouble> refuseTaken() const {
        if (!m_inPlace.heads.contains(m_to.station)) {
            return std::nullopt;
        }
        Trouble taken = troubleAt(m_to.path, Code::StationTaken);
        taken.station = m_to.station;
        return taken;
    }

    tl::expected<Placed, Trouble> putAside(
        const tl::expected<std::unique_ptr<Connection>, Trouble>& connection) {
        if (!connection && !isUnknown(connection.error())) {
            return tl::unexpected<Trouble>(connection.error());
        }
        if (connection && !isEmpty(m_to.path)) {
            auto moved = underLock(**connection);
            if (moved || !isUnknown(moved.error())) {
                return moved;
            }
        }
        const FileLock lock(m_to.path, defaultBusyTimeoutMs);
        if (lock.isBusy()) {
            Trouble busy = troubleAt(m_to.path, Code::Busy);
            busy.holder = readHolder(m_to.path);
            return tl::unexpected<Trouble>(std::move(busy));
        }
        if (const auto failed = lock.failure()) {
            return tl::unexpected<Trouble>(troubleAt(m_to.path, Code::Io, *failed));
        }
        // Another restore may have been quicker: then this is the lock of what it has put aside.
        if (system::fileNumber(m_to.path) != m_number) {
            return tl::unexpected<Trouble>(troubleAt(m_to.path, Code::Moved));
        }
        return place(m_file, m_to.path, m_aside);
    }

    tl::expected<Placed, Trouble> underLock(const Connection& connection) {
        return connection.guarded([&]() -> tl::expected<Placed, Trouble> {
            const WriteTransaction transaction(connection, m_writing,
                                               WriteTransaction::Lock::Everyone);
            lookAgain(connection.database());
            if (auto taken = refuseTaken()) {
                return tl::unexpected<Trouble>(*std::move(taken));
            }
            return place(m_file, m_to.path, m_aside);
        });
    }

    // The lock is had when others are done: what they wrote meanwhile is told too. Where the disk
    // fails the database may let go of it.
    void lookAgain(Database& database) {
        for (bool isAgain = false;; isAgain = true) {
            try {
                m_inPlace.goOnTo(notedHeads(database));
                return;
            } catch (const SQLite::Exception& exception) {
                const bool isRefused = isRefusedBy(database, exception);
                if (sqlite3_get_autocommit(database.getHandle()) != 0) {
                    database.exec("BEGIN EXCLUSIVE");
                }
                if (!isAgain && isRefused) {
                    forgetSystemError(database);
                    continue;
                }
                // Where the heads cannot be read nobody can write either.
                if (!isUnknown(codeOf(exception.getExtendedErrorCode())) &&
                    !isDamage(exception)) {
                    throw;
                }
                return;
            }
        }
    }

    const UnfinishedFile& m_file;
    const RestoreTo& m_to;
    const Writing& m_writing;
    Path m_aside;
    std::optional<std::uint64_t> m_number;  // of the file that was looked at
    InPlace m_inPlace{};
};

}  // namespace

tl::expected<RestoreResult, Trouble> restore(const Path& backup, const RestoreTo& to,
                                             const Writing& writing) {
    std::error_code error;
    RestoreTo whole{std::filesystem::absolute(to.path, error), to.station, to.trustLocks};
    // The link would be put aside, and what it leads to go on.
    if (std::filesystem::is_symlink(std::filesystem::symlink_status(whole.path, error))) {
        const auto leadsTo = std::filesystem::canonical(whole.path, error);
        whole.path = error ? whole.path : leadsTo;
    }
    const auto refused = [&](Trouble trouble, const UnfinishedFile& file) {
        // What of the copy is not certain need not be: it goes.
        auto& code = trouble.code;
        code = code == Code::NotConfirmed || code == Code::WriteNotConfirmed ? Code::Io : code;
        // By its name alone, since a link may lead to the folder.
        if (trouble.path.filename() == file.path().filename()) {
            trouble.path = whole.path;
        }
        return tl::unexpected<Trouble>(std::move(trouble));
    };
    const bool stands =
        std::filesystem::exists(std::filesystem::symlink_status(whole.path, error));
    if (stands && !std::filesystem::is_regular_file(whole.path, error)) {
        return tl::unexpected<Trouble>(troubleAt(whole.path, Code::NotALogbook));
    }
    const UnfinishedFile file(whole.path);
    const auto heads = prepare(backup, file, whole, writing);
    if (!heads) {
        return refused(heads.error(), file);
    }
    RestoreResult result{whole.path, std::nullopt, *heads};
    auto placed = Placed::Aside;
    if (stands) {
        const auto put = Replacing(file, whole, writing).run(result);
        if (!put) {
            return refused(put.error(), file);
        }
        placed = *put;
    }
    const auto failedToTake =
        placed == Placed::Aside ? takePlace(file, result) : std::error_code();
    if (failedToTake) {
        return tl::unexpected<Trouble>(notRestored(result, failedToTake));
    }
    // Another program may have opened it by now, so that it is not taken away again.
    if (const auto failed = file.confirmName()) {
        Trouble trouble = troubleAt(whole.path, Code::NotConfirmed, failed.message());
        trouble.aside = result.aside.value_or(Path());
        trouble.station = whole.station;
        return tl::unexpected<Trouble>(std::move(trouble));
    }
    return result;
}

}  // namespace store
