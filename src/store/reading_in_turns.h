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

struct TurnLimits {
    // A file with fewer pages is read faster than anybody waits.
    std::int64_t pagesAtOnce = 5'000;
    int beginnings = 50;
    int looksAtWriter = 3'000;  // of 10 ms each: so long one is waited for, who may be importing
};

// Calls `read`, which runs the statement and begins its results anew each time. Where this
// connection writes itself, or the file is small, it is called once. Otherwise a writer waits for
// hundredths of a second. SQLite::Exception with SQLITE_BUSY where others go on writing, for half a
// minute or fifty times; what `read` throws.
void readInTurns(SQLite::Database& database, const std::function<void()>& read,
                 const TurnLimits& limits = {});

}  // namespace store
