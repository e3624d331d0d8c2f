// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Appending: what is new goes in under one lock, is read back and hashed anew, and only then
// committed; anything that does not fit refuses the whole.
#include "store/logbook.h"

#include "store/connection.h"
#include "store/row_cursor.h"

#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <utility>

namespace store {

namespace {

using logbook::Record;
using logbook::RecordName;
using Batch = std::vector<const Record*>;
using FirstRecords = std::map<std::string, RecordName>;  // by kind

constexpr std::size_t mostNamed = 100;

// A file of records has those of a station in their order, if not beside each other.
Batch sortedByName(std::span<const Record> records) {
    std::map<std::string_view, Batch> ofStations;
    for (const Record& record : records) {
        ofStations[record.name.station].push_back(&record);
    }
    const auto isEarlier = [](const Record* a, const Record* b) {
        return a->name.seq < b->name.seq;
    };
    Batch batch;
    batch.reserve(records.size());
    for (auto& [station, own] : ofStations) {
        if (!std::is_sorted(own.begin(), own.end(), isEarlier)) {
            std::stable_sort(own.begin(), own.end(), isEarlier);
        }
        batch.insert(batch.end(), own.begin(), own.end());
    }
    return batch;
}

class Appender {
public:
    Appender(const Connection& connection, logbook::Instant arrived)
        : m_connection(connection), m_database(connection.database()), m_arrived(arrived) {}

    tl::expected<AppendResult, Trouble> run(std::span<const Record> records);

private:
    void sift(const Batch& batch);
    void siftOne(const Record& record);
    [[nodiscard]] Head& tailOf(const std::string& station);
    [[nodiscard]] std::optional<Trouble> refusal() const;
    [[nodiscard]] FirstRecords firstRecords() const;
    [[nodiscard]] std::optional<Trouble> refuseNewFirst(const FirstRecords& before) const;
    void insertAll();
    [[nodiscard]] std::optional<Trouble> readBack() const;
    void noteHeads();
    [[nodiscard]] Trouble naming(Trouble::Code code, std::vector<RecordName> records) const;

    const Connection& m_connection;
    SQLite::Database& m_database;
    logbook::Instant m_arrived;
    std::map<std::string, Head> m_tails;   // of the stations in the batch, before it
    std::map<std::string, Head> m_ends;    // the same, after it
    std::map<std::string, Hash> m_begins;  // the hashes on which the new records build
    Batch m_new;
    std::vector<Hash> m_hashes;            // of the new records
    std::int64_t m_lastBefore = 0;         // the highest arrival before them
    std::vector<RecordName> m_forks, m_gaps, m_broken;
    std::int64_t m_skipped = 0;
};

Trouble Appender::naming(Trouble::Code code, std::vector<RecordName> records) const {
    Trouble trouble = m_connection.trouble(code);
    records.resize(std::min(records.size(), mostNamed));
    trouble.records = std::move(records);
    return trouble;
}

Head& Appender::tailOf(const std::string& station) {
    const auto known = m_tails.find(station);
    if (known != m_tails.end()) {
        return known->second;
    }
    const Head tail = lastRecordOf(m_database, station).value_or(Head{});
    SQLite::Statement statement(m_database,
                                "SELECT seq, hash FROM local_heads WHERE station = ?");
    statement.bind(1, station);
    Head noted;
    if (statement.executeStep()) {
        noted = {statement.getColumn(0).getInt64(), hashOf(statement.getColumn(1))};
    }
    if (!(noted == tail)) {
        // To go on here would give a name for the second time.
        m_broken.push_back({station, std::min(noted.seq, tail.seq) + 1});
    }
    m_ends[station] = tail;
    m_begins[station] = tail.hash;
    return m_tails[station] = tail;
}

void Appender::siftOne(const Record& record) {
    const Head& tail = tailOf(record.name.station);
    Head& end = m_ends[record.name.station];
    if (record.name.seq <= tail.seq) {
        const auto kept = findRow(m_database, record.name);
        if (!kept) {
            m_broken.push_back(record.name);
        } else if (kept->content != record.content) {
            m_forks.push_back(record.name);
        } else {
            ++m_skipped;
        }
    } else if (record.name.seq == end.seq + 1) {
        end = {record.name.seq, chainHash(end.hash, record.content)};
        m_new.push_back(&record);
        m_hashes.push_back(end.hash);
    } else {
        m_gaps.push_back({record.name.station, end.seq + 1});
        end.seq = record.name.seq;  // what follows without another gap is not named again
    }
}

void Appender::sift(const Batch& batch) {
    const Record* previous = nullptr;
    for (const Record* record : batch) {
        if (previous == nullptr || previous->name != record->name) {
            siftOne(*record);
        } else if (previous->content == record->content) {
            ++m_skipped;
        } else {
            m_forks.push_back(record->name);
        }
        previous = record;
    }
}

std::optional<Trouble> Appender::refusal() const {
    if (!m_broken.empty()) {
        return naming(Trouble::Code::ChainBroken, m_broken);
    }
    if (!m_forks.empty()) {
        return naming(Trouble::Code::Fork, m_forks);
    }
    if (!m_gaps.empty()) {
        return naming(Trouble::Code::Gap, m_gaps);
    }
    return std::nullopt;
}

FirstRecords Appender::firstRecords() const {
    FirstRecords first;
    for (const char* kind : {"adopt", "person"}) {
        SQLite::Statement statement(m_database,
                                    "SELECT station, seq FROM records WHERE " +
                                        std::string(thatFound) + " AND kind = '" + kind +
                                        "' ORDER BY at_ms, entered_ms, station, seq LIMIT 1");
        if (statement.executeStep()) {
            first[kind] = {statement.getColumn(0).getString(), statement.getColumn(1).getInt64()};
        }
    }
    return first;
}

std::optional<Trouble> Appender::refuseNewFirst(const FirstRecords& before) const {
    const FirstRecords after = firstRecords();
    for (const auto& [kind, record] : before) {
        const auto now = after.find(kind);
        if (now == after.end() || now->second != record) {
            return naming(Trouble::Code::FirstChanged,
                          {record, now == after.end() ? record : now->second});
        }
    }
    return std::nullopt;
}

void Appender::insertAll() {
    SQLite::Statement statement(m_database, "INSERT INTO records (" + std::string(rowColumns) +
                                                ") VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)");
    m_lastBefore = lastArrivalIn(m_database);
    std::string kind;
    for (std::size_t index = 0; index < m_new.size(); ++index) {
        const Record& record = *m_new[index];
        kind = logbook::kindName(record.kind());
        statement.bind(1, m_lastBefore + 1 + static_cast<std::int64_t>(index));
        statement.bindNoCopy(2, record.name.station);
        statement.bind(3, record.name.seq);
        statement.bind(4, record.at.ms);
        statement.bind(5, record.entered.ms);
        statement.bindNoCopy(6, record.device);
        statement.bindNoCopy(7, kind);
        statement.bindNoCopy(8, record.content);
        bindHash(statement, 9, m_hashes[index]);
        statement.bind(10, m_arrived.ms);
        statement.exec();
        statement.reset();
    }
}

std::optional<Trouble> Appender::readBack() const {
    RowCursor rows(m_database, "SELECT " + std::string(rowColumns) +
                                   " FROM records WHERE arrival > :arrival ORDER BY arrival");
    rows.bind(":arrival", m_lastBefore);
    std::map<std::string, Hash> hashes = m_begins;
    ReadRecord read;
    for (std::size_t index = 0; index < m_new.size(); ++index) {
        const Record& record = *m_new[index];
        const bool isThere = rows.step();
        if (isThere) {
            readInto(read, rows);
        }
        Hash& hash = hashes[record.name.station];
        hash = chainHash(hash, isThere ? read.record.content : std::string());
        if (!isThere || !read.whole || hashOf(rows) != hash ||
            read.record.content != record.content || read.place != placeOf(record)) {
            Trouble trouble = naming(Trouble::Code::Io, {record.name});
            trouble.text = "what was read back is not what was written";
            return trouble;
        }
    }
    return std::nullopt;
}

void Appender::noteHeads() {
    std::map<std::string, logbook::Instant> entered;
    for (const Record* record : m_new) {
        logbook::Instant& latest =
            entered.try_emplace(record->name.station, record->entered).first->second;
        latest = std::max(latest, record->entered);
    }
    SQLite::Statement statement(
        m_database,
        "INSERT INTO local_heads (station, seq, hash, entered_ms, arrived_ms)"
        " VALUES (?, ?, ?, ?, ?) ON CONFLICT (station) DO UPDATE SET seq = excluded.seq,"
        " hash = excluded.hash, entered_ms = max(entered_ms, excluded.entered_ms),"
        " arrived_ms = excluded.arrived_ms");
    for (const auto& [station, latest] : entered) {
        const Head& end = m_ends[station];
        statement.bind(1, station);
        statement.bind(2, end.seq);
        bindHash(statement, 3, end.hash);
        statement.bind(4, latest.ms);
        statement.bind(5, m_arrived.ms);
        statement.exec();
        statement.reset();
    }
}

tl::expected<AppendResult, Trouble> Appender::run(std::span<const Record> records) {
    sift(sortedByName(records));
    if (auto trouble = refusal()) {
        return tl::unexpected<Trouble>(*trouble);
    }
    const FirstRecords first = firstRecords();
    insertAll();
    if (auto trouble = readBack()) {
        return tl::unexpected<Trouble>(*trouble);
    }
    if (auto trouble = refuseNewFirst(first)) {
        return tl::unexpected<Trouble>(*trouble);
    }
    noteHeads();
    AppendResult result;
    result.added = static_cast<std::int64_t>(m_new.size());
    result.skipped = m_skipped;
    for (const Record* record : m_new) {
        result.addedRecords.push_back(record->name);
    }
    return result;
}

void noteImport(SQLite::Database& database, const Import& import) {
    SQLite::Statement statement(database,
                                "INSERT INTO local_imports (file, person, at_ms, added, skipped)"
                                " VALUES (?, ?, ?, ?, ?)");
    statement.bind(1, import.file);
    statement.bind(2, import.person);
    statement.bind(3, import.at.ms);
    statement.bind(4, import.added);
    statement.bind(5, import.skipped);
    statement.exec();
}

}  // namespace

tl::expected<AppendResult, Trouble> Logbook::append(std::span<const Record> records,
                                                    const Writing& writing) {
    return m_connection->writing(writing, [&] {
        return Appender(*m_connection, writing.at).run(records);
    });
}

tl::expected<AppendResult, Trouble> Logbook::importRecords(std::span<const Record> records,
                                                           std::string_view fileName,
                                                           const Writing& writing) {
    return m_connection->writing(writing, [&] {
        auto result = Appender(*m_connection, writing.at).run(records);
        if (result) {
            noteImport(m_connection->database(),
                       {std::string(fileName), writing.person, writing.at, result->added,
                        result->skipped});
        }
        return result;
    });
}

tl::expected<std::vector<RecordName>, Trouble> Logbook::appendOwn(const OwnRecords& build,
                                                                  const Writing& writing) {
    return m_connection->writing(
        writing, [&] { return appendOwnRecords(*m_connection, build, writing); });
}

tl::expected<std::vector<RecordName>, Trouble> appendOwnRecords(const Connection& connection,
                                                                const OwnRecords& build,
                                                                const Writing& writing) {
    const auto station = ownStation(connection.database());
    if (!station) {
        return tl::unexpected<Trouble>(connection.trouble(Trouble::Code::NoStation));
    }
    const Head tail = lastRecordOf(connection.database(), *station).value_or(Head{});
    const std::vector<Record> records = build({*station, tail.seq + 1});
    Trouble notOwn = connection.trouble(Trouble::Code::NotOwn);
    for (std::size_t i = 0; i < records.size(); ++i) {
        const RecordName wanted{*station, tail.seq + 1 + static_cast<std::int64_t>(i)};
        if (records[i].name != wanted && notOwn.records.size() < mostNamed) {
            notOwn.records.push_back(records[i].name);
        }
    }
    if (!notOwn.records.empty()) {
        return tl::unexpected<Trouble>(notOwn);
    }
    auto result = Appender(connection, writing.at).run(records);
    if (!result) {
        return tl::unexpected<Trouble>(result.error());
    }
    return result->addedRecords;
}

}  // namespace store
