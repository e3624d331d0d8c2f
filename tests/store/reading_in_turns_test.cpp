// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is read in one go lets those who write go first, and is read as a whole all the same.
#include "store/reading_in_turns.h"

#include "logbook_files.h"
#include "store/connection.h"
#include "support/no_threads.h"

#include <catch2/catch.hpp>
#include <chrono>
#include <functional>
#include <sqlite3.h>
#include <string_view>
#include <thread>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Catch::Matchers::Predicate;

namespace {

// It reads the file, and never ends.
constexpr const char* endless =
    "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n)"
    " SELECT (SELECT count(*) FROM records) + count(*) FROM n";

// Somebody else, who has begun to write and is done a moment later.
class Writer {
public:
    explicit Writer(const std::filesystem::path& path) : m_database(behindTheBack(path)) {
        m_database->exec("PRAGMA busy_timeout = 60000; BEGIN IMMEDIATE;"
                         "REPLACE INTO local_settings VALUES ('place', 'shelf')");
        m_thread = std::thread([this] {
            std::this_thread::sleep_for(std::chrono::milliseconds(100));
            m_database->exec("COMMIT");
        });
    }
    ~Writer() { m_thread.join(); }
    Writer(const Writer&) = delete;
    Writer& operator=(const Writer&) = delete;

private:
    std::unique_ptr<SQLite::Database> m_database;
    std::thread m_thread;
};

void make(const std::filesystem::path& path) {
    Logbook logbook = create(path);
    append(logbook, notes("icu-1", 3));
}

std::unique_ptr<Connection> connect(const std::filesystem::path& path, Access access) {
    auto connection = Connection::open(path, {access});
    REQUIRE(connection);
    return std::move(*connection);
}

// Called at each statement that begins.
void traceStatements(SQLite::Database& database, std::function<void(std::string_view)>& called) {
    sqlite3_trace_v2(
        database.getHandle(), SQLITE_TRACE_STMT,
        [](unsigned, void* function, void*, void* sql) {
            (*static_cast<std::function<void(std::string_view)>*>(function))(
                static_cast<const char*>(sql));
            return 0;
        },
        &called);
}

}  // namespace

TEST_CASE("What reads without end is stopped for a writer and begun again", "[unit][threads]") {
    const TemporaryFolder folder;
    make(folder / "log");
    const auto connection = connect(folder / "log", Access::Read);
    std::unique_ptr<Writer> writer;
    int begun = 0;
    readInTurns(
        connection->database(),
        [&] {
            if (++begun == 1) {
                writer = std::make_unique<Writer>(folder / "log");
                connection->database().execAndGet(endless);
            }
        },
        {.pagesAtOnce = 0});
    CHECK(begun == 2);
    writer.reset();
    CHECK(open(folder / "log").settings()->at("place") == "shelf");
}

TEST_CASE("Where no thread can be had what reads without end is stopped all the same", "[unit]") {
    const TemporaryFolder folder;
    make(folder / "log");
    const auto connection = connect(folder / "log", Access::Read);
    const auto writer = behindTheBack(folder / "log");
    const support::NoThreads none;
    int begun = 0;
    const auto read = [&] {
        if (++begun > 1) {
            return;
        }
        writer->exec("BEGIN IMMEDIATE");
        try {
            connection->database().execAndGet(endless);
        } catch (const SQLite::Exception&) {
            writer->exec("ROLLBACK");
            throw;
        }
    };
    readInTurns(connection->database(), read, {.pagesAtOnce = 0});
    CHECK(begun == 2);
    // Whoever writes later stops nothing any more.
    writer->exec("BEGIN IMMEDIATE");
    CHECK(connection->database().execAndGet("SELECT count(*) FROM records").getInt() == 3);
    CHECK(verifyAs(schemaVersion, *connection, {})->ok());
}

TEST_CASE("What is short, or within a write of one's own, is read once", "[unit][threads]") {
    const TemporaryFolder folder;
    make(folder / "log");
    int begun = 0;
    const auto read = [&] {
        ++begun;
        std::this_thread::sleep_for(std::chrono::milliseconds(50));
    };
    {
        const auto reading = connect(folder / "log", Access::Read);
        const Writer writer(folder / "log");
        readInTurns(reading->database(), read);
        CHECK(begun == 1);
    }
    const auto connection = connect(folder / "log", Access::Write);
    const WriteTransaction transaction(*connection, writing());
    readInTurns(connection->database(), read, {.pagesAtOnce = 0});
    CHECK(begun == 2);
    // And trouble is trouble.
    CHECK_THROWS_AS(readInTurns(connection->database(),
                                [] { throw SQLite::Exception("no", SQLITE_CORRUPT); },
                                {.pagesAtOnce = 0}),
                    SQLite::Exception);
}

TEST_CASE("Who never gets their turn says that others write", "[unit][threads]") {
    const TemporaryFolder folder;
    make(folder / "log");
    const auto connection = connect(folder / "log", Access::Read);
    const auto isBusy = [](const SQLite::Exception& exception) {
        return exception.getErrorCode() == SQLITE_BUSY;
    };
    std::unique_ptr<Writer> writer;
    int begun = 0;
    const auto disturbed = [&] {
        ++begun;
        writer.reset();
        writer = std::make_unique<Writer>(folder / "log");
        connection->database().execAndGet(endless);
    };
    CHECK_THROWS_MATCHES(
        readInTurns(connection->database(), disturbed, {.pagesAtOnce = 0, .beginnings = 3}),
        SQLite::Exception, Predicate<SQLite::Exception>(isBusy));
    CHECK(begun == 3);
    writer.reset();
    const auto holds = behindTheBack(folder / "log");
    holds->exec("BEGIN IMMEDIATE");
    CHECK_THROWS_MATCHES(
        readInTurns(connection->database(), disturbed, {.pagesAtOnce = 0, .looksAtWriter = 2}),
        SQLite::Exception, Predicate<SQLite::Exception>(isBusy));
    CHECK(begun == 3);
}

TEST_CASE("Verify keeps nobody waiting while it checks the pages of a large logbook",
          "[unit][threads]") {
    const TemporaryFolder folder;
    make(folder / "log");
    behindTheBack(folder / "log")
        ->exec("WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 12)"
               " INSERT INTO local_settings SELECT i, hex(zeroblob(1000000)) FROM n");
    const auto connection = connect(folder / "log", Access::Read);
    std::unique_ptr<Writer> writer;
    int begun = 0;
    std::function<void(std::string_view)> count = [&](std::string_view sql) {
        if (sql.starts_with("PRAGMA integrity_check") && ++begun == 1) {
            writer = std::make_unique<Writer>(folder / "log");
            // However fast the check is, the writer is there while it is made.
            std::this_thread::sleep_for(std::chrono::milliseconds(300));
        }
    };
    traceStatements(connection->database(), count);
    const auto report = verifyAs(schemaVersion, *connection, {});
    REQUIRE(report);
    CHECK(report->ok());
    CHECK(report->checked == 3);
    CHECK(begun == 2);
}
