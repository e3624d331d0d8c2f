// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Snapshots as rows of the database, and what tells a whole one; see snapshot.h.
#include "store/snapshot_rows.h"

#include "logbook/json.h"

#include <string>
#include <utility>

namespace store {

namespace json = logbook::json;

namespace {

std::string textOf(const std::vector<logbook::RecordName>& names) {
    json::Array array;
    for (const auto& name : names) {
        array.push_back(toText(name));
    }
    return json::canonical(array);
}

std::optional<std::vector<logbook::RecordName>> namesFromText(const std::string& text) {
    const auto value = json::parse(text);
    if (!value || value->array() == nullptr) {
        return std::nullopt;
    }
    std::vector<logbook::RecordName> names;
    for (const auto& each : *value->array()) {
        auto name = each.string() != nullptr ? logbook::parseRecordName(*each.string())
                                             : std::nullopt;
        if (!name) {
            return std::nullopt;
        }
        names.push_back(*std::move(name));
    }
    return names;
}

}  // namespace

Hash hashOf(const Snapshot& snapshot) {
    const json::Array fields{std::to_string(snapshot.place.at.ms),
                             std::to_string(snapshot.place.entered.ms),
                             toText(snapshot.place.name),
                             std::to_string(snapshot.arrival),
                             toJson(snapshot.heads),
                             textOf(snapshot.strikes),
                             std::to_string(snapshot.engine),
                             toHex(snapshot.rulebooks),
                             toHex(sha256(snapshot.bytes))};
    return sha256(json::canonical(fields));
}

bool hasDerivedTables(SQLite::Database& database) {
    SQLite::Statement tables(database,
                             "SELECT count(*) FROM sqlite_schema WHERE type = 'table'"
                             " AND lower(name) IN ('derived_revision', 'derived_snapshots')");
    if (!tables.executeStep() || tables.getColumn(0).getInt() != 2) {
        return false;
    }
    SQLite::Statement revision(database, "SELECT revision FROM derived_revision");
    return revision.executeStep() && revision.getColumn(0).getInt() == derivedRevision;
}

Place placeOf(SQLite::Statement& statement, int first) {
    return {{statement.getColumn(first).getInt64()},
            {statement.getColumn(first + 1).getInt64()},
            {statement.getColumn(first + 2).getString(),
             statement.getColumn(first + 3).getInt64()}};
}

void bindPlace(SQLite::Statement& statement, int first, const Place& place) {
    statement.bind(first, place.at.ms);
    statement.bind(first + 1, place.entered.ms);
    statement.bind(first + 2, place.name.station);
    statement.bind(first + 3, place.name.seq);
}

std::optional<Snapshot> readSnapshot(SQLite::Database& database, std::int64_t number,
                                     const StateSeal& seal) {
    SQLite::Statement statement(database,
                                "SELECT at_ms, entered_ms, station, seq, arrival, heads, strikes,"
                                " engine, rulebooks, hash, bytes FROM derived_snapshots"
                                " WHERE number = ?");
    statement.bind(1, number);
    if (!statement.executeStep()) {
        return std::nullopt;
    }
    const auto noted = json::parse(statement.getColumn(5).getString());
    auto heads = noted ? headsFromJson(*noted) : std::nullopt;
    auto strikes = namesFromText(statement.getColumn(6).getString());
    if (!heads || !strikes) {
        return std::nullopt;
    }
    const auto bytes = statement.getColumn(10);
    Snapshot snapshot{placeOf(statement, 0),
                      statement.getColumn(4).getInt64(),
                      *std::move(heads),
                      *std::move(strikes),
                      statement.getColumn(7).getInt(),
                      hashOf(statement.getColumn(8)),
                      {}};
    snapshot.bytes.assign(static_cast<const char*>(bytes.getBlob()),
                          static_cast<std::size_t>(bytes.getBytes()));
    if (seal.over(hashOf(snapshot)) != hashOf(statement.getColumn(9))) {
        return std::nullopt;
    }
    return snapshot;
}

void insertSnapshot(SQLite::Database& database, const Snapshot& snapshot, const StateSeal& seal) {
    SQLite::Statement statement(
        database,
        "INSERT INTO derived_snapshots (at_ms, entered_ms, station, seq, arrival, heads, strikes,"
        " engine, rulebooks, made_by, hash, bytes) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    bindPlace(statement, 1, snapshot.place);
    statement.bind(5, snapshot.arrival);
    statement.bind(6, json::canonical(toJson(snapshot.heads)));
    statement.bind(7, textOf(snapshot.strikes));
    statement.bind(8, snapshot.engine);
    bindHash(statement, 9, snapshot.rulebooks);
    bindHash(statement, 10, seal.id());
    bindHash(statement, 11, seal.over(hashOf(snapshot)));
    statement.bind(12, snapshot.bytes.data(), static_cast<int>(snapshot.bytes.size()));
    statement.exec();
}

}  // namespace store
