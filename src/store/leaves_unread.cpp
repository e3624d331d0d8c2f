// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// From the root of the table to the page that is not given; see leaves_unread.h.
#include "store/leaves_unread.h"

#include "store/layer_file.h"

#include <SQLiteCpp/Statement.h>

#include <algorithm>
#include <limits>
#include <sqlite3.h>
#include <string>
#include <string_view>

namespace store {

namespace {

// "B-tree Pages" in SQLite's fileformat2.html.
constexpr char inner = 0x05;
constexpr std::size_t innerHeader = 12;
constexpr int deepest = 20;

std::uint64_t numberIn(std::string_view bytes) {
    std::uint64_t number = 0;
    for (const char byte : bytes) {
        number = number << 8U | static_cast<unsigned char>(byte);
    }
    return number;
}

// Seven bits a byte, and all eight of a ninth.
std::int64_t keyIn(std::string_view bytes) {
    std::uint64_t key = 0;
    for (std::size_t i = 0; i < bytes.size() && i < 9; ++i) {
        const auto bits = static_cast<unsigned char>(bytes[i]);
        key = i == 8 ? key << 8U | bits : key << 7U | (bits & 0x7FU);
        if ((bits & 0x80U) == 0) {
            break;
        }
    }
    return static_cast<std::int64_t>(key);
}

struct Child {
    std::uint64_t page = 0;
    std::int64_t after = 0, upTo = 0;
};

// Which page below this one leads to the row. Nothing, 0, on a page that is damaged.
Child childFor(std::string_view page, const Child& from, std::int64_t arrival) {
    Child child{numberIn(page.substr(8, 4)), from.after, from.upTo};
    const auto cells = std::min<std::uint64_t>(numberIn(page.substr(3, 2)),
                                               (page.size() - innerHeader) / 2);
    for (std::size_t i = 0; i < cells; ++i) {
        const auto place = numberIn(page.substr(innerHeader + 2 * i, 2));
        if (place + 5 > page.size()) {
            return {};
        }
        const auto key = keyIn(page.substr(place + 4));
        if (arrival <= key) {
            return {numberIn(page.substr(place, 4)), child.after, key};
        }
        child.after = key;
    }
    return child;
}

}  // namespace

void LeavesUnread::look(std::int64_t arrival) {
    // As long as it is not stepped to its end nobody writes.
    SQLite::Statement table(m_database,
                            "SELECT rootpage FROM sqlite_schema WHERE name = 'records'");
    const auto pageSize =
        static_cast<std::size_t>(m_database.execAndGet("PRAGMA page_size").getInt64());
    const char* path = sqlite3_db_filename(m_database.getHandle(), "main");
    if (path == nullptr || !table.executeStep()) {
        return;
    }
    const LayerFile file(path);
    std::string page(pageSize, '\0');
    Child at{static_cast<std::uint64_t>(table.getColumn(0).getInt64()),
             std::numeric_limits<std::int64_t>::min(), std::numeric_limits<std::int64_t>::max()};
    for (int depth = 0; depth < deepest && at.page > 1; ++depth) {
        const auto place = static_cast<sqlite3_int64>((at.page - 1) * pageSize);
        const int code = file.read(page.data(), static_cast<int>(pageSize), place);
        if ((code & 0xFF) == SQLITE_IOERR && code != SQLITE_IOERR_SHORT_READ) {
            m_ranges.push_back({at.after, at.upTo});
            return;
        }
        if (code != SQLITE_OK || page.front() != inner) {
            return;
        }
        at = childFor(page, at, arrival);
    }
}

bool LeavesUnread::hold(std::int64_t arrival) const {
    return std::ranges::any_of(m_ranges, [&](const Range& range) {
        return arrival > range.after && arrival <= range.upTo;
    });
}

}  // namespace store
