// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Steps through rows of `records` and lends their columns without a copy: for reading a whole log,
// where each call a row counts. For this folder only.
#pragma once

#include "store/row.h"

#include <SQLiteCpp/Database.h>

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

struct sqlite3_stmt;

namespace store {

// Throws SQLite::Exception.
class RowCursor {
public:
    // readInto and hashOf want a query for rowColumns.
    RowCursor(SQLite::Database& database, const std::string& query);

    // The parameter by its name, ":limit".
    void bind(const char* parameter, std::int64_t value);
    void bind(const char* parameter, const std::string& value);

    // False after the last row.
    [[nodiscard]] bool step();

    // Of the row stepped to. The text holds until the next step.
    [[nodiscard]] std::int64_t number(int column) const;
    [[nodiscard]] std::string_view text(int column) const;
    [[nodiscard]] std::string_view bytes(int column) const;

private:
    struct Finalize {
        void operator()(sqlite3_stmt* statement) const;
    };
    void demand(int code, int wanted) const;

    SQLite::Database& m_database;
    std::unique_ptr<sqlite3_stmt, Finalize> m_statement;
};

// Reads the row as recordOf does, into a record whose memory is used again.
void readInto(ReadRecord& read, const RowCursor& row);
// Its hash; zeros if the column holds no 32 bytes.
[[nodiscard]] Hash hashOf(const RowCursor& row);

}  // namespace store
