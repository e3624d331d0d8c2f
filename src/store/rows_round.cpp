// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading round damage; see rows_round.h.
#include "store/rows_round.h"

#include "store/connection.h"
#include "store/leaves_unread.h"

#include <string>

namespace store {

namespace {

constexpr std::string_view allButContent =
    "arrival, station, seq, at_ms, entered_ms, device, kind, '', hash, arrived_ms";

std::optional<Row> readRow(SQLite::Database& database, std::string_view columns,
                           std::int64_t arrival) {
    try {
        SQLite::Statement statement(database, "SELECT " + std::string(columns) +
                                                  " FROM records WHERE arrival = ?");
        statement.bind(1, arrival);
        if (statement.executeStep()) {
            return rowOf(statement);
        }
    } catch (const SQLite::Exception& exception) {
        if (!isDamage(exception)) {
            throw;
        }
    }
    return std::nullopt;
}

std::vector<Row> placesOf(SQLite::Statement statement) {
    std::vector<Row> rows;
    while (statement.executeStep()) {
        Row row;
        row.arrival = statement.getColumn(0).getInt64();
        row.place.name = {statement.getColumn(1).getString(), statement.getColumn(2).getInt64()};
        row.place.at = {statement.getColumn(3).getInt64()};
        row.place.entered = {statement.getColumn(4).getInt64()};
        rows.push_back(std::move(row));
    }
    return rows;
}

// Once their places are known, so that between two of them others may write: a disk that fails
// takes seconds to say so of each. What stands on a page that was not given once is not asked for
// again.
std::vector<Row> readEach(SQLite::Database& database, std::vector<Row> rows) {
    LeavesUnread unread(database);
    for (Row& row : rows) {
        if (unread.hold(row.arrival)) {
            continue;
        }
        auto read = readRow(database, rowColumns, row.arrival);
        if (!read) {
            unread.look(row.arrival);
        }
        if (!read && !unread.hold(row.arrival)) {
            read = readRow(database, allButContent, row.arrival);
        }
        if (read) {
            row = *std::move(read);
        }
    }
    return rows;
}

}  // namespace

std::vector<Row> rowsRound(SQLite::Database& database, const std::string& index,
                           const PlacesIn& placesIn) {
    try {
        return readEach(database, placesOf(placesIn("records NOT INDEXED")));
    } catch (const SQLite::Exception& exception) {
        if (!isDamage(exception)) {
            throw;
        }
    }
    return readEach(database, placesOf(placesIn("records INDEXED BY " + index)));
}

std::optional<Row> findRowRound(SQLite::Database& database, const logbook::RecordName& name) {
    auto rows = rowsRound(database, "records_in_reading_order", [&](const std::string& records) {
        SQLite::Statement statement(database, "SELECT " + std::string(placeColumns) + " FROM " +
                                                  records + " WHERE station = ? AND seq = ?");
        statement.bind(1, name.station);
        statement.bind(2, name.seq);
        return statement;
    });
    return rows.empty() ? std::nullopt : std::optional<Row>(std::move(rows.front()));
}

}  // namespace store
