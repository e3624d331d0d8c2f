// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking at the first page that a write was about to change; see undone_mark.h.
#include "store/undone_mark.h"

#include "store/database_mark.h"
#include "store/journal_file.h"
#include "store/layer_file.h"
#include "store/unread.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace store {

namespace {

// Of "The Database Header" in SQLite's fileformat2.html.
constexpr std::size_t headSize = 100;
constexpr std::size_t versionPlace = 18;  // how it is written, and how it is read; 2: with a log
constexpr std::size_t schemaPlace = 60;
constexpr std::size_t applicationPlace = 68;

int numberAt(std::string_view bytes, std::size_t place) {
    std::uint32_t value = 0;
    for (const char byte : bytes.substr(place, 4)) {
        value = value << 8U | static_cast<unsigned char>(byte);
    }
    return static_cast<int>(value);
}

Mark markIn(std::string_view head) {
    if (head.size() < headSize || !head.starts_with(databaseMark)) {
        return {};
    }
    return {numberAt(head, applicationPlace), numberAt(head, schemaPlace)};
}

}  // namespace

std::optional<Mark> markOnceUndone(const std::filesystem::path& database) {
    if (!hasJournalLeft(database)) {
        return std::nullopt;
    }
    const LayerFile file(database);
    std::string head(headSize, '\0');
    int code = file.read(head.data(), static_cast<int>(headSize), 0);
    if (code != SQLITE_OK && code != SQLITE_IOERR_SHORT_READ) {
        code = file.read(head.data(), static_cast<int>(headSize), 0);
    }
    const bool isGiven = code == SQLITE_OK || code == SQLITE_IOERR_SHORT_READ;
    if (isGiven && head.starts_with(databaseMark) &&
        (head[versionPlace] > 1 || head[versionPlace + 1] > 1)) {
        return std::nullopt;
    }
    const JournalFile journal(database);
    std::string before;
    journal.forEachPage([&](std::uint64_t page, std::string_view content, std::int64_t) {
        before = page == 1 ? content.substr(0, headSize) : std::string_view();
        return page != 1;
    });
    if (!before.empty()) {
        return markIn(before);
    }
    return isGiven && !journal.isUnread() ? std::optional(markIn(head)) : std::nullopt;
}

}  // namespace store
