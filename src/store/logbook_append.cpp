// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Appending: what is new goes in under one lock, is read back and hashed anew, and only then
// committed; anything that does not fit refuses the whole.
#include "store/logbook.h"

#include "store/connection.h"
#include "store/row_cursor.h"
#include "store/row_writer.h"
#include "store/schema_guard.h"

#include <algorithm>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <utility>

namespace store {

namespace {

using logbook::Record;
using logbook::RecordName;
using Batch = std::vector<const LentRecord*>;
using FirstRecords = std::map<std::string, RecordName>;  // by kind

constexpr std::size_t mostNamed = 100;
constexpr std::int64_t highest = std::numeric_limits<std::int64_t>::max();

// In a stranger's file there may be none; then it is that number again, which is taken.
std::int64_t following(std::int64_t seq) {
    return seq == highest ? seq : seq + 1;
}

// A file of records has those of a station in their order, if not beside each other.
Batch sortedByName(std::span<const LentRecord> records) {
    std::map<std::string_view, Batch> ofStations;
    for (const LentRecord& record : records) {
        ofStations[record.station].push_back(&record);
    }
    const auto isEarlier = [](const LentRecord* a, const LentRecord* b) { return a->seq < b->seq; };
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

// What a station's new records build on, and what they come to.
struct Chain {
    Head tail;  // before the batch
    Head end;   // after it
    std::optional<logbook::Instant> entered;  // the latest of the new records
};

// No record has a number behind the largest.
std::int64_t afterOf(std::int64_t seq) {
    return std::min(std::max<std::int64_t>(seq, 0), logbook::largestSeq - 1) + 1;
}

bool isSame(const Record& read, const LentRecord& written) {
    return read.content == written.content && read.name.seq == written.seq &&
           read.name.station == written.station && read.at == written.at &&
           read.entered == written.entered && read.device == written.device &&
           read.kind() == written.kind;
}

class Appender {
public:
    Appender(const Connection& connection, logbook::Instant arrived)
        : m_connection(connection), m_database(connection.database()), m_arrived(arrived) {}

    tl::expected<ImportResult, Trouble> run(std::span<const LentRecord> records);

    // After that: of the new records, by station and seq.
    [[nodiscard]] std::vector<RecordName> names() const;

private:
    void sift(const Batch& batch);
    void siftOne(const LentRecord& record, Chain& chain);
    [[nodiscard]] Chain chainOf(const std::string& station);
    [[nodiscard]] std::optional<Trouble> refusal() const;
    // Whether what is new may come before the first of its kind.
    [[nodiscard]] bool bringsFirst() const;
    [[nodiscard]] FirstRecords firstRecords() const;
    [[nodiscard]] std::optional<Trouble> refuseNewFirst(const FirstRecords& before) const;
    [[nodiscard]] std::optional<Trouble> insertAll();
    [[nodiscard]] std::optional<Trouble> readBack() const;
    void noteHeads();
    // Nobody knows what a schema that is not as it was made does to rows that were there. `before`:
    // how many rows this connection had changed.
    [[nodiscard]] std::optional<Trouble> refuseOtherChanges(std::int64_t before) const;
    [[nodiscard]] Trouble naming(Trouble::Code code, std::vector<RecordName> records) const;

    const Connection& m_connection;
    Database& m_database;
    logbook::Instant m_arrived;
    std::map<std::string, Chain, std::less<>> m_chains;  // of the stations in the batch
    Batch m_new;
    std::vector<Hash> m_hashes;     // of the new records
    std::int64_t m_lastBefore = 0;  // the highest arrival before them
    std::vector<RecordName> m_forks, m_gaps, m_broken;
    std::int64_t m_skipped = 0;
};

Trouble Appender::naming(Trouble::Code code, std::vector<RecordName> records) const {
    Trouble trouble = m_connection.trouble(code);
    records.resize(std::min(records.size(), mostNamed));
    trouble.records = std::move(records);
    return trouble;
}

Chain Appender::chainOf(const std::string& station) {
    const Head tail = lastRecordOf(m_database, station).value_or(Head{});
    RowCursor row(m_database, "SELECT seq, hash FROM local_heads WHERE station = :station");
    row.bind(":station", station);
    Head noted;
    if (row.step()) {
        noted = {row.number(0), hashIn(row, 1)};
    }
    if (!(noted == tail)) {
        // To go on here would give a name for the second time.
        m_broken.push_back({station, afterOf(std::min(noted.seq, tail.seq))});
    }
    return {tail, tail, std::nullopt};
}

void Appender::siftOne(const LentRecord& record, Chain& chain) {
    Head& end = chain.end;
    if (record.seq <= chain.tail.seq) {
        const auto kept = findRow(m_database, nameOf(record));
        if (!kept) {
            m_broken.push_back(nameOf(record));
        } else if (kept->content != record.content) {
            m_forks.push_back(nameOf(record));
        } else {
            ++m_skipped;
        }
    } else if (record.seq == following(end.seq)) {
        end = {record.seq, chainHash(end.hash, record.content)};
        chain.entered = std::max(chain.entered.value_or(record.entered), record.entered);
        m_new.push_back(&record);
        m_hashes.push_back(end.hash);
    } else {
        m_gaps.push_back({std::string(record.station), following(end.seq)});
        end.seq = record.seq;  // what follows without another gap is not named again
    }
}

void Appender::sift(const Batch& batch) {
    const LentRecord* previous = nullptr;
    Chain* chain = nullptr;
    for (const LentRecord* record : batch) {
        if (previous == nullptr || previous->station != record->station) {
            const std::string station(record->station);
            chain = &m_chains.emplace(station, chainOf(station)).first->second;
            siftOne(*record, *chain);
        } else if (previous->seq != record->seq) {
            siftOne(*record, *chain);
        } else if (previous->content == record->content) {
            ++m_skipped;
        } else {
            m_forks.push_back(nameOf(*record));
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

bool Appender::bringsFirst() const {
    return std::ranges::any_of(m_new, [](const LentRecord* record) {
        return record->kind == logbook::Kind::Adopt || record->kind == logbook::Kind::Person;
    });
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
    if (before.empty()) {
        return std::nullopt;
    }
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

std::optional<Trouble> Appender::insertAll() {
    RowWriter rows(m_database);
    m_lastBefore = lastArrivalIn(m_database);
    if (m_lastBefore > highest - static_cast<std::int64_t>(m_new.size())) {
        return m_connection.trouble(Trouble::Code::Damaged,
                                    "no number is left for another record to arrive under");
    }
    std::int64_t arrival = m_lastBefore;
    for (std::size_t index = 0; index < m_new.size(); ++index) {
        rows.insert(*m_new[index], {++arrival, m_hashes[index], m_arrived});
    }
    return std::nullopt;
}

std::optional<Trouble> Appender::readBack() const {
    RowCursor rows(m_database, "SELECT " + std::string(rowColumns) +
                                   " FROM records WHERE arrival > :arrival ORDER BY arrival");
    rows.bind(":arrival", m_lastBefore);
    ReadRecord read;
    std::string_view station;
    Hash hash{};
    for (const LentRecord* record : m_new) {
        const bool isThere = rows.step();
        if (isThere) {
            readInto(read, rows);
        }
        if (record->station != station) {
            station = record->station;
            hash = m_chains.find(station)->second.tail.hash;
        }
        hash = chainHash(hash, isThere ? std::string_view(read.record.content) : "");
        if (!isThere || !read.whole || hashOf(rows) != hash || !isSame(read.record, *record)) {
            Trouble trouble = naming(Trouble::Code::Io, {nameOf(*record)});
            trouble.text = "what was read back is not what was written";
            return trouble;
        }
    }
    return std::nullopt;
}

void Appender::noteHeads() {
    for (const auto& [station, chain] : m_chains) {
        if (chain.entered) {
            noteHead(m_database, station, chain.end, {*chain.entered, m_arrived});
        }
    }
}

std::optional<Trouble> Appender::refuseOtherChanges(std::int64_t before) const {
    auto foreign = refuseForeignSchema(m_connection);
    std::int64_t wanted = before + static_cast<std::int64_t>(m_new.size());
    bool isAsBefore = true;
    for (const auto& [station, chain] : m_chains) {
        wanted += chain.entered ? 1 : 0;
        if (foreign && chain.tail.seq > 0) {
            const auto row = findRow(m_database, {station, chain.tail.seq});
            isAsBefore = isAsBefore && row && row->hash == chain.tail.hash;
        }
    }
    if (isAsBefore && m_database.getTotalChanges() == wanted) {
        return std::nullopt;
    }
    return foreign ? foreign
                   : m_connection.trouble(Trouble::Code::Damaged, "it changed other rows");
}

tl::expected<ImportResult, Trouble> Appender::run(std::span<const LentRecord> records) {
    sift(sortedByName(records));
    if (auto trouble = refusal()) {
        return tl::unexpected<Trouble>(*trouble);
    }
    const FirstRecords first = bringsFirst() ? firstRecords() : FirstRecords{};
    const auto before = m_database.getTotalChanges();
    auto trouble = insertAll();
    if (!trouble) {
        noteHeads();
        trouble = readBack();
    }
    if (!trouble) {
        trouble = refuseNewFirst(first);
    }
    if (!trouble) {
        trouble = refuseOtherChanges(before);
    }
    if (trouble) {
        return tl::unexpected<Trouble>(*std::move(trouble));
    }
    return ImportResult{static_cast<std::int64_t>(m_new.size()), m_skipped};
}

std::vector<RecordName> Appender::names() const {
    std::vector<RecordName> names;
    names.reserve(m_new.size());
    for (const LentRecord* record : m_new) {
        names.push_back(nameOf(*record));
    }
    return names;
}

tl::expected<AppendResult, Trouble> appendAll(const Connection& connection,
                                              std::span<const Record> records,
                                              logbook::Instant arrived) {
    std::vector<LentRecord> lent;
    lent.reserve(records.size());
    for (const Record& record : records) {
        lent.push_back(lend(record));
    }
    Appender appender(connection, arrived);
    return appender.run(lent).map(
        [&](const ImportResult& result) { return AppendResult{result, appender.names()}; });
}

}  // namespace

tl::expected<AppendResult, Trouble> Logbook::append(std::span<const Record> records,
                                                    const Writing& writing) {
    return m_connection->writing(
        writing, [&] { return appendAll(*m_connection, records, writing.at); });
}

tl::expected<ImportResult, Trouble> Logbook::importRecords(std::span<const LentRecord> records,
                                                           std::string_view fileName,
                                                           const Writing& writing,
                                                           std::optional<std::int64_t> asRead) {
    using Result = tl::expected<ImportResult, Trouble>;
    return m_connection->writing(writing, [&]() -> Result {
        if (auto trouble = refuseDamagedPages(*m_connection)) {
            return tl::unexpected<Trouble>(*std::move(trouble));
        }
        if (asRead && lastArrivalIn(m_connection->database()) != *asRead) {
            return tl::unexpected<Trouble>(m_connection->trouble(Trouble::Code::LogMoved));
        }
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
    if (tail.seq >= logbook::largestSeq) {
        Trouble broken = connection.trouble(Trouble::Code::ChainBroken);
        broken.records.push_back({*station, tail.seq});
        return tl::unexpected<Trouble>(broken);
    }
    RecordName wanted{*station, following(tail.seq)};
    const std::vector<Record> records = build(wanted);
    Trouble notOwn = connection.trouble(Trouble::Code::NotOwn);
    for (const Record& record : records) {
        if (record.name != wanted && notOwn.records.size() < mostNamed) {
            notOwn.records.push_back(record.name);
        }
        wanted.seq = following(wanted.seq);
    }
    if (!notOwn.records.empty()) {
        return tl::unexpected<Trouble>(notOwn);
    }
    return appendAll(connection, records, writing.at)
        .map([](AppendResult&& result) { return std::move(result.addedRecords); });
}

}  // namespace store
