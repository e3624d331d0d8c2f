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

Copied copyWithoutStation(SQLite::Database& from, const std::filesystem::path& path,
                          const Progress& progress) {
    SQLite::Database copy(path.native(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    const Copied copied = copyPages(from, copy, progress);
    if (copied == Copied::Whole) {
        copy.exec("PRAGMA synchronous = EXTRA");
        copy.exec("DELETE FROM local_station");
    }
    return copied;
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
                                        const std::filesystem::path& path) {
    // Nobody else uses a file of that name, so its locks need no trust.
    const auto copy = Logbook::open(path, {OpenOptions::Access::Read, true});
    if (!copy) {
        return tl::unexpected<Trouble>(copy.error());
    }
    const auto report = copy->verify();
    if (!report) {
        return tl::unexpected<Trouble>(report.error());
    }
    if (!report->ok()) {
        return tl::unexpected<Trouble>(brokenChain(source, *report));
    }
    if (!sameHeads(source.database(), before, report->heads)) {
        return tl::unexpected<Trouble>(
            source.trouble(Trouble::Code::Io, "the heads of the copy are others"));
    }
    return report->heads;
}

tl::expected<Heads, Trouble> makeCopy(const Connection& source, const Heads& before,
                                      const std::filesystem::path& path,
                                      const Progress& progress) {
    return source.guarded([&]() -> tl::expected<Heads, Trouble> {
        switch (copyWithoutStation(source.database(), path, progress)) {
            case Copied::Whole: return provedCopy(source, before, path);
            case Copied::Cancelled:
                return tl::unexpected<Trouble>(source.trouble(Trouble::Code::Cancelled));
            case Copied::Busy: break;
        }
        Trouble busy = source.trouble(Trouble::Code::Busy);
        busy.holder = readHolder(source.path());
        return tl::unexpected<Trouble>(busy);
    });
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
    const auto refused = [&](Trouble trouble) {
        trouble.path = trouble.code == Trouble::Code::Busy ? path() : whole;
        return tl::unexpected<Trouble>(trouble);
    };
    if (const auto code = refuseTarget(whole)) {
        return refused(m_connection->trouble(*code));
    }
    const auto before = heads();
    if (!before) {
        return tl::unexpected<Trouble>(before.error());
    }
    const UnfinishedFile copy(whole);
    const auto copied = makeCopy(*m_connection, headsOf(*before), copy.path(), progress);
    if (!copied) {
        return refused(copied.error());
    }
    if (const auto failed = copy.finish()) {
        const bool taken = failed == std::errc::file_exists;
        return refused(m_connection->trouble(taken ? Trouble::Code::Exists : Trouble::Code::Io,
                                             failed.message()));
    }
    return BackupResult{whole, std::filesystem::file_size(whole, error), *copied};
}

}  // namespace store
