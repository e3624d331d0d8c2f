// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Telling a database's own journal from another file; see journal_check.h.
#include "store/journal_check.h"

#include "store/database_mark.h"
#include "store/foreign_journal.h"
#include "store/journal_file.h"
#include "store/operating_system.h"
#include "store/unread.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <string>
#include <system_error>
#include <tuple>

namespace store {

namespace {

using Path = std::filesystem::path;

constexpr std::size_t databaseHead = 100;
constexpr std::size_t counterPlace = 24;  // a number that each write raises by one
constexpr int mostTries = 3;

// How many of the names of that file a restore may have given it, which was cut off: see there.
std::uintmax_t ownNamesOf(const Path& journal, const Path& database) {
    constexpr std::string_view aside = ".before-", ending = "-journal";
    const auto number = system::fileNumber(journal);
    const auto name = database.filename().string();
    const auto base = name.substr(0, name.rfind(aside));
    std::uintmax_t count = 0;
    std::error_code error;
    std::filesystem::directory_iterator entry(database.parent_path(), error);
    for (; !error && entry != std::filesystem::directory_iterator(); entry.increment(error)) {
        const auto each = entry->path().filename().string();
        const bool isOwn =
            each == base + std::string(ending) ||
            (each.starts_with(base + std::string(aside)) && each.ends_with(ending));
        count += isOwn && system::fileNumber(entry->path()) == number ? 1 : 0;
    }
    return count;
}

bool hasStrangeName(const Path& journal, const Path& database) {
    std::error_code error;
    const auto names = std::filesystem::hard_link_count(journal, error);
    return !error && names > 1 && names > ownNamesOf(journal, database);
}

// A write that was cut off has raised the number or not yet; the bytes of it may be torn.
bool isSameOrNext(std::string_view before, std::string_view now) {
    std::uint32_t number = 0;
    for (const char byte : before) {
        number = number << 8U | static_cast<unsigned char>(byte);
    }
    ++number;
    for (std::size_t i = 0; i < before.size(); ++i) {
        const auto next = static_cast<char>(number >> (8 * (before.size() - 1 - i)) & 0xFFU);
        if (now[i] != before[i] && now[i] != next) {
            return false;
        }
    }
    return true;
}

// Each write keeps the first page in its journal before it raises the number on it or lets the file
// grow. Where that page cannot be read in the file nothing is known.
bool isOfOtherTime(const Path& database, const JournalFile& journal) {
    const LayerFile file(database);
    std::array<char, databaseHead> bytes{};
    if (!journal.isPlayed() || file.read(bytes.data(), bytes.size(), 0) != SQLITE_OK) {
        return false;
    }
    const std::string_view now(bytes.data(), bytes.size());
    if (!now.starts_with(databaseMark)) {
        return false;
    }
    std::string before;
    journal.forEachPage([&](std::uint64_t page, std::string_view content, std::int64_t) {
        before = page == 1 ? content.substr(0, databaseHead) : std::string_view();
        return page != 1;
    });
    if (journal.isUnread()) {
        return false;
    }
    if (before.empty()) {
        const auto size = static_cast<std::uint64_t>(file.size());
        return size / journal.pageSize() > journal.pages();
    }
    return !before.starts_with(databaseMark) ||
           !isSameOrNext(std::string_view(before).substr(counterPlace, 4),
                         now.substr(counterPlace, 4));
}

using Stamp = std::tuple<std::optional<std::uint64_t>, std::filesystem::file_time_type,
                         std::uintmax_t>;

Stamp stampOf(const Path& file) {
    std::error_code ignored;
    return {system::fileNumber(file), std::filesystem::last_write_time(file, ignored),
            std::filesystem::file_size(file, ignored)};
}

// While somebody writes, the two are not read at one moment.
bool isLeftOfOtherTime(const Path& database, const Path& journal) {
    for (int tries = 0; tries < mostTries; ++tries) {
        const auto stamp = stampOf(journal);
        if (!isOfOtherTime(database, JournalFile(database)) || !hasJournalLeft(database)) {
            return false;
        }
        if (isOfOtherTime(database, JournalFile(database)) && stampOf(journal) == stamp) {
            return true;
        }
    }
    return false;
}

}  // namespace

std::optional<std::string_view> refuseJournal(const Path& database) {
    std::error_code error;
    auto whole = std::filesystem::canonical(database, error);
    whole = error ? database : whole;
    const auto journal = journalOf(whole);
    const auto kind = std::filesystem::symlink_status(journal, error).type();
    if (kind == std::filesystem::file_type::not_found ||
        kind == std::filesystem::file_type::none) {
        return std::nullopt;
    }
    if (kind != std::filesystem::file_type::regular) {
        return journalIsNoPlainFile;
    }
    if (hasStrangeName(journal, whole)) {
        return journalHasTwoNames;
    }
    const JournalFile file(whole);
    if (file.namesFile()) {
        return journalNamesFile;
    }
    if (file.isNone()) {
        return journalIsNone;
    }
    return isLeftOfOtherTime(whole, journal) ? std::optional(journalOfOtherTime) : std::nullopt;
}

}  // namespace store
