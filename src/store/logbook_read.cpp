// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading in order, in portions: between two of them the lock is free for writers.
#include "store/logbook.h"

#include "store/connection.h"

#include <algorithm>
#include <string>

namespace store {

namespace {

// By the index in reading order, or a device's, unless few have arrived since: then by arrival.
std::string queryFor(const Selection& selection) {
    std::string query = "SELECT " + std::string(rowColumns) + " FROM records";
    query += selection.arrivedAfter > 0 ? " NOT INDEXED WHERE arrival > :arrival"
                                        : " WHERE true";
    if (selection.device) {
        query += " AND device = :device";
    }
    if (selection.after) {
        query += " AND (at_ms, entered_ms, station, seq) > (:at, :entered, :station, :seq)";
    }
    return query + " ORDER BY at_ms, entered_ms, station, seq LIMIT :limit";
}

std::vector<Row> readPortion(SQLite::Database& database, const Selection& selection) {
    SQLite::Statement statement(database, queryFor(selection));
    statement.bind(":limit", rowsPerTransaction);
    if (selection.arrivedAfter > 0) {
        statement.bind(":arrival", selection.arrivedAfter);
    }
    if (selection.device) {
        statement.bind(":device", *selection.device);
    }
    if (selection.after) {
        statement.bind(":at", selection.after->at.ms);
        statement.bind(":entered", selection.after->entered.ms);
        statement.bind(":station", selection.after->name.station);
        statement.bind(":seq", selection.after->name.seq);
    }
    std::vector<Row> rows;
    while (statement.executeStep()) {
        rows.push_back(rowOf(statement));
    }
    return rows;
}

}  // namespace

tl::expected<void, Trouble> Logbook::forEachRow(const Selection& selection,
                                                const RowReader& reader) const {
    Selection rest = selection;
    for (;;) {
        const auto rows = m_connection->guarded([&]() -> tl::expected<std::vector<Row>, Trouble> {
            return readPortion(m_connection->database(), rest);
        });
        if (!rows) {
            return tl::unexpected<Trouble>(rows.error());
        }
        for (const Row& row : *rows) {
            if (!reader(row)) {
                return {};
            }
        }
        if (rows->size() < static_cast<std::size_t>(rowsPerTransaction)) {
            return {};
        }
        rest.after = rows->back().place;
    }
}

tl::expected<Records, Trouble> Logbook::records(const Selection& selection) const {
    Records result;
    const auto done = forEachRow(selection, [&](const Row& row) {
        result.lastArrival = std::max(result.lastArrival, row.arrival);
        if (auto record = recordOf(row)) {
            result.records.push_back(*std::move(record));
        } else {
            result.inDoubt.push_back(row.place.name);
        }
        return true;
    });
    if (!done) {
        return tl::unexpected<Trouble>(done.error());
    }
    return result;
}

}  // namespace store
