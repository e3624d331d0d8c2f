// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Pages of the table of records that the disk has not given once: all rows behind one are unread,
// without asking for it again for each. For this folder only, since it shows SQLite.
#pragma once

#include <SQLiteCpp/Database.h>

#include <cstdint>
#include <vector>

namespace store {

class LeavesUnread {
public:
    explicit LeavesUnread(SQLite::Database& database) : m_database(database) {}

    // Looks for the page behind which that row stands, which could not be read. Nothing is learnt
    // where every page on the way to it is given.
    void look(std::int64_t arrival);

    [[nodiscard]] bool hold(std::int64_t arrival) const;

private:
    struct Range {
        std::int64_t after = 0;
        std::int64_t upTo = 0;
    };
    SQLite::Database& m_database;
    std::vector<Range> m_ranges{};
};

}  // namespace store
