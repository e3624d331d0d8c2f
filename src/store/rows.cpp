// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rows of the database to values and back, for the other files of this folder.
#include "store/connection.h"
#include "store/row_cursor.h"

#include "logbook/canonical_reader.h"
#include "logbook/record_reader.h"

#include <algorithm>
#include <string>
#include <utility>

namespace store {

Hash hashOf(const SQLite::Column& column) {
    Hash hash{};
    const void* bytes = column.getBlob();
    if (bytes != nullptr && static_cast<std::size_t>(column.getBytes()) == hash.size()) {
        std::copy_n(static_cast<const std::uint8_t*>(bytes), hash.size(), hash.begin());
    }
    return hash;
}

void bindHash(SQLite::Statement& statement, int index, const Hash& hash) {
    statement.bind(index, hash.data(), static_cast<int>(hash.size()));
}

Row rowOf(SQLite::Statement& statement) {
    Row row;
    row.arrival = statement.getColumn(0).getInt64();
    row.place.name = {statement.getColumn(1).getString(), statement.getColumn(2).getInt64()};
    row.place.at = {statement.getColumn(3).getInt64()};
    row.place.entered = {statement.getColumn(4).getInt64()};
    row.device = statement.getColumn(5).getString();
    row.kind = statement.getColumn(6).getString();
    row.content = statement.getColumn(7).getString();
    row.hash = hashOf(statement.getColumn(8));
    row.arrived = {statement.getColumn(9).getInt64()};
    return row;
}

bool readContent(std::string_view content, std::string_view kind, logbook::Record& record,
                 logbook::WithContent withContent) {
    if (logbook::readCanonical(content, kind, record, withContent)) {
        return true;
    }
    auto thorough = logbook::readRecord(content);
    if (!thorough) {
        return false;
    }
    record = std::move(*thorough);
    if (withContent == logbook::WithContent::No) {
        record.content.clear();
    }
    return true;
}

std::optional<logbook::Record> recordOf(const Row& row) {
    std::optional<logbook::Record> record(std::in_place);
    if (!readContent(row.content, row.kind, *record) || placeOf(*record) != row.place ||
        record->device != row.device || logbook::kindName(record->kind()) != row.kind) {
        record.reset();
    }
    return record;
}

std::optional<Head> lastRecordOf(Database& database, const std::string& station) {
    RowCursor row(database, "SELECT seq, hash FROM records WHERE station = :station"
                            " ORDER BY seq DESC LIMIT 1");
    row.bind(":station", station);
    if (!row.step()) {
        return std::nullopt;
    }
    return Head{row.number(0), hashIn(row, 1)};
}

std::optional<Row> findRow(SQLite::Database& database, const logbook::RecordName& name) {
    SQLite::Statement statement(database, "SELECT " + std::string(rowColumns) +
                                              " FROM records WHERE station = ? AND seq = ?");
    statement.bind(1, name.station);
    statement.bind(2, name.seq);
    if (!statement.executeStep()) {
        return std::nullopt;
    }
    return rowOf(statement);
}

Heads notedHeads(Database& database) {
    Heads heads;
    SQLite::Statement statement(database, "SELECT station, seq, hash FROM local_heads");
    while (statement.executeStep()) {
        heads[statement.getColumn(0).getString()] = {statement.getColumn(1).getInt64(),
                                                     hashOf(statement.getColumn(2))};
    }
    return heads;
}

std::int64_t lastArrivalIn(Database& database) {
    RowCursor row(database, "SELECT coalesce(max(arrival), 0) FROM records");
    return row.step() ? row.number(0) : 0;
}

LentRecord lend(const logbook::Record& record) {
    return {record.name.station, record.name.seq, record.at,    record.entered,
            record.device,       record.content,  record.kind()};
}

logbook::RecordName nameOf(const LentRecord& record) {
    return {std::string(record.station), record.seq};
}

Place placeOf(const logbook::Record& record) {
    return {record.at, record.entered, record.name};
}

}  // namespace store
