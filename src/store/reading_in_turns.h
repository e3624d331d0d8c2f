// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One long statement that reads and can only be done as a whole, beside others who write: as soon
// as one of them begins, it is stopped, they go first, and it is begun again. For this folder only,
// since it shows SQLite.
#pragma once

#include <SQLiteCpp/Database.h>

#include <cstdint>
#include <functional>

namespace store {

// A file with fewer pages is read faster than anybody waits.
inline constexpr std::int64_t pagesReadAtOnce = 5'000;

// Calls `read`, which runs the statement and begins its results anew each time. Where this
// connection writes itself, or the file is small, it is called once. Otherwise a writer waits for
// hundredths of a second. SQLite::Exception with SQLITE_BUSY where others go on writing, for half a
// minute or fifty times; what `read` throws.
void readInTurns(SQLite::Database& database, const std::function<void()>& read,
                 std::int64_t pagesAtOnce = pagesReadAtOnce);

}  // namespace store
