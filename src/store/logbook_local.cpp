// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What belongs to this file alone: its station, settings, imports and notes of verify.
#include "store/logbook.h"

#include "logbook/json.h"
#include "logbook/text.h"
#include "store/connection.h"
#include "store/row_cursor.h"
#include "store/page_damage.h"
#include "store/schema_guard.h"
#include "store/second_name.h"

#include <algorithm>
#include <iterator>
#include <string>
#include <utility>

namespace store {

namespace json = logbook::json;

namespace {

json::Value toJson(const std::vector<Break>& breaks) {
    json::Array array;
    for (const Break& found : breaks) {
        array.push_back(json::Object{{"station", found.record.station},
                                     {"seq", static_cast<double>(found.record.seq)},
                                     {"reason", name(found.reason)},
                                     {"detail", found.detail}});
    }
    return array;
}

std::optional<Break> breakFromJson(const json::Value& value) {
    const json::Value* station = value.find("station");
    const json::Value* seq = value.find("seq");
    const json::Value* word = value.find("reason");
    const json::Value* detail = value.find("detail");
    if (station == nullptr || station->string() == nullptr || seq == nullptr ||
        word == nullptr || word->string() == nullptr ||
        detail == nullptr || detail->string() == nullptr) {
        return std::nullopt;
    }
    const auto reason = breakReasonOf(*word->string());
    const auto number = seqFromJson(*seq);
    if (!reason || !number) {
        return std::nullopt;
    }
    return Break{{*station->string(), *number},
                 *reason, *detail->string()};
}

std::vector<Break> breaksFromText(const std::string& text) {
    std::vector<Break> breaks;
    const auto value = json::parse(text);
    if (value && value->array() != nullptr) {
        for (const json::Value& element : *value->array()) {
            if (auto found = breakFromJson(element)) {
                breaks.push_back(*std::move(found));
            }
        }
    }
    return breaks;
}

// The one that is written now is the last in any case: a number after which there is none stands in
// no note's way.
void writeVerification(SQLite::Database& database, const VerifyReport& report,
                       logbook::Instant at) {
    database.exec("UPDATE local_verifications SET number = 0 WHERE number NOT BETWEEN 0 AND " +
                  std::to_string(logbook::largestSeq - 1));
    SQLite::Statement statement(
        database,
        "INSERT OR ABORT INTO local_verifications"
        " (ok, number, at_ms, checked, heads, breaks) VALUES"
        " (?, (SELECT 1 + coalesce(max(number), 0) FROM local_verifications), ?, ?, ?, ?)"
        " ON CONFLICT (ok) DO UPDATE SET number = excluded.number, at_ms = excluded.at_ms,"
        " checked = excluded.checked, heads = excluded.heads, breaks = excluded.breaks");
    statement.bind(1, report.ok() ? 1 : 0);
    statement.bind(2, at.ms);
    statement.bind(3, report.checked);
    statement.bind(4, json::canonical(store::toJson(report.heads)));
    statement.bind(5, json::canonical(toJson(report.breaks)));
    statement.exec();
}

// Bytes, so few that the note has room beside the other one on the first page of its table.
constexpr std::size_t mostInShort = 1'000;

// As many of the breaks as have room.
VerifyReport inShort(const VerifyReport& report) {
    VerifyReport brief;
    brief.checked = pagesDamaged;
    brief.integrity = report.integrity;
    for (const Break& found : report.breaks) {
        brief.breaks.push_back({found.record, found.reason});
        if (json::canonical(toJson(brief.breaks)).size() > mostInShort) {
            brief.breaks.pop_back();
            break;
        }
    }
    return brief;
}

bool names(const std::string& message, const std::string& number) {
    const auto isDigit = [&](std::size_t place) {
        return place < message.size() && message[place] >= '0' && message[place] <= '9';
    };
    for (auto at = message.find(number); at != std::string::npos;
         at = message.find(number, at + 1)) {
        if ((at == 0 || !isDigit(at - 1)) && !isDigit(at + number.size())) {
            return true;
        }
    }
    return false;
}

// Whether the first page of the notes is among those of which something was found, or may be.
bool mayBeHarmed(SQLite::Database& database, const VerifyReport& report) {
    const auto page = database
                          .execAndGet("SELECT rootpage FROM sqlite_schema"
                                      " WHERE name = 'local_verifications'")
                          .getString();
    return report.integrity.size() >= mostMessages ||
           std::ranges::any_of(report.integrity,
                               [&](const auto& message) { return names(message, page); });
}

// How many pages there are, and how many of them are free.
std::pair<std::int64_t, std::int64_t> pagesOf(SQLite::Database& database) {
    return {database.execAndGet("PRAGMA page_count").getInt64(),
            database.execAndGet("PRAGMA freelist_count").getInt64()};
}

// False, and to be rolled back, where that would take a page or give one back.
bool writeInShort(SQLite::Database& database, const VerifyReport& report, logbook::Instant at) {
    SQLite::Statement isLong(database, "SELECT 1 FROM local_verifications WHERE ok = 0"
                                       " AND length(heads) + length(breaks) > ?");
    isLong.bind(1, static_cast<std::int64_t>(mostInShort) + 2);
    if (isLong.executeStep() || mayBeHarmed(database, report)) {
        return false;
    }
    const auto before = pagesOf(database);
    writeVerification(database, inShort(report), at);
    return pagesOf(database) == before;
}

bool wasNotRead(const VerifyReport& report, const Break& noted) {
    const auto& station = noted.record.station;
    const auto found = std::ranges::find(report.breaks, station, [](const Break& each) {
        return each.record.station;
    });
    if (found == report.breaks.end()) {
        return !report.heads.contains(station);  // also what is noted of no station
    }
    return found->reason == Break::Reason::Unreadable && found->record.seq <= noted.record.seq;
}

// Of a verify in which the disk gave errors: what was read and does not fit, and what was noted
// before of what was not read now. That says nothing of what stands there, and what is told of the
// pages may come of it. False, and to be rolled back, where nothing was found in what was read, or
// where that would take a page or give one back.
bool writeProven(Database& database, const VerifyReport& report, logbook::Instant at) {
    VerifyReport proven;
    proven.heads = report.heads;
    std::ranges::copy_if(report.breaks, std::back_inserter(proven.breaks),
                         [](const Break& found) {
                             return found.reason != Break::Reason::Unreadable;
                         });
    if (proven.breaks.empty()) {
        return false;
    }
    const auto last = readVerification(database, "true");
    if (last && !last->ok) {
        std::ranges::copy_if(last->breaks, std::back_inserter(proven.breaks),
                             [&](const Break& noted) { return wasNotRead(report, noted); });
        std::ranges::sort(proven.breaks, {}, [](const Break& each) { return each.record; });
    }
    proven.checked = last && arePagesDamaged(*last) ? pagesDamaged : report.checked;
    const auto before = pagesOf(database);
    writeVerification(database, proven, at);
    return pagesOf(database) == before;
}

}  // namespace

// So is a schema that is not as it was made, and a file that has a second name.
std::optional<Trouble> refuseDamagedPages(const Connection& connection) {
    if (auto named = refuseSecondName(connection.path())) {
        return named;
    }
    if (auto foreign = refuseForeignSchema(connection)) {
        return foreign;
    }
    const auto last = readVerification(connection.database(), "true");
    if (!last || !arePagesDamaged(*last)) {
        return std::nullopt;
    }
    return connection.trouble(Trouble::Code::Damaged,
                              "verify found pages that are not whole");
}

std::optional<std::string> ownStation(Database& database) {
    RowCursor row(database, "SELECT name FROM local_station");
    if (!row.step()) {
        return std::nullopt;
    }
    return std::string(row.text(0));
}

tl::expected<void, Trouble> nameStation(const Connection& connection, const std::string& name,
                                        logbook::Instant since) {
    const auto refused = [&](Trouble::Code code, const std::string& station) {
        Trouble trouble = connection.trouble(code);
        trouble.station = station;
        return tl::unexpected<Trouble>(trouble);
    };
    if (!logbook::isStationName(name)) {
        return refused(Trouble::Code::BadStation, name);
    }
    Database& database = connection.database();
    if (const auto own = ownStation(database)) {
        if (!logbook::isStationName(*own)) {
            return tl::unexpected<Trouble>(connection.trouble(
                Trouble::Code::Damaged, "the name of its station is none"));
        }
        if (*own != name) {
            return refused(Trouble::Code::StationSet, *own);
        }
        return {};
    }
    SQLite::Statement noted(database, "SELECT 1 FROM local_heads WHERE station = ?");
    noted.bind(1, name);
    if (lastRecordOf(database, name) || noted.executeStep()) {
        return refused(Trouble::Code::StationTaken, name);
    }
    SQLite::Statement statement(
        database, "INSERT OR ABORT INTO local_station (only_row, name, since_ms) VALUES (1, ?, ?)");
    statement.bind(1, name);
    statement.bind(2, since.ms);
    statement.exec();
    return {};
}

std::optional<Verification> readVerification(Database& database, std::string_view condition) {
    RowCursor row(database,
                  "SELECT ok, at_ms, checked, heads, breaks FROM local_verifications WHERE " +
                      std::string(condition) + " ORDER BY number DESC LIMIT 1");
    if (!row.step()) {
        return std::nullopt;
    }
    Verification verification;
    verification.ok = row.number(0) == 1;
    verification.at = {row.number(1)};
    verification.checked = row.number(2);
    if (const auto heads = json::parse(row.text(3))) {
        verification.heads = headsFromJson(*heads).value_or(Heads{});
    }
    verification.breaks = breaksFromText(std::string(row.text(4)));
    return verification;
}

tl::expected<std::optional<std::string>, Trouble> Logbook::station() const {
    using Read = tl::expected<std::optional<std::string>, Trouble>;
    return m_connection->readingRound(
        [&]() -> Read { return ownStation(m_connection->database()); },
        []() -> Read { return std::nullopt; });
}

tl::expected<void, Trouble> Logbook::setStation(std::string_view name, const Writing& writing) {
    return m_connection->writing(writing, [&]() -> tl::expected<void, Trouble> {
        if (auto trouble = refuseDamagedPages(*m_connection)) {
            return tl::unexpected<Trouble>(*std::move(trouble));
        }
        return nameStation(*m_connection, std::string(name), writing.at);
    });
}

tl::expected<std::map<std::string, std::string>, Trouble> Logbook::settings() const {
    using Result = tl::expected<std::map<std::string, std::string>, Trouble>;
    const auto read = [&]() -> Result {
        RowCursor rows(m_connection->database(), "SELECT name, value FROM local_settings");
        std::map<std::string, std::string> settings;
        while (rows.step()) {
            settings[std::string(rows.text(0))] = rows.text(1);
        }
        return settings;
    };
    return m_connection->readingRound(read, []() -> Result { return Result::value_type(); });
}

tl::expected<void, Trouble> Logbook::setSetting(std::string_view key,
                                                const std::optional<std::string>& value,
                                                const Writing& writing) {
    return m_connection->writing(writing, [&]() -> tl::expected<void, Trouble> {
        if (auto trouble = refuseDamagedPages(*m_connection)) {
            return tl::unexpected<Trouble>(*std::move(trouble));
        }
        SQLite::Statement statement(
            m_connection->database(),
            value ? "INSERT OR ABORT INTO local_settings (name, value) VALUES (?, ?)"
                    " ON CONFLICT (name) DO UPDATE SET value = excluded.value"
                  : "DELETE FROM local_settings WHERE name = ?");
        statement.bind(1, std::string(key));
        if (value) {
            statement.bind(2, *value);
        }
        statement.exec();
        return {};
    });
}

tl::expected<std::int64_t, Trouble> Logbook::takeNumbers(std::string_view series,
                                                         std::int64_t count,
                                                         const Writing& writing) {
    return m_connection->writing(writing, [&]() -> tl::expected<std::int64_t, Trouble> {
        if (auto trouble = refuseDamagedPages(*m_connection)) {
            return tl::unexpected<Trouble>(*std::move(trouble));
        }
        SQLite::Statement statement(
            m_connection->database(),
            "INSERT OR ABORT INTO local_settings (name, value) VALUES (?1, ?2)"
            " ON CONFLICT (name) DO UPDATE SET value = CAST(value AS INTEGER) + ?2"
            " RETURNING CAST(value AS INTEGER)");
        statement.bind(1, "numbers." + std::string(series));
        statement.bind(2, count);
        statement.executeStep();
        return statement.getColumn(0).getInt64() - count + 1;
    });
}

tl::expected<std::vector<Import>, Trouble> Logbook::imports() const {
    return m_connection->guarded([&]() -> tl::expected<std::vector<Import>, Trouble> {
        SQLite::Statement statement(
            m_connection->database(),
            "SELECT file, person, at_ms, added, skipped FROM local_imports ORDER BY number");
        std::vector<Import> imports;
        while (statement.executeStep()) {
            imports.push_back({statement.getColumn(0).getString(),
                               statement.getColumn(1).getString(),
                               {statement.getColumn(2).getInt64()},
                               statement.getColumn(3).getInt64(),
                               statement.getColumn(4).getInt64()});
        }
        return imports;
    });
}

tl::expected<void, Trouble> Logbook::noteVerified(const VerifyReport& report,
                                                  const Writing& writing) {
    return m_connection->writing(writing, [&]() -> tl::expected<void, Trouble> {
        auto& database = m_connection->database();
        if (auto named = report.ok() ? refuseSecondName(m_connection->path()) : std::nullopt) {
            return tl::unexpected<Trouble>(*std::move(named));
        }
        if (report.diskFailed) {
            return writeProven(database, report, writing.at)
                       ? tl::expected<void, Trouble>()
                       : tl::unexpected<Trouble>(m_connection->trouble(
                             Trouble::Code::Io, "what the disk did not give is not known"));
        }
        if (report.integrity.empty()) {
            writeVerification(database, report, writing.at);
        } else if (!writeInShort(database, report, writing.at)) {
            return tl::unexpected<Trouble>(m_connection->trouble(
                Trouble::Code::Damaged, "there is no place for a note that is surely free"));
        }
        return {};
    });
}

tl::expected<std::optional<Verification>, Trouble> Logbook::lastVerification() const {
    using Read = tl::expected<std::optional<Verification>, Trouble>;
    return m_connection->readingRound(
        [&]() -> Read { return readVerification(m_connection->database(), "true"); },
        []() -> Read { return std::nullopt; });
}

}  // namespace store
