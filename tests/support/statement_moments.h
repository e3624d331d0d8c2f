// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The moments in which a program holds nothing of a logbook, so that others may write into it or
// the disk may fail: before each statement that begins while no connection is in a transaction. A
// test does something in one of them, then in the next, until there are no more. Knows no table.
#pragma once

#include <sqlite3.h>

#include <algorithm>
#include <functional>
#include <set>
#include <utility>

namespace support {

// While it lives the connections that are opened are watched, and those that were opened while
// another did. One at a time.
class StatementMoments {
public:
    using Act = std::function<void(sqlite3*)>;

    // Calls `act` in the moment of that number, from 1 on.
    StatementMoments(int number, Act act) : m_number(number), m_act(std::move(act)) {
        current() = this;
        sqlite3_auto_extension(reinterpret_cast<void (*)()>(watch));
    }
    ~StatementMoments() {
        sqlite3_cancel_auto_extension(reinterpret_cast<void (*)()>(watch));
        current() = nullptr;
    }
    StatementMoments(const StatementMoments&) = delete;
    StatementMoments& operator=(const StatementMoments&) = delete;

    // And that one so many moments after it.
    void andThen(int later, Act act) {
        m_later = later;
        m_next = std::move(act);
    }

    // Whether there was a moment of that number.
    [[nodiscard]] bool came() const { return m_seen >= m_number; }
    [[nodiscard]] int seen() const { return m_seen; }

private:
    static StatementMoments*& current() {
        static StatementMoments* moments = nullptr;
        return moments;
    }
    // Those that are watched and open.
    static std::set<sqlite3*>& connections() {
        static std::set<sqlite3*> connections;
        return connections;
    }
    static int watch(sqlite3* database, const char**, const sqlite3_api_routines*) {
        connections().insert(database);
        return sqlite3_trace_v2(database, SQLITE_TRACE_STMT | SQLITE_TRACE_CLOSE, begins, nullptr);
    }
    static int begins(unsigned event, void*, void* of, void*) {
        if (event == SQLITE_TRACE_CLOSE) {
            connections().erase(static_cast<sqlite3*>(of));
            return 0;
        }
        auto* moments = current();
        if (moments != nullptr && !moments->m_acts &&
            std::ranges::none_of(connections(), [](sqlite3* each) {
                return sqlite3_txn_state(each, nullptr) != SQLITE_TXN_NONE;
            })) {
            moments->meet(sqlite3_db_handle(static_cast<sqlite3_stmt*>(of)));
        }
        return 0;
    }
    void meet(sqlite3* database) {
        ++m_seen;
        const bool isLater = m_next && m_seen == m_number + m_later;
        if (m_seen != m_number && !isLater) return;
        m_acts = true;
        (isLater ? m_next : m_act)(database);
        m_acts = false;
    }

    int m_number;
    Act m_act;
    int m_later = 0;
    Act m_next{};
    int m_seen = 0;
    bool m_acts = false;
};

}  // namespace support
