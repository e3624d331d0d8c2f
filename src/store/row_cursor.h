// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Steps through rows of `records` and lends their columns without a copy: for reading a whole log,
// where each call a row counts. For this folder only.
#pragma once

#include "store/database.h"
#include "store/row.h"

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <utility>

namespace store {

// A statement as long as it is lent. Throws SQLite::Exception.
class Lent {
public:
    Lent(Database& database, std::string query)
        : m_database(database), m_query(std::move(query)), m_statement(database.borrow(m_query)) {}
    ~Lent() { m_database.giveBack(m_statement, m_query); }
    Lent(const Lent&) = delete;
    Lent& operator=(const Lent&) = delete;

    [[nodiscard]] sqlite3_stmt* get() const { return m_statement; }
    [[nodiscard]] Database& database() const { return m_database; }

private:
    Database& m_database;
    std::string m_query;
    sqlite3_stmt* m_statement;
};

// The first of rowColumns, and all that readInto wants.
inline constexpr std::string_view readColumns =
    "arrival, station, seq, at_ms, entered_ms, device, kind, content";

// Throws SQLite::Exception.
class RowCursor {
public:
    // readInto wants a query for readColumns at least, hashOf for rowColumns.
    RowCursor(Database& database, std::string query);

    // The parameter by its name, ":limit".
    void bind(const char* parameter, std::int64_t value);
    void bind(const char* parameter, const std::string& value);
    void bind(const char* parameter, const Hash& value);

    // From the first row again.
    void reset();

    // False after the last row.
    [[nodiscard]] bool step();

    // Of the row stepped to. The text holds until the next step.
    [[nodiscard]] std::int64_t number(int column) const;
    [[nodiscard]] std::string_view text(int column) const;
    [[nodiscard]] std::string_view bytes(int column) const;

private:
    void demand(int code, int wanted) const;

    Lent m_statement;
};

// Reads the row as recordOf does, into a record whose memory is used again.
void readInto(ReadRecord& read, const RowCursor& row,
              logbook::WithContent withContent = logbook::WithContent::Yes);
// Its hash; zeros if the column holds no 32 bytes.
[[nodiscard]] Hash hashOf(const RowCursor& row);
// The same of a query for other columns.
[[nodiscard]] Hash hashIn(const RowCursor& row, int column);

}  // namespace store
