// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Asking the disk what it gives; see unread.h.
#include "store/unread.h"

#include "store/disk_refusal.h"
#include "store/journal_file.h"
#include "store/layer_file.h"

#include <system_error>

namespace store {

namespace {

constexpr sqlite3_int64 sectorSize = 512;  // no disk has a smaller one

bool hasJournal(const std::filesystem::path& database) {
    std::error_code ignored;
    return std::filesystem::is_regular_file(
        std::filesystem::symlink_status(journalOf(database), ignored));
}

}  // namespace

bool isNothingGiven(const std::filesystem::path& file) {
    std::error_code error;
    const auto size = std::filesystem::file_size(file, error);
    return !error && size > 0 && !isDiskThere(file);
}

bool hasJournalLeft(const std::filesystem::path& database) {
    return hasJournal(database) && !LayerFile(database).isBeingWritten();
}

std::optional<std::string> reasonOfJournal(const std::filesystem::path& database) {
    if (!hasJournal(database)) {
        return std::nullopt;
    }
    const LayerFile file(journalOf(database));
    const auto size = file.size();
    for (sqlite3_int64 place = 0; place < size; place += sectorSize) {
        if (!file.givesByteAt(place)) {
            return std::generic_category().message(file.systemError());
        }
    }
    return std::nullopt;
}

Trouble unreadTrouble(const std::filesystem::path& path, const std::string& reason) {
    Trouble trouble;
    trouble.path = path;
    trouble.isUnread = true;
    trouble.code = isDiskThere(path) ? Trouble::Code::Damaged : Trouble::Code::Io;
    trouble.text = reason;
    if (const auto ofJournal = reasonOfJournal(path);
        ofJournal && trouble.code == Trouble::Code::Damaged) {
        trouble.code = Trouble::Code::NeedsRecovery;
        trouble.text = *ofJournal;
    }
    return trouble;
}

}  // namespace store
