// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading round damage; see rows_round.h.
#include "store/rows_round.h"

#include "store/connection.h"
#include "store/leaves_unread.h"
#include "store/logbook.h"

#include <string>
#include <utility>

namespace store {

namespace {

constexpr std::string_view allButContent =
    "arrival, station, seq, at_ms, entered_ms, device, kind, '', hash, arrived_ms";

std::size_t bytesIn(const Row& row) {
    return row.content.size() + row.device.size() + row.kind.size() +
           row.place.name.station.size();
}

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
Portion readEach(SQLite::Database& database, std::vector<Row> rows, std::size_t mostBytes) {
    LeavesUnread unread(database);
    std::size_t bytes = 0;
    for (std::size_t index = 0; index < rows.size(); ++index) {
        if (bytes >= mostBytes) {
            rows.resize(index);
            return {std::move(rows), true};
        }
        Row& row = rows[index];
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
        bytes += bytesIn(row);
    }
    return {std::move(rows), false};
}

}  // namespace

Portion portionOf(SQLite::Statement statement) {
    Portion portion;
    auto& rows = portion.rows;
    std::size_t bytes = 0;
    while (!portion.isCut && statement.executeStep()) {
        rows.push_back(rowOf(statement));
        bytes += bytesIn(rows.back());
        portion.isCut = bytes >= bytesPerTransaction ||
                        rows.size() == static_cast<std::size_t>(rowsPerTransaction);
    }
    return portion;
}

Portion rowsRound(SQLite::Database& database, const std::string& index, const PlacesIn& placesIn,
                  std::size_t mostBytes) {
    try {
        return readEach(database, placesOf(placesIn("records NOT INDEXED")), mostBytes);
    } catch (const SQLite::Exception& exception) {
        if (!isDamage(exception)) {
            throw;
        }
    }
    return readEach(database, placesOf(placesIn("records INDEXED BY " + index)), mostBytes);
}

std::optional<Row> findRowRound(SQLite::Database& database, const logbook::RecordName& name) {
    const auto find = [&](const std::string& records) {
        SQLite::Statement statement(database, "SELECT " + std::string(placeColumns) + " FROM " +
                                                  records + " WHERE station = ? AND seq = ?");
        statement.bind(1, name.station);
        statement.bind(2, name.seq);
        return statement;
    };
    auto rows = rowsRound(database, "records_in_reading_order", find).rows;
    return rows.empty() ? std::nullopt : std::optional<Row>(std::move(rows.front()));
}

}  // namespace store
