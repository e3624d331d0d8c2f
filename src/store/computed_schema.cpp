// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Looking for what is computed in a schema; see computed_schema.h.
#include "store/computed_schema.h"

#include <SQLiteCpp/Statement.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cstddef>
#include <string_view>

namespace store {

namespace {

// A virtual table has no pages, and what makes it need not be here.
constexpr std::string_view ofTables =
    " WHERE t.type = 'table' AND t.sql NOT LIKE 'CREATE VIRTUAL%'";

bool isOfWord(char letter) {
    const auto byte = static_cast<unsigned char>(letter);
    return byte >= 0x80 || std::isalnum(byte) != 0 || byte == '_' || byte == '$';
}

char inSmall(char letter) {
    return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
}

// Past a text or a name in quotation marks that begins there; one in it that is doubled ends it and
// begins the next, which comes to the same.
std::size_t pastQuoted(const std::string& sql, std::size_t place) {
    const char end = sql[place] == '[' ? ']' : sql[place];
    const auto found = sql.find(end, place + 1);
    return found == std::string::npos ? sql.size() : found + 1;
}

// The first value, if there is one.
std::optional<std::string> firstOf(SQLite::Database& database, const std::string& query) {
    SQLite::Statement statement(database, query);
    return statement.executeStep() ? std::optional(statement.getColumn(0).getString())
                                   : std::nullopt;
}

// Whether the text that makes an index over columns, for some rows, has more in it than names,
// constants and what compares them. A remark counts: it might hide what stands behind it.
bool isComputed(const std::string& sql) {
    constexpr std::array<std::string_view, 4> patterns = {"like", "glob", "match", "regexp"};
    constexpr std::array<std::string_view, 5> beforeGroups = {"in", "and", "or", "not", "where"};
    bool isInColumns = false;  // or behind them
    std::string before;        // the word just before, in small letters; '"' for a quoted one
    for (std::size_t place = 0; place < sql.size();) {
        const char letter = sql[place];
        const auto two = std::string_view(sql).substr(place, 2);
        if (two == "||" || two == "->" || two == "--" || two == "/*") {
            return true;
        }
        if (letter == '(') {
            const bool isGroup = before.empty() || std::ranges::count(beforeGroups, before) > 0;
            if (isInColumns && !isGroup) {
                return true;
            }
            isInColumns = true;
        }
        if (letter == '\'' || letter == '"' || letter == '`' || letter == '[') {
            place = pastQuoted(sql, place);
            before = '"';
        } else if (isOfWord(letter)) {
            before.clear();
            for (; place < sql.size() && isOfWord(sql[place]); ++place) {
                before += inSmall(sql[place]);
            }
            if (std::ranges::count(patterns, before) > 0) {
                return true;
            }
        } else {
            before = std::isspace(static_cast<unsigned char>(letter)) != 0 ? before : "";
            ++place;
        }
    }
    return false;
}

std::optional<std::string> chosenByMore(SQLite::Database& database) {
    SQLite::Statement partial(
        database, "SELECT i.name, i.sql FROM sqlite_schema AS t, pragma_index_list(t.name) AS l,"
                  " sqlite_schema AS i" +
                      std::string(ofTables) +
                      " AND l.partial AND i.type = 'index' AND i.name = l.name");
    while (partial.executeStep()) {
        if (isComputed(partial.getColumn(1).getString())) {
            return partial.getColumn(0).getString();
        }
    }
    return std::nullopt;
}

}  // namespace

std::optional<std::string> computedIn(SQLite::Database& database) {
    // Hidden 2 and 3: as of "PRAGMA table_xinfo".
    const auto table = firstOf(
        database, "SELECT t.name FROM sqlite_schema AS t, pragma_table_xinfo(t.name) AS c" +
                      std::string(ofTables) +
                      " AND (c.hidden IN (2, 3) OR (c.dflt_value IS NOT NULL"
                      " AND lower(t.name) IN " +
                      std::string(ourTables) + "))");
    if (table) {
        return *table + " has a column that is computed";
    }
    auto index = firstOf(
        database, "SELECT i.name FROM sqlite_schema AS i, pragma_index_xinfo(i.name) AS c"
                  " WHERE i.type = 'index' AND c.cid = -2");
    if (!index) {
        index = chosenByMore(database);
    }
    return index ? std::optional(*index + " is an index over what is computed") : std::nullopt;
}

}  // namespace store
