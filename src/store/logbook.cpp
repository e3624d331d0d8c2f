// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Opening and closing, and the short answers: what stands where in the file.
#include "store/logbook.h"

#include "store/connection.h"
#include "store/rows_round.h"

#include <algorithm>
#include <string>
#include <system_error>
#include <utility>

namespace store {

namespace {

StationHeads headsBy(SQLite::Database& database, const std::string& table) {
    SQLite::Statement statement(database,
                                "SELECT station, seq, hash, entered_ms, arrived_ms FROM " + table);
    StationHeads heads;
    while (statement.executeStep()) {
        auto& station = heads[statement.getColumn(0).getString()];
        const auto seq = statement.getColumn(1).getInt64();
        station.entered = std::max(station.entered,
                                   logbook::Instant{statement.getColumn(3).getInt64()});
        if (seq > station.head.seq) {
            station.head = {seq, hashOf(statement.getColumn(2))};
            station.arrived = {statement.getColumn(4).getInt64()};
        }
    }
    return heads;
}

}  // namespace

Logbook::Logbook(std::unique_ptr<Connection> connection) : m_connection(std::move(connection)) {}
Logbook::Logbook(Logbook&&) noexcept = default;
Logbook& Logbook::operator=(Logbook&&) noexcept = default;
Logbook::~Logbook() = default;

tl::expected<Logbook, Trouble> Logbook::open(const std::filesystem::path& path,
                                             const OpenOptions& options) {
    auto connection = Connection::open(path, options);
    if (!connection) {
        return tl::unexpected<Trouble>(connection.error());
    }
    return Logbook(std::move(*connection));
}

tl::expected<bool, Trouble> Logbook::removeEmpty(const std::filesystem::path& path,
                                                 const OpenOptions& options) {
    auto toWrite = options;
    toWrite.access = OpenOptions::Access::Write;
    const auto connection = Connection::open(path, toWrite);
    if (!connection) {
        return tl::unexpected<Trouble>(connection.error());
    }
    return (*connection)->guarded([&]() -> tl::expected<bool, Trouble> {
        const WriteTransaction transaction(**connection, {});
        for (const auto* table : {"records", "local_credentials", "local_badges", "local_imports",
                                  "local_settings"}) {
            const auto rows = "SELECT count(*) FROM (SELECT 1 FROM " + std::string(table) +
                              " LIMIT 1)";
            if ((*connection)->database().execAndGet(rows).getInt() > 0) {
                return false;
            }
        }
        std::error_code ignored;
        return std::filesystem::remove((*connection)->path(), ignored);
    });
}

const std::filesystem::path& Logbook::path() const {
    return m_connection->path();
}

OpenOptions::Access Logbook::access() const {
    return m_connection->access();
}

bool Logbook::metDamage() const {
    return m_connection->metDamage();
}

tl::expected<Row, Trouble> Logbook::findRecord(const logbook::RecordName& name) const {
    using Found = tl::expected<std::optional<Row>, Trouble>;
    auto& database = m_connection->database();
    auto row = m_connection->readingRound([&]() -> Found { return findRow(database, name); },
                                          [&]() -> Found { return findRowRound(database, name); });
    if (!row) {
        return tl::unexpected<Trouble>(row.error());
    }
    if (!*row) {
        Trouble trouble = m_connection->trouble(Trouble::Code::NoRecord);
        trouble.records.push_back(name);
        return tl::unexpected<Trouble>(trouble);
    }
    return **std::move(row);
}

tl::expected<StationHeads, Trouble> Logbook::heads() const {
    using Read = tl::expected<StationHeads, Trouble>;
    auto& database = m_connection->database();
    return m_connection->readingRound(
        [&]() -> Read { return headsBy(database, "local_heads"); },
        // As the records say, the last of each station.
        [&]() -> Read { return headsBy(database, "records NOT INDEXED"); });
}

tl::expected<std::int64_t, Trouble> Logbook::count() const {
    using Counted = tl::expected<std::int64_t, Trouble>;
    auto& database = m_connection->database();
    const auto by = [&database](const char* query) -> Counted {
        return database.execAndGet(query).getInt64();
    };
    return m_connection->readingRound(
        [&] { return by("SELECT count(*) FROM records"); },
        [&] { return by("SELECT count(*) FROM records NOT INDEXED"); });
}

tl::expected<std::int64_t, Trouble> Logbook::lastArrival() const {
    using Last = tl::expected<std::int64_t, Trouble>;
    auto& database = m_connection->database();
    return m_connection->readingRound(
        [&]() -> Last { return lastArrivalIn(database); },
        [&]() -> Last {
            return database
                .execAndGet("SELECT coalesce(max(arrival), 0)"
                            " FROM records INDEXED BY records_in_reading_order")
                .getInt64();
        });
}

}  // namespace store
