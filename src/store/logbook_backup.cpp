// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Backups: a copy that has been proved before it has a name.
#include "store/logbook.h"

#include "store/connection.h"
#include "store/operating_system.h"
#include "store/unfinished_file.h"

#include <SQLiteCpp/Backup.h>

#include <sqlite3.h>
#include <string>
#include <system_error>
#include <utility>

namespace store {

namespace {

constexpr int pagesPerStep = 1024;
constexpr std::size_t mostNamed = 100;

enum class Copied { Whole, Cancelled, Busy };

Copied copyPages(SQLite::Database& from, SQLite::Database& to, const Progress& progress) {
    SQLite::Backup backup(to, from);
    for (;;) {
        const int answer = backup.executeStep(pagesPerStep);
        if (answer != SQLITE_OK && answer != SQLITE_DONE) {
            return Copied::Busy;
        }
        const int total = backup.getTotalPageCount();
        if (progress && !progress(total - backup.getRemainingPageCount(), total)) {
            return Copied::Cancelled;
        }
        if (answer == SQLITE_DONE) {
            return Copied::Whole;
        }
    }
}

// The heads and the notes of verify stay: they guard what the copy holds.
void clearWhatIsLocal(SQLite::Database& copy) {
    copy.exec("PRAGMA synchronous = EXTRA");
    copy.exec("PRAGMA secure_delete = ON");
    copy.exec("DELETE FROM local_station");
    copy.exec("DELETE FROM local_settings");
    copy.exec("DELETE FROM local_imports");
    copy.exec("DELETE FROM local_credentials");
    copy.exec("DELETE FROM local_badges");
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

tl::expected<Copied, Trouble> copyForBackup(const Connection& source, const UnfinishedFile& file,
                                            const Progress& progress) {
    bool copying = false;
    try {
        SQLite::Database copy(file.path().native(),
                              SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
        copying = true;
        const Copied copied = copyPages(source.database(), copy, progress);
        copying = false;
        if (copied == Copied::Whole) {
            clearWhatIsLocal(copy);
        }
        return copied;
    } catch (const SQLite::Exception& exception) {
        const Trouble trouble = source.trouble(exception);
        if (copying && arisesInSource(trouble.code)) {
            return tl::unexpected<Trouble>(trouble);
        }
        return tl::unexpected<Trouble>(troubleAt(file.finalPath(), trouble));
    }
}

// Every head of either is a record of the other.
bool sameHeads(SQLite::Database& source, const Heads& before, const Heads& copied) {
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

Trouble brokenChain(const Connection& source, const VerifyReport& report) {
    Trouble trouble = source.trouble(Trouble::Code::ChainBroken);
    for (const Break& found : report.breaks) {
        if (trouble.records.size() < mostNamed) {
            trouble.records.push_back(found.record);
        }
    }
    if (!report.integrity.empty()) {
        trouble.text = report.integrity.front();
    } else if (!report.schemaChanged.empty()) {
        trouble.text = report.schemaChanged.front();
    }
    return trouble;
}

// The heads of the copy, once it has been read and found whole.
tl::expected<Heads, Trouble> provedCopy(const Connection& source, const Heads& before,
                                        const UnfinishedFile& file) {
    const auto refused = [&](const Trouble& trouble) {
        return tl::unexpected<Trouble>(troubleAt(file.finalPath(), trouble));
    };
    // Nobody else uses a file of that name, so its locks need no trust.
    const auto copy = Logbook::open(file.path(), {OpenOptions::Access::Read, true});
    if (!copy) {
        return refused(copy.error());
    }
    const auto report = copy->verify();
    if (!report) {
        return refused(report.error());
    }
    if (!report->ok()) {
        return tl::unexpected<Trouble>(brokenChain(source, *report));
    }
    if (!sameHeads(source.database(), before, report->heads)) {
        return refused(source.trouble(Trouble::Code::Io, "the heads of the copy are others"));
    }
    return report->heads;
}

tl::expected<Heads, Trouble> makeCopy(const Connection& source, const Heads& before,
                                      const UnfinishedFile& file, const Progress& progress) {
    const auto copied = copyForBackup(source, file, progress);
    if (!copied) {
        return tl::unexpected<Trouble>(copied.error());
    }
    switch (*copied) {
        case Copied::Whole:
            return source.guarded([&] { return provedCopy(source, before, file); });
        case Copied::Cancelled:
            return tl::unexpected<Trouble>(
                troubleAt(file.finalPath(), source.trouble(Trouble::Code::Cancelled)));
        case Copied::Busy: break;
    }
    Trouble busy = source.trouble(Trouble::Code::Busy);
    busy.holder = readHolder(source.path());
    return tl::unexpected<Trouble>(busy);
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
    std::error_code error;
    const std::filesystem::path whole = std::filesystem::absolute(target, error);
    const auto refused = [&](const Trouble& trouble) {
        return tl::unexpected<Trouble>(troubleAt(whole, trouble));
    };
    if (const auto code = refuseTarget(whole)) {
        return refused(m_connection->trouble(*code));
    }
    const auto before = heads();
    if (!before) {
        return tl::unexpected<Trouble>(before.error());
    }
    const UnfinishedFile copy(whole);
    const auto copied = makeCopy(*m_connection, headsOf(*before), copy, progress);
    if (!copied) {
        return tl::unexpected<Trouble>(copied.error());
    }
    if (const auto failed = copy.finish()) {
        const bool taken = failed == std::errc::file_exists;
        return refused(m_connection->trouble(taken ? Trouble::Code::Exists : Trouble::Code::Io,
                                             failed.message()));
    }
    return BackupResult{whole, std::filesystem::file_size(whole, error), *copied};
}

}  // namespace store
