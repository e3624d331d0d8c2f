// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Asking the database about its pages; see pages_check.h.
#include "store/pages_check.h"

#include "store/connection.h"

#include <SQLiteCpp/Statement.h>

#include <cstdlib>
#include <sqlite3.h>
#include <string_view>
#include <utility>

namespace store {

// Of all pages, since what is told of one table does not say whether another has the same page.
std::vector<std::string> messagesOfPages(SQLite::Database& database) {
    std::vector<std::string> messages;
    static_assert(mostMessages == 100);
    SQLite::Statement statement(database, "PRAGMA integrity_check(100)");
    while (statement.executeStep()) {
        std::string message = statement.getColumn(0).getString();
        if (const auto head = message.find(" ***\n"); head != std::string::npos) {
            message.erase(0, head + 5);  // which of the databases it speaks of: there is one
        }
        if (message != "ok") {
            messages.push_back(std::move(message));
        }
    }
    return messages;
}

bool saysDiskFailed(const std::string& message) {
    constexpr std::string_view before = "error code=";
    const auto found = message.find(before);
    return message.find("failed to get page") != std::string::npos ||
           (found != std::string::npos &&
            (std::atoi(message.c_str() + found + before.size()) & 0xFF) == SQLITE_IOERR);
}

}  // namespace store
