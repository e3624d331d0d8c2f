// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The database's own check of all its pages, which goes on after an error and tells it in words.
// For this folder only, since it shows SQLite; throws SQLite::Exception.
#pragma once

#include <SQLiteCpp/Database.h>

#include <string>
#include <vector>

namespace store {

// What it tells, as many at most as mostMessages; none where all is well.
[[nodiscard]] std::vector<std::string> messagesOfPages(SQLite::Database& database);

// Whether such a message says that the disk did not give something.
[[nodiscard]] bool saysDiskFailed(const std::string& message);

}  // namespace store
