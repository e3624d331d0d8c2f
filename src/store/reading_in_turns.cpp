// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Stopping for those who write; see reading_in_turns.h.
#include "store/reading_in_turns.h"

#include <SQLiteCpp/Exception.h>

#include <chrono>
#include <condition_variable>
#include <mutex>
#include <sqlite3.h>
#include <system_error>
#include <thread>

namespace store {

namespace {

using std::chrono::milliseconds;

constexpr milliseconds betweenLooks{10};
constexpr int stepsBetweenLooks = 10'000;  // of the database's program

// Whether somebody is about to write: from the beginning of the transaction on, so that they need
// not wait at its end. In the file layer itself, which any thread may ask.
class Writers {
public:
    explicit Writers(SQLite::Database& database) {
        sqlite3_file_control(database.getHandle(), "main", SQLITE_FCNTL_FILE_POINTER, &m_file);
    }
    [[nodiscard]] bool areThere() const {
        int reserved = 0;
        return m_file != nullptr && m_file->pMethods != nullptr &&
               m_file->pMethods->xCheckReservedLock(m_file, &reserved) == SQLITE_OK &&
               reserved != 0;
    }
    // Waits until they are gone; false if one does not go.
    [[nodiscard]] bool letGo(int looks) const {
        for (int look = 0; look < looks; ++look) {
            if (!areThere()) {
                return true;
            }
            std::this_thread::sleep_for(betweenLooks);
        }
        return false;
    }

private:
    sqlite3_file* m_file = nullptr;
};

// Stops what the connection reads once a writer is there, as long as this lives. Where no thread
// can be had the database looks itself, between two of its steps.
class Watch {
public:
    Watch(SQLite::Database& database, const Writers& writers)
        : m_handle(database.getHandle()), m_writers(writers) {
        try {
            m_thread = std::thread([this] { run(); });
        } catch (const std::system_error&) {
            sqlite3_progress_handler(
                m_handle, stepsBetweenLooks,
                [](void* watch) { return static_cast<Watch*>(watch)->look() ? 1 : 0; }, this);
        }
    }
    ~Watch() { end(); }
    Watch(const Watch&) = delete;
    Watch& operator=(const Watch&) = delete;

    // Whether it stopped anything.
    bool end() {
        {
            const std::lock_guard lock(m_mutex);
            m_isOver = true;
        }
        m_over.notify_one();
        if (m_thread.joinable()) {
            m_thread.join();
        }
        sqlite3_progress_handler(m_handle, 0, nullptr, nullptr);
        return m_hasStopped;
    }

private:
    void run() {
        std::unique_lock lock(m_mutex);
        while (!m_over.wait_for(lock, betweenLooks, [this] { return m_isOver; })) {
            if (look()) {
                sqlite3_interrupt(m_handle);
            }
        }
    }
    // Whether what is read is to be stopped.
    bool look() {
        const bool areThere = m_writers.areThere();
        m_hasStopped = m_hasStopped || areThere;
        return areThere;
    }

    sqlite3* m_handle;
    const Writers& m_writers;
    std::mutex m_mutex;
    std::condition_variable m_over;
    bool m_isOver = false;
    bool m_hasStopped = false;
    std::thread m_thread;  // last: it uses the others
};

bool isStop(const SQLite::Exception& exception) {
    return (exception.getErrorCode() & 0xFF) == SQLITE_INTERRUPT;
}

// False if it was stopped: what it found then is worth nothing, even if it came to its end.
bool isReadUndisturbed(SQLite::Database& database, const Writers& writers,
                       const std::function<void()>& read) {
    Watch watch(database, writers);
    try {
        read();
    } catch (const SQLite::Exception& exception) {
        if (!isStop(exception)) {
            throw;
        }
        return false;
    }
    return !watch.end();
}

}  // namespace

void readInTurns(SQLite::Database& database, const std::function<void()>& read,
                 const TurnLimits& limits) {
    const bool writesItself = sqlite3_get_autocommit(database.getHandle()) == 0;
    if (writesItself || database.execAndGet("PRAGMA page_count").getInt64() < limits.pagesAtOnce) {
        read();
        return;
    }
    const Writers writers(database);
    for (int beginning = 0; beginning < limits.beginnings && writers.letGo(limits.looksAtWriter);
         ++beginning) {
        if (isReadUndisturbed(database, writers, read)) {
            return;
        }
    }
    throw SQLite::Exception("others go on writing", SQLITE_BUSY);
}

}  // namespace store
