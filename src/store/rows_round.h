// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rows of a file that is damaged in places: found without an index, or where the table itself is
// damaged with one, and each read by itself, so that one that cannot be read keeps no other from
// it. For this folder only.
#pragma once

#include "store/row.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>

#include <cstddef>
#include <functional>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace store {

// What rowsRound wants a query for; none of them lies behind a content, and each index of records
// but that of names holds them all.
inline constexpr std::string_view placeColumns = "arrival, station, seq, at_ms, entered_ms";

// Rows that are read in one transaction.
struct Portion {
    std::vector<Row> rows;
    bool isCut = false;  // more may come behind the last of them
};

// Those that the statement, for rowColumns, steps to: up to rowsPerTransaction, and no more once
// they hold bytesPerTransaction.
[[nodiscard]] Portion portionOf(SQLite::Statement statement);

// The statement that finds the rows, in what is given: `records` with how it is to be gone through.
using PlacesIn = std::function<SQLite::Statement(const std::string& records)>;

// Those that the statement steps through, no more once they hold so many bytes: only then it is
// cut. Of one that cannot be read the content is empty, which is no record's. Throws
// SQLite::Exception where the rows cannot be found, by the table nor by the index.
[[nodiscard]] Portion rowsRound(SQLite::Database& database, const std::string& index,
                                const PlacesIn& placesIn,
                                std::size_t mostBytes = std::numeric_limits<std::size_t>::max());

// As findRow.
[[nodiscard]] std::optional<Row> findRowRound(SQLite::Database& database,
                                              const logbook::RecordName& name);

}  // namespace store
