// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Puts rows into `records` from texts that are lent, without a copy: for bringing in many, where
// each call a row counts; and notes what came in. Checks nothing. For this folder only.
#pragma once

#include "store/heads.h"
#include "store/row.h"
#include "store/row_cursor.h"

#include <cstdint>
#include <string>
#include <string_view>

namespace store {

// What a row has besides its record.
struct RowArrival {
    std::int64_t arrival = 0;
    Hash hash{};
    logbook::Instant arrived{};
};

// Throws SQLite::Exception.
class RowWriter {
public:
    explicit RowWriter(Database& database);

    void insert(const LentRecord& record, const RowArrival& arrival);

private:
    void demand(int code, int wanted) const;
    void bind(int index, std::int64_t value);
    void bind(int index, std::string_view text);

    Lent m_statement;
};

struct HeadTimes {
    logbook::Instant entered{};  // the latest of those that came in
    logbook::Instant arrived{};
};

// Notes the last record of a station. Throws SQLite::Exception.
void noteHead(Database& database, const std::string& station, const Head& head,
              const HeadTimes& times);

struct Import;

// Throws SQLite::Exception.
void noteImport(SQLite::Database& database, const Import& import);

}  // namespace store
