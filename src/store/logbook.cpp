// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Opening and closing, and the short answers: what stands where in the file.
#include "store/logbook.h"

#include "store/connection.h"

#include <string>
#include <system_error>
#include <utility>

namespace store {

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

tl::expected<Row, Trouble> Logbook::findRecord(const logbook::RecordName& name) const {
    return m_connection->guarded([&]() -> tl::expected<Row, Trouble> {
        auto row = findRow(m_connection->database(), name);
        if (!row) {
            Trouble trouble = m_connection->trouble(Trouble::Code::NoRecord);
            trouble.records.push_back(name);
            return tl::unexpected<Trouble>(trouble);
        }
        return *std::move(row);
    });
}

tl::expected<StationHeads, Trouble> Logbook::heads() const {
    return m_connection->guarded([&]() -> tl::expected<StationHeads, Trouble> {
        SQLite::Statement statement(
            m_connection->database(),
            "SELECT station, seq, hash, entered_ms, arrived_ms FROM local_heads");
        StationHeads heads;
        while (statement.executeStep()) {
            heads[statement.getColumn(0).getString()] = {
                {statement.getColumn(1).getInt64(), hashOf(statement.getColumn(2))},
                {statement.getColumn(3).getInt64()},
                {statement.getColumn(4).getInt64()}};
        }
        return heads;
    });
}

tl::expected<std::int64_t, Trouble> Logbook::count() const {
    return m_connection->guarded([&]() -> tl::expected<std::int64_t, Trouble> {
        return m_connection->database().execAndGet("SELECT count(*) FROM records").getInt64();
    });
}

tl::expected<std::int64_t, Trouble> Logbook::lastArrival() const {
    return m_connection->guarded([&]() -> tl::expected<std::int64_t, Trouble> {
        return lastArrivalIn(m_connection->database());
    });
}

}  // namespace store
