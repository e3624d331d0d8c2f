// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Snapshots as rows of the derived tables. For this folder only, since it shows SQLite; all throw
// SQLite::Exception.
#pragma once

#include "store/connection.h"
#include "store/schema.h"
#include "store/snapshot.h"
#include "store/state_seal.h"

namespace store {

// Of this revision, by names in letters of either size, as the database finds them.
[[nodiscard]] bool hasDerivedTables(SQLite::Database& database);

// (at_ms, entered_ms, station, seq) in columns, or as parameters, from `first` on.
[[nodiscard]] Place placeOf(SQLite::Statement& statement, int first);
void bindPlace(SQLite::Statement& statement, int first, const Place& place);

// Nothing if it is not there, not whole, or not made by who has the key.
[[nodiscard]] std::optional<Snapshot> readSnapshot(SQLite::Database& database, std::int64_t number,
                                                   const StateSeal& seal);
void insertSnapshot(SQLite::Database& database, const Snapshot& snapshot, const StateSeal& seal);

}  // namespace store
