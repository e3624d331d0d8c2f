// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The look at a hash; see founding_seals.h.
#include "store/founding_seals.h"

#include "store/connection.h"
#include "store/row_cursor.h"

namespace store {

bool fitsSeal(Database& database, const logbook::RecordName& name) {
    RowCursor row(database, "SELECT content, hash FROM records"
                            " WHERE station = :station AND seq = :seq");
    RowCursor before(database, "SELECT hash FROM records"
                               " WHERE station = :station AND seq = :seq - 1");
    for (auto* each : {&row, &before}) {
        each->bind(":station", name.station);
        each->bind(":seq", name.seq);
    }
    if (!row.step()) {
        return false;
    }
    const bool isFirst = name.seq == 1;
    if (!isFirst && !before.step()) {
        return true;
    }
    return chainHash(isFirst ? Hash{} : hashIn(before, 0), row.text(0)) == hashIn(row, 1);
}

void holdFoundingAgainstSeals(Database& database, std::span<ReadRecord> read) {
    for (auto& each : read) {
        if (each.whole && isFounding(each.record.kind())) {
            each.whole = fitsSeal(database, each.place.name);
        }
    }
}

}  // namespace store
