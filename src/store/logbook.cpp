// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Opening and closing, and the short answers: what stands where in the file.
#include "store/logbook.h"

#include "logbook/text.h"
#include "store/connection.h"
#include "store/row_cursor.h"
#include "store/rows_round.h"

#include <algorithm>
#include <optional>
#include <string>
#include <system_error>
#include <utility>

namespace store {

namespace {

StationHeads headsBy(Database& database, const std::string& table) {
    RowCursor rows(database, "SELECT station, seq, hash, entered_ms, arrived_ms FROM " + table);
    StationHeads heads;
    while (rows.step()) {
        auto& station = heads[std::string(rows.text(0))];
        const auto seq = rows.number(1);
        station.entered = std::max(station.entered, logbook::Instant{rows.number(3)});
        if (seq > station.head.seq) {
            station.head = {seq, hashIn(rows, 2)};
            station.arrived = {rows.number(4)};
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

tl::expected<VerifyReport, Trouble> Logbook::verify(const Progress& progress) const {
    auto report = verifyAs(m_connection->schema(), *m_connection, progress);
    const auto own = report ? station() : tl::expected<std::optional<std::string>, Trouble>();
    if (own && *own && !logbook::isStationName(**own)) {
        report->integrity.emplace_back("the name of its station is none");
    }
    return report;
}

bool Logbook::metDamage() const {
    return m_connection->metDamage();
}

bool Logbook::metRefusal() const {
    return m_connection->metRefusal();
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

tl::expected<bool, Trouble> Logbook::holds(const Heads& heads) const {
    using Held = tl::expected<bool, Trouble>;
    const auto byHash = [&]() -> Held {
        RowCursor row(m_connection->database(),
                      "SELECT 1 FROM records WHERE station = :station AND seq = :seq"
                      " AND hash = :hash AND length(content) > 0");
        return std::ranges::all_of(heads, [&](const auto& each) {
            row.reset();
            row.bind(":station", each.first);
            row.bind(":seq", each.second.seq);
            row.bind(":hash", each.second.hash);
            return row.step();
        });
    };
    return m_connection->readingRound(byHash, []() -> Held { return false; });
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
