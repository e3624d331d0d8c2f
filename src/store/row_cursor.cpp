// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rows by SQLite's own calls; see row_cursor.h.
#include "store/row_cursor.h"

#include "store/connection.h"

#include <sqlite3.h>

#include <algorithm>
#include <utility>

namespace store {

namespace {

// The columns of rowColumns that are read here.
enum Column { Arrival, Station, Seq, At, Entered, Device, KindWord, Content, ChainHash };

}  // namespace

RowCursor::RowCursor(Database& database, std::string query)
    : m_statement(database, std::move(query)) {}

void RowCursor::demand(int code, int wanted) const {
    if (code != wanted) {
        throw SQLite::Exception(m_statement.database().getHandle(), code);
    }
}

void RowCursor::bind(const char* parameter, std::int64_t value) {
    const int index = sqlite3_bind_parameter_index(m_statement.get(), parameter);
    demand(sqlite3_bind_int64(m_statement.get(), index, value), SQLITE_OK);
}

void RowCursor::bind(const char* parameter, const std::string& value) {
    const int index = sqlite3_bind_parameter_index(m_statement.get(), parameter);
    demand(sqlite3_bind_text(m_statement.get(), index, value.data(),
                             static_cast<int>(value.size()), SQLITE_TRANSIENT),
           SQLITE_OK);
}

void RowCursor::bind(const char* parameter, const Hash& value) {
    const int index = sqlite3_bind_parameter_index(m_statement.get(), parameter);
    demand(sqlite3_bind_blob(m_statement.get(), index, value.data(),
                             static_cast<int>(value.size()), SQLITE_TRANSIENT),
           SQLITE_OK);
}

void RowCursor::reset() {
    // What went wrong was told by the step.
    sqlite3_reset(m_statement.get());
}

bool RowCursor::step() {
    const int code = sqlite3_step(m_statement.get());
    if (code == SQLITE_DONE) {
        return false;
    }
    demand(code, SQLITE_ROW);
    return true;
}

std::int64_t RowCursor::number(int column) const {
    return sqlite3_column_int64(m_statement.get(), column);
}

std::string_view RowCursor::text(int column) const {
    const auto* bytes = sqlite3_column_text(m_statement.get(), column);
    if (bytes == nullptr) {
        return {};
    }
    return {reinterpret_cast<const char*>(bytes),
            static_cast<std::size_t>(sqlite3_column_bytes(m_statement.get(), column))};
}

std::string_view RowCursor::bytes(int column) const {
    const auto* bytes = sqlite3_column_blob(m_statement.get(), column);
    if (bytes == nullptr) {
        return {};
    }
    return {static_cast<const char*>(bytes),
            static_cast<std::size_t>(sqlite3_column_bytes(m_statement.get(), column))};
}

Hash hashOf(const RowCursor& row) {
    return hashIn(row, ChainHash);
}

Hash hashIn(const RowCursor& row, int column) {
    Hash hash{};
    const auto bytes = row.bytes(column);
    if (bytes.size() == hash.size()) {
        std::copy(bytes.begin(), bytes.end(), hash.begin());
    }
    return hash;
}

void readInto(ReadRecord& read, const RowCursor& row, logbook::WithContent withContent) {
    read.arrival = row.number(Arrival);
    read.place.name.station.assign(row.text(Station));
    read.place.name.seq = row.number(Seq);
    read.place.at = {row.number(At)};
    read.place.entered = {row.number(Entered)};
    const auto kind = row.text(KindWord);
    const auto& record = read.record;
    read.whole = readContent(row.text(Content), kind, read.record, withContent) &&
                 record.at == read.place.at && record.entered == read.place.entered &&
                 record.name == read.place.name && record.device == row.text(Device) &&
                 logbook::kindName(record.kind()) == kind;
}

}  // namespace store
