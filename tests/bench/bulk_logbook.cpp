// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Rows and chains by the hundred thousand; see bulk_logbook.h.
#include "bench/bulk_logbook.h"

#include "store/logbook.h"

#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <tuple>

namespace bench {

namespace {

constexpr std::int64_t dayMs = 86'400'000;
constexpr const char* guard = "records_are_only_appended";

// An empty logbook of this version's own making, opened without its care for power cuts.
SQLite::Database openNew(const std::filesystem::path& path) {
    if (!store::Logbook::open(path, {.access = store::OpenOptions::Access::Create})) {
        std::cerr << path << " is there already, or cannot be made\n";
        std::exit(2);
    }
    SQLite::Database database(path.string(), SQLite::OPEN_READWRITE);
    database.exec("PRAGMA synchronous = OFF; PRAGMA cache_size = -2000000");
    SQLite::Statement(database, "PRAGMA journal_mode = OFF").executeStep();
    return database;
}

// The guard asks two questions a row, which are answered here beforehand.
std::string takeGuard(SQLite::Database& database) {
    SQLite::Statement statement(database, "SELECT sql FROM sqlite_schema WHERE name = ?");
    statement.bind(1, guard);
    statement.executeStep();
    std::string sql = statement.getColumn(0).getString();
    statement.reset();
    database.exec(std::string("DROP TRIGGER ") + guard);
    return sql;
}

}  // namespace

BulkLogbook::BulkLogbook(const std::filesystem::path& path)
    : m_database(openNew(path)), m_trigger(takeGuard(m_database)),
      m_insert(m_database, "INSERT INTO records VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)") {
    m_database.exec("BEGIN");
}

void BulkLogbook::add(const WrittenRecord& record) {
    if (m_arrivedMs == 0) m_arrivedMs = record.enteredMs + dayMs;
    if (record.enteredMs > m_arrivedMs) {
        writeDay();
        m_arrivedMs = record.enteredMs + dayMs;
    }
    m_day.push_back(record);
}

void BulkLogbook::writeDay() {
    std::sort(m_day.begin(), m_day.end(), [](const WrittenRecord& a, const WrittenRecord& b) {
        return std::tie(a.station, a.seq) < std::tie(b.station, b.seq);
    });
    for (const WrittenRecord& record : m_day) insert(record);
    m_day.clear();
}

void BulkLogbook::insert(const WrittenRecord& record) {
    Chain& chain = m_chains[record.station];
    chain.hash = store::chainHash(chain.hash, record.content);
    chain.seq = record.seq;
    chain.enteredMs = std::max(chain.enteredMs, record.enteredMs);
    m_insert.bind(1, ++m_arrival);
    m_insert.bindNoCopy(2, record.station);
    m_insert.bind(3, record.seq);
    m_insert.bind(4, record.atMs);
    m_insert.bind(5, record.enteredMs);
    m_insert.bindNoCopy(6, record.device);
    m_insert.bindNoCopy(7, record.kind);
    m_insert.bindNoCopy(8, record.content);
    m_insert.bindNoCopy(9, chain.hash.data(), static_cast<int>(chain.hash.size()));
    m_insert.bind(10, m_arrivedMs);
    m_insert.exec();
    m_insert.reset();
}

void BulkLogbook::noteHeads() {
    SQLite::Statement statement(m_database, "INSERT INTO local_heads VALUES (?, ?, ?, ?, ?)");
    for (const auto& [station, chain] : m_chains) {
        statement.bind(1, station);
        statement.bind(2, chain.seq);
        statement.bind(3, chain.hash.data(), static_cast<int>(chain.hash.size()));
        statement.bind(4, chain.enteredMs);
        statement.bind(5, m_arrivedMs);
        statement.exec();
        statement.reset();
    }
}

void BulkLogbook::finish() {
    writeDay();
    noteHeads();
    m_database.exec(m_trigger);
    m_database.exec("COMMIT");
}

}  // namespace bench
