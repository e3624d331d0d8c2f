// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Going through strikes in portions; see strikes_beyond.h.
#include "store/strikes_beyond.h"

#include "logbook/record_reader.h"
#include "store/snapshot_rows.h"

#include <algorithm>
#include <sqlite3.h>
#include <variant>

namespace store {

using logbook::RecordName;

namespace {

constexpr std::size_t atOnce = rowsPerTransaction / 2;  // each with what it strikes

}  // namespace

std::optional<Place> findPlace(Database& database, const RecordName& name,
                               std::int64_t arrivedUpTo) {
    SQLite::Statement statement(database,
                                "SELECT at_ms, entered_ms, station, seq FROM records"
                                " WHERE station = ? AND seq = ? AND +arrival <= ?");
    statement.bind(1, name.station);
    statement.bind(2, name.seq);
    statement.bind(3, arrivedUpTo);
    if (!statement.executeStep()) {
        return std::nullopt;
    }
    return placeOf(statement, 0);
}

std::optional<RecordName> targetOf(const std::string& strike) {
    const auto record = logbook::readRecord(std::string_view(strike));
    const auto* body = record ? std::get_if<logbook::body::Strike>(&record->body) : nullptr;
    return body != nullptr ? std::optional(body->target) : std::nullopt;
}

void StrikesBeyond::lookAt(std::span<const RecordName> strikes) {
    while (!strikes.empty()) {
        const SQLite::Transaction moment(m_database);
        const auto portion = strikes.first(std::min(strikes.size(), atOnce));
        for (const auto& strike : portion) {
            const auto row = findRow(m_database, strike);
            if (row && row->arrival <= m_last) {
                look(strike, row->content);
            }
        }
        strikes = strikes.subspan(portion.size());
    }
}

void StrikesBeyond::lookAfter(Place after) {
    SQLite::Statement rows(m_database,
                           "SELECT at_ms, entered_ms, station, seq, arrival, content FROM records"
                           " WHERE kind = 'strike' AND " +
                               std::string(thatFound) +
                               " AND (at_ms, entered_ms, station, seq) > (?, ?, ?, ?)"
                               " AND (at_ms, entered_ms, station, seq) <= (?, ?, ?, ?)"
                               " ORDER BY at_ms, entered_ms, station, seq LIMIT ?");
    for (bool isMore = true; isMore;) {
        bindPlace(rows, 1, after);
        bindPlace(rows, 5, m_place);
        rows.bind(9, static_cast<std::int64_t>(atOnce));
        const Place began = after;
        std::size_t read = 0;
        for (; rows.executeStep(); ++read) {
            after = placeOf(rows, 0);
            if (rows.getColumn(4).getInt64() <= m_last) {
                look(after.name, rows.getColumn(5).getString());
            }
        }
        rows.reset();
        isMore = read == atOnce;
        if (isMore && !(began < after)) {
            // As in a portion of any records: see logbook_read.cpp.
            throw SQLite::Exception("a strike is not where it is said to be", SQLITE_CORRUPT);
        }
    }
}

void StrikesBeyond::look(const RecordName& strike, const std::string& content) {
    const auto target = targetOf(content);
    const auto struck = target ? findPlace(m_database, *target, m_last) : std::nullopt;
    if (target && (!struck || m_place < *struck)) {
        m_found.push_back(strike);
    }
}

}  // namespace store
