// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rows by SQLite's own calls; see row_writer.h.
#include "store/row_writer.h"

#include "store/connection.h"

#include <sqlite3.h>

#include <string>

namespace store {

// Whatever a strange table would have done where two of its rows do not go together.
RowWriter::RowWriter(Database& database)
    : m_statement(database, "INSERT OR ABORT INTO records (" + std::string(rowColumns) +
                                ") VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)") {}

void RowWriter::demand(int code, int wanted) const {
    if (code != wanted) {
        throw SQLite::Exception(m_statement.database().getHandle(), code);
    }
}

void RowWriter::bind(int index, std::int64_t value) {
    demand(sqlite3_bind_int64(m_statement.get(), index, value), SQLITE_OK);
}

// One that is empty must not point to nothing: that would be bound as no value at all.
void RowWriter::bind(int index, std::string_view text) {
    demand(sqlite3_bind_text64(m_statement.get(), index, text.empty() ? "" : text.data(),
                               text.size(), SQLITE_STATIC, SQLITE_UTF8),
           SQLITE_OK);
}

void RowWriter::insert(const LentRecord& record, const RowArrival& arrival) {
    bind(1, arrival.arrival);
    bind(2, record.station);
    bind(3, record.seq);
    bind(4, record.at.ms);
    bind(5, record.entered.ms);
    bind(6, record.device);
    bind(7, logbook::kindName(record.kind));
    bind(8, record.content);
    demand(sqlite3_bind_blob(m_statement.get(), 9, arrival.hash.data(),
                             static_cast<int>(arrival.hash.size()), SQLITE_STATIC),
           SQLITE_OK);
    bind(10, arrival.arrived.ms);
    const int code = sqlite3_step(m_statement.get());
    demand(code, SQLITE_DONE);
    demand(sqlite3_reset(m_statement.get()), SQLITE_OK);
}

void noteHead(Database& database, const std::string& station, const Head& head,
              const HeadTimes& times) {
    RowCursor noting(
        database,
        "INSERT OR ABORT INTO local_heads (station, seq, hash, entered_ms, arrived_ms)"
        " VALUES (:station, :seq, :hash, :entered, :arrived)"
        " ON CONFLICT (station) DO UPDATE SET seq = excluded.seq,"
        " hash = excluded.hash, entered_ms = max(entered_ms, excluded.entered_ms),"
        " arrived_ms = excluded.arrived_ms");
    noting.bind(":station", station);
    noting.bind(":seq", head.seq);
    noting.bind(":hash", head.hash);
    noting.bind(":entered", times.entered.ms);
    noting.bind(":arrived", times.arrived.ms);
    while (noting.step()) {
    }
}

void noteImport(SQLite::Database& database, const Import& import) {
    SQLite::Statement statement(database,
                                "INSERT OR ABORT INTO local_imports"
                                " (file, person, at_ms, added, skipped) VALUES (?, ?, ?, ?, ?)");
    statement.bind(1, import.file);
    statement.bind(2, import.person);
    statement.bind(3, import.at.ms);
    statement.bind(4, import.added);
    statement.bind(5, import.skipped);
    statement.exec();
}

}  // namespace store
