// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Snapshots: which of those kept still holds for all that has come in since, and keeping others.
#include "store/logbook.h"

#include "store/lacking_seal.h"
#include "store/snapshot_rows.h"
#include "store/strikes_beyond.h"

#include <algorithm>
#include <limits>
#include <string>
#include <utility>

namespace store {

namespace {

using logbook::RecordName;

constexpr int mostOfOthers = 10;  // about what one user keeps

// Before every other.
const Place firstPlace{{std::numeric_limits<std::int64_t>::min()}, {}, {}};

struct Noted {
    std::int64_t number = 0;
    KeptSnapshot snapshot;
};

// How far back what comes in reaches: to its own place; a strike to what it strikes; who may strike
// to all that was struck since.
class Reach {
public:
    explicit Reach(Database& database)
        : m_database(database),
          m_strikesAfter(database,
                         "SELECT 1 FROM records WHERE kind = 'strike' AND " +
                             std::string(thatFound) +
                             " AND (at_ms, entered_ms, station, seq) > (?, ?, ?, ?) LIMIT 1") {}

    [[nodiscard]] Place of(const Place& place, const std::string& kind,
                           const std::string& strike) {
        if (kind == "strike") {
            const auto target = targetOf(strike);
            if (!target) {
                return firstPlace;
            }
            const auto struck = findPlace(m_database, *target);
            return struck ? std::min(place, *struck) : place;
        }
        if (kind == "adopt" || kind == "person") {
            bindPlace(m_strikesAfter, 1, place);
            const bool judges = m_strikesAfter.executeStep();
            m_strikesAfter.reset();
            return judges ? firstPlace : place;
        }
        return place;
    }

private:
    Database& m_database;
    SQLite::Statement m_strikesAfter;
};

// How far back reaches what arrived after `from` and not after `to`, gone through from the last on.
class Arrivals {
public:
    explicit Arrivals(Database& database)
        : m_reach(database),
          m_rows(database, "SELECT at_ms, entered_ms, station, seq, kind,"
                           " CASE kind WHEN 'strike' THEN content ELSE '' END, arrival"
                           " FROM records NOT INDEXED WHERE arrival > ? AND arrival <= ?"
                           " ORDER BY arrival DESC LIMIT ?") {}

    void look(std::int64_t from, std::int64_t to) {
        for (bool more = from < to; more;) {
            m_rows.bind(1, from);
            m_rows.bind(2, to);
            m_rows.bind(3, atOnce);
            int rows = 0;
            for (; m_rows.executeStep(); ++rows) {
                const Place each = m_reach.of(placeOf(m_rows, 0), m_rows.getColumn(4).getString(),
                                              m_rows.getColumn(5).getString());
                m_reached = m_reached ? std::min(*m_reached, each) : each;
                to = m_rows.getColumn(6).getInt64() - 1;
            }
            m_rows.reset();
            more = rows == atOnce;
        }
    }

    // By all that was looked at.
    [[nodiscard]] const std::optional<Place>& reached() const { return m_reached; }

private:
    static constexpr int atOnce = rowsPerTransaction / 2;  // each may be a strike, of another row

    Reach m_reach;
    SQLite::Statement m_rows;
    std::optional<Place> m_reached;
};

// Sets `isValid` of each: what came in after it is gone through once for all, a portion in one
// transaction.
void judge(Database& database, std::vector<Noted>& all) {
    std::sort(all.begin(), all.end(), [](const Noted& a, const Noted& b) {
        return a.snapshot.arrival > b.snapshot.arrival;
    });
    const std::int64_t last = lastArrivalIn(database);
    std::int64_t looked = last;  // from there on
    Arrivals arrivals(database);
    for (auto& [number, snapshot] : all) {
        arrivals.look(snapshot.arrival, looked);
        looked = std::min(looked, snapshot.arrival);
        const auto& reached = arrivals.reached();
        snapshot.isValid =
            snapshot.arrival <= last && (!reached || snapshot.place < *reached);
    }
}

// All that whoever has the seal kept, not judged; those of others are as good as not there.
std::vector<Noted> notedSnapshots(Database& database, const std::optional<StateSeal>& seal) {
    std::vector<Noted> all;
    if (!seal || !hasDerivedTables(database)) {
        return all;
    }
    SQLite::Statement statement(database,
                                "SELECT at_ms, entered_ms, station, seq, arrival, engine, number"
                                " FROM derived_snapshots WHERE made_by = ?");
    bindHash(statement, 1, seal->id());
    while (statement.executeStep()) {
        all.push_back({statement.getColumn(6).getInt64(),
                       {placeOf(statement, 0), statement.getColumn(4).getInt64(),
                        statement.getColumn(5).getInt(), false}});
    }
    return all;
}

// The same at one moment, within which nobody throws the tables away.
std::vector<Noted> notedAtOnce(Database& database) {
    const SQLite::Transaction moment(database);
    return notedSnapshots(database, StateSeal::own());
}

// Judges them too; the oldest place first.
void judgeInOrder(Database& database, std::vector<Noted>& all) {
    judge(database, all);
    std::sort(all.begin(), all.end(), [](const Noted& a, const Noted& b) {
        return a.snapshot.place < b.snapshot.place;
    });
}

Trouble lackOfSeal() {
    Trouble trouble{Trouble::Code::Io, folderOfOwnSeal().value_or("")};
    trouble.text = lackingSeal;
    return trouble;
}

// What of the derived tables cannot be read is as good as not there: the records tell all of it.
template <class Function>
auto orNothing(const Connection& connection, Function read) -> decltype(read()) {
    try {
        return read();
    } catch (const SQLite::Exception& exception) {
        const auto code = connection.trouble(exception).code;
        if (code != Trouble::Code::Damaged && code != Trouble::Code::Io) {
            throw;
        }
        return {};
    }
}

// The one of that number, if it still is the one that was noted.
std::optional<Snapshot> readNoted(Database& database, const Noted& noted, const StateSeal& seal) {
    auto snapshot = readSnapshot(database, noted.number, seal);
    const bool isSame = snapshot && snapshot->place == noted.snapshot.place &&
                        snapshot->arrival == noted.snapshot.arrival;
    return isSame ? std::move(snapshot) : std::nullopt;
}

// Whether the chains are still those on which it was made.
bool standsOn(Database& database, const Heads& heads) {
    SQLite::Statement statement(database, "SELECT hash FROM records WHERE station = ? AND seq = ?");
    return std::all_of(heads.begin(), heads.end(), [&](const auto& head) {
        statement.bind(1, head.first);
        statement.bind(2, head.second.seq);
        const bool stands =
            statement.executeStep() && hashOf(statement.getColumn(0)) == head.second.hash;
        statement.reset();
        return stands;
    });
}

void dropTables(Database& database) {
    std::vector<std::string> names;
    {
        SQLite::Statement statement(database,
                                    "SELECT name FROM sqlite_schema WHERE type = 'table'"
                                    " AND substr(lower(name), 1, 8) = 'derived_'");
        while (statement.executeStep()) {
            names.push_back(statement.getColumn(0).getString());
        }
    }
    for (const auto& name : names) {
        std::string quoted;
        for (const char each : name) {
            quoted += each == '"' ? std::string("\"\"") : std::string(1, each);
        }
        database.exec("DROP TABLE \"" + quoted + "\"");
    }
}

// Others who use the file find what they kept again; what nobody comes back for goes in time.
void dropOldOfOthers(Database& database, const StateSeal& seal) {
    SQLite::Statement statement(
        database, "DELETE FROM derived_snapshots WHERE made_by <> ?1 AND number NOT IN"
                  " (SELECT number FROM derived_snapshots WHERE made_by <> ?1"
                  " ORDER BY number DESC LIMIT " +
                      std::to_string(mostOfOthers) + ")");
    bindHash(statement, 1, seal.id());
    statement.exec();
}

void makeTables(Database& database) {
    dropTables(database);
    database.exec(derivedText);
    database.exec("INSERT INTO derived_revision (only_row, revision) VALUES (1, " +
                  std::to_string(derivedRevision) + ")");
}

}  // namespace

tl::expected<std::optional<Snapshot>, Trouble> Logbook::snapshotFor(
    const SnapshotQuestion& question) const {
    return m_connection->guarded([&]() -> tl::expected<std::optional<Snapshot>, Trouble> {
        Database& database = m_connection->database();
        const auto seal = StateSeal::own();
        auto kept = orNothing(*m_connection, [&] { return notedSnapshots(database, seal); });
        judgeInOrder(database, kept);
        std::reverse(kept.begin(), kept.end());
        for (const auto& noted : kept) {
            const auto& each = noted.snapshot;
            if (!each.isValid || each.engine != question.engine || each.place.at > question.at ||
                (question.before && !(each.place < *question.before))) {
                continue;
            }
            auto snapshot =
                orNothing(*m_connection, [&] { return readNoted(database, noted, *seal); });
            if (snapshot && standsOn(database, snapshot->heads)) {
                return snapshot;
            }
        }
        return std::optional<Snapshot>();
    });
}

tl::expected<std::vector<KeptSnapshot>, Trouble> Logbook::snapshotsKept() const {
    return m_connection->guarded([&]() -> tl::expected<std::vector<KeptSnapshot>, Trouble> {
        auto kept = notedAtOnce(m_connection->database());
        judgeInOrder(m_connection->database(), kept);
        std::vector<KeptSnapshot> all;
        for (const auto& noted : kept) {
            all.push_back(noted.snapshot);
        }
        return all;
    });
}

tl::expected<std::optional<Snapshot>, Trouble> Logbook::snapshotAt(const Place& place) const {
    return m_connection->guarded([&]() -> tl::expected<std::optional<Snapshot>, Trouble> {
        const auto seal = StateSeal::own();
        const SQLite::Transaction moment(m_connection->database());
        for (const auto& [number, each] : notedSnapshots(m_connection->database(), seal)) {
            if (each.place == place) {
                return readSnapshot(m_connection->database(), number, *seal);
            }
        }
        return std::optional<Snapshot>();
    });
}

tl::expected<std::vector<RecordName>, Trouble> Logbook::strikesBeyond(
    const Place& place, const Snapshot* earlier) const {
    return m_connection->guarded([&]() -> tl::expected<std::vector<RecordName>, Trouble> {
        StrikesBeyond strikes(m_connection->database(), place);
        if (earlier != nullptr) {
            strikes.lookAt(earlier->strikes);
        }
        strikes.lookAfter(earlier != nullptr ? earlier->place : firstPlace);
        return strikes.found();
    });
}

tl::expected<void, Trouble> Logbook::keepSnapshots(std::span<const Snapshot> snapshots,
                                                   std::span<const Place> staying,
                                                   const Writing& writing) {
    const auto seal = StateSeal::own();
    if (!seal) {
        return tl::unexpected(lackOfSeal());
    }
    return m_connection->writing(writing, [&]() -> tl::expected<void, Trouble> {
        if (auto trouble = refuseDamagedPages(*m_connection)) {
            return tl::unexpected<Trouble>(*std::move(trouble));
        }
        Database& database = m_connection->database();
        if (!hasDerivedTables(database)) {
            makeTables(database);
        }
        SQLite::Statement remove(database, "DELETE FROM derived_snapshots WHERE number = ?");
        const auto isMadeAnew = [&](const Place& place) {
            return std::ranges::find(snapshots, place, &Snapshot::place) != snapshots.end();
        };
        for (const auto& [number, each] : notedSnapshots(database, seal)) {
            if (std::find(staying.begin(), staying.end(), each.place) == staying.end() ||
                isMadeAnew(each.place)) {
                remove.bind(1, number);
                remove.exec();
                remove.reset();
            }
        }
        for (const auto& snapshot : snapshots) {
            insertSnapshot(database, snapshot, *seal);
        }
        dropOldOfOthers(database, *seal);
        return {};
    });
}

tl::expected<void, Trouble> Logbook::dropDerived(const Writing& writing) {
    return m_connection->writing(writing, [&]() -> tl::expected<void, Trouble> {
        if (auto trouble = refuseDamagedPages(*m_connection)) {
            return tl::unexpected<Trouble>(*std::move(trouble));
        }
        dropTables(m_connection->database());
        return {};
    });
}

tl::expected<std::int64_t, Trouble> Logbook::countAfter(const std::optional<Place>& place,
                                                        std::int64_t most) const {
    return m_connection->guarded([&]() -> tl::expected<std::int64_t, Trouble> {
        SQLite::Statement statement(m_connection->database(),
                                    "SELECT count(*) FROM (SELECT 1 FROM records WHERE"
                                    " (at_ms, entered_ms, station, seq) > (?, ?, ?, ?) LIMIT ?)");
        bindPlace(statement, 1, place.value_or(firstPlace));
        statement.bind(5, most);
        statement.executeStep();
        return statement.getColumn(0).getInt64();
    });
}

}  // namespace store
