// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What each call of Credentials does first: open the file for itself alone, and write only by the
// log on which it rests. For the credentials_… files of this folder.
#pragma once

#include "store/connection.h"
#include "store/credentials.h"

#include <algorithm>
#include <cstdint>
#include <memory>
#include <optional>

namespace store {

// For one call only: when it is closed, nothing of the pages that it read is left.
inline tl::expected<std::unique_ptr<Connection>, Trouble> openFor(const std::filesystem::path& path,
                                                                  OpenOptions options) {
    auto connection = Connection::open(path, options);
    if (connection) {
        // An old hash is not left behind in the file either.
        (*connection)->wipeDeleted();
    }
    return connection;
}

// As stored, as far as it matters: whatever is more than locks stays locked.
inline int failuresIn(const SQLite::Column& column) {
    return static_cast<int>(std::clamp<std::int64_t>(column.getInt64(), 0, 1'000'000));
}

// A log that is not any more the one on which it rests that this may be written.
template <class Function>
auto writingAt(const Connection& connection, std::optional<std::int64_t> arrival,
               const Writing& writing, Function function) -> decltype(function()) {
    return connection.writing(writing, [&]() -> decltype(function()) {
        if (arrival && lastArrivalIn(connection.database()) != *arrival) {
            return tl::unexpected<Trouble>(connection.trouble(Trouble::Code::LogMoved));
        }
        return function();
    });
}

// The same for what can wait: nothing of it goes into a file with damaged pages.
template <class Function>
auto writingWholeAt(const Connection& connection, std::optional<std::int64_t> arrival,
                    const Writing& writing, Function function) -> decltype(function()) {
    return writingAt(connection, arrival, writing, [&]() -> decltype(function()) {
        if (auto trouble = refuseDamagedPages(connection)) {
            return tl::unexpected<Trouble>(*std::move(trouble));
        }
        return function();
    });
}

}  // namespace store
