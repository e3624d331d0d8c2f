// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What in a logbook's schema is not as it was made, before anything is written: a strange trigger
// would do with each entry what its maker likes. For this folder only, since it shows SQLite;
// throws SQLite::Exception.
#pragma once

#include "store/connection.h"

#include <optional>

namespace store {

// Under the lock: where the schema is not that of a logbook of that version, none of its triggers
// runs in this connection, and none of its rules for rows (CHECK). Compares once, and again when
// the schema is changed. Throws as damage where it computes something: see computed_schema.h.
void guardSchema(Database& database, int version);

// Damaged, where guardSchema has seen that in this transaction: for what can wait. Throws outside
// of one, where it has seen nothing.
[[nodiscard]] std::optional<Trouble> refuseForeignSchema(const Connection& connection);

}  // namespace store
