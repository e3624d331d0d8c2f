// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Editions and persons are few, and all else is judged by them: each is held against its seal as it
// is read, and not by verify alone. For this folder only. Throws SQLite::Exception.
#pragma once

#include "store/database.h"
#include "store/row.h"

#include <span>

namespace store {

// Whether the row of that name has the hash that its content and the hash before it come to. True
// where the one before is not there, which is told as that.
[[nodiscard]] bool fitsSeal(Database& database, const logbook::RecordName& name);

[[nodiscard]] inline bool isFounding(logbook::Kind kind) {
    return kind == logbook::Kind::Adopt || kind == logbook::Kind::Person;
}

// None that does not fit is whole.
void holdFoundingAgainstSeals(Database& database, std::span<ReadRecord> read);

}  // namespace store
