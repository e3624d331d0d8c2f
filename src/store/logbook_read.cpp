// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Reading in order, in portions: between two of them the lock is free for writers.
#include "store/logbook.h"

#include "store/connection.h"
#include "store/founding_seals.h"
#include "store/row_cursor.h"
#include "store/rows_round.h"

#include <algorithm>
#include <limits>
#include <sqlite3.h>
#include <string>
#include <utility>

namespace store {

namespace {

std::string conditionOn(Selection::Kinds kinds) {
    switch (kinds) {
        case Selection::Kinds::All: return "";
        case Selection::Kinds::Founding:
            return " AND " + std::string(thatFound) + " AND kind IN ('adopt', 'person')";
        case Selection::Kinds::Strikes: break;
    }
    return " AND " + std::string(thatFound) + " AND kind = 'strike'";
}

std::string endOfQuery(const Selection& selection) {
    std::string query = selection.arrivedAfter > 0 ? " WHERE arrival > :arrival" : " WHERE true";
    if (selection.arrivedUpTo) {
        query += " AND +arrival <= :lastArrival";  // the sign: no index is to be chosen for it
    }
    if (selection.device) {
        query += " AND device = :device";
    }
    query += conditionOn(selection.kinds);
    if (selection.after) {
        query += " AND (at_ms, entered_ms, station, seq) > (:at, :entered, :station, :seq)";
    }
    return query + " ORDER BY at_ms, entered_ms, station, seq LIMIT :limit";
}

// By the index in reading order, or a device's, unless few have arrived since: then by arrival.
std::string queryFor(const Selection& selection, std::string_view columns) {
    return "SELECT " + std::string(columns) + " FROM records" +
           (selection.arrivedAfter > 0 ? " NOT INDEXED" : "") + endOfQuery(selection);
}

// Gives the parameters of queryFor their values.
template <class Statement>
void bindTo(Statement& statement, const Selection& selection, std::size_t most) {
    statement.bind(":limit", static_cast<std::int64_t>(most));
    if (selection.arrivedAfter > 0) {
        statement.bind(":arrival", selection.arrivedAfter);
    }
    if (selection.arrivedUpTo) {
        statement.bind(":lastArrival", *selection.arrivedUpTo);
    }
    if (selection.device) {
        statement.bind(":device", *selection.device);
    }
    if (selection.after) {
        statement.bind(":at", selection.after->at.ms);
        statement.bind(":entered", selection.after->entered.ms);
        statement.bind(":station", selection.after->name.station);
        statement.bind(":seq", selection.after->name.seq);
    }
}

// Who reads on begins behind the last of a whole portion. In a stranger's file what a place is told
// by need be no number, and be sorted behind all of them: then one would begin at the same again.
void requireFurther(const Selection& selection, const Place& last) {
    if (selection.after && !(*selection.after < last)) {
        throw SQLite::Exception("a record is not where it is said to be", SQLITE_CORRUPT);
    }
}

Portion readPortion(SQLite::Database& database, const Selection& selection) {
    SQLite::Statement statement(database, queryFor(selection, rowColumns));
    bindTo(statement, selection, rowsPerTransaction);
    auto portion = portionOf(std::move(statement));
    if (portion.isCut) {
        requireFurther(selection, portion.rows.back().place);
    }
    return portion;
}

// The same, and each row by itself: found in the table, or where that is damaged in an index, which
// holds all that tells a row's place.
Portion readPortionRound(SQLite::Database& database, const Selection& selection,
                         std::size_t most, std::size_t mostBytes) {
    const auto* index = selection.kinds != Selection::Kinds::All ? "records_that_found"
                        : selection.device                       ? "records_by_device"
                                                                 : "records_in_reading_order";
    const auto find = [&](const std::string& records) {
        SQLite::Statement statement(database, "SELECT " + std::string(placeColumns) + " FROM " +
                                                  records + endOfQuery(selection));
        bindTo(statement, selection, most);
        return statement;
    };
    auto portion = rowsRound(database, index, find, mostBytes);
    portion.isCut = portion.isCut || (portion.rows.size() == most && most > 0);
    if (portion.isCut) {
        requireFurther(selection, portion.rows.back().place);
    }
    return portion;
}

// Where the look-up of the seal is damaged the record says what it says: of a file that is read
// round damage no answer is sure in any case.
bool fitsSealRound(Database& database, const logbook::RecordName& name) {
    try {
        return fitsSeal(database, name);
    } catch (const SQLite::Exception& exception) {
        if (!isDamage(exception)) {
            throw;
        }
        return true;
    }
}

// Those that came in after the one and up to the other, each by itself.
std::vector<Row> readArrivedRound(SQLite::Database& database, std::int64_t after,
                                  std::int64_t upTo) {
    const auto find = [&](const std::string& records) {
        SQLite::Statement statement(database, "SELECT " + std::string(placeColumns) + " FROM " +
                                                  records + " WHERE arrival > ? AND arrival <= ?"
                                                            " ORDER BY arrival");
        statement.bind(1, after);
        statement.bind(2, upTo);
        return statement;
    };
    return rowsRound(database, "records_in_reading_order", find).rows;
}

// The first that came in after the one and up to the other: the file of a stranger may have gaps as
// wide as numbers go, which nobody is to walk through.
tl::expected<std::optional<std::int64_t>, Trouble> nextArrival(const Connection& connection,
                                                               std::int64_t after,
                                                               std::int64_t upTo) {
    using Next = std::optional<std::int64_t>;
    if (after == upTo) {
        return Next();
    }
    const auto by = [&](const std::string& records) -> tl::expected<Next, Trouble> {
        SQLite::Statement statement(connection.database(),
                                    "SELECT min(arrival) FROM " + records +
                                        " WHERE arrival > ? AND arrival <= ?");
        statement.bind(1, after);
        statement.bind(2, upTo);
        statement.executeStep();
        const auto next = statement.getColumn(0);
        return next.isNull() ? Next() : Next(next.getInt64());
    };
    return connection.readingRound(
        [&] { return by("records NOT INDEXED"); },
        [&] { return by("records INDEXED BY records_in_reading_order"); });
}

}  // namespace

tl::expected<void, Trouble> Logbook::forEachRow(const Selection& selection,
                                                const RowReader& reader) const {
    Selection rest = selection;
    for (;;) {
        using Read = tl::expected<Portion, Trouble>;
        auto& database = m_connection->database();
        const auto read = m_connection->readingRound(
            [&]() -> Read { return readPortion(database, rest); },
            [&]() -> Read {
                return readPortionRound(database, rest, rowsPerTransaction, bytesPerTransaction);
            });
        if (!read) {
            return tl::unexpected<Trouble>(read.error());
        }
        for (const Row& row : read->rows) {
            if (!reader(row)) {
                return {};
            }
        }
        if (!read->isCut) {
            return {};
        }
        rest.after = read->rows.back().place;
    }
}

tl::expected<std::size_t, Trouble> Logbook::readRecords(const Selection& selection,
                                                        std::span<ReadRecord> into) const {
    using Count = tl::expected<std::size_t, Trouble>;
    const auto read = [&]() -> Count {
        // Where all is read on and on, the little that came in later is left out here: that costs
        // each row less than a condition of the query.
        const bool isOnAndOn =
            selection.arrivedAfter == 0 && selection.kinds == Selection::Kinds::All;
        Selection asked = selection;
        if (isOnAndOn) {
            asked.arrivedUpTo.reset();
        }
        const auto last = selection.arrivedUpTo.value_or(std::numeric_limits<std::int64_t>::max());
        const Place* latest = nullptr;
        std::size_t count = 0;
        for (bool isMore = count < into.size(); isMore;) {
            const auto most = std::max<std::size_t>(into.size(), rowsPerTransaction);
            RowCursor rows(m_connection->database(),
                           queryFor(asked, selection.withHash ? rowColumns : readColumns));
            bindTo(rows, asked, isOnAndOn ? most : into.size());
            std::size_t steps = 0;
            for (; count < into.size() && rows.step(); ++steps) {
                readInto(into[count], rows, selection.withContent);
                if (selection.withHash) {
                    into[count].hash = hashOf(rows);
                }
                latest = &into[count].place;
                count += into[count].arrival <= last ? 1 : 0;
            }
            // So much has come in later that others are given their turn.
            isMore = isOnAndOn && count < into.size() && steps == most;
            if (isMore || (count == into.size() && latest != nullptr)) {
                requireFurther(asked, *latest);
            }
            if (isMore) {
                asked.after = *latest;
            }
        }
        holdFoundingAgainstSeals(m_connection->database(), into.first(count));
        return count;
    };
    return m_connection->readingRound(read, [&]() -> Count {
        const auto rows = readPortionRound(m_connection->database(), selection, into.size(),
                                           std::numeric_limits<std::size_t>::max())
                              .rows;
        for (std::size_t index = 0; index < rows.size(); ++index) {
            auto record = recordOf(rows[index]);
            const bool fits = record && (!isFounding(record->kind()) ||
                                         fitsSealRound(m_connection->database(), record->name));
            into[index] = {rows[index].place, rows[index].arrival, fits,
                           std::move(record).value_or(logbook::Record{}), rows[index].hash};
        }
        return rows.size();
    });
}

tl::expected<void, Trouble> Logbook::forEachContent(
    const std::vector<std::string>& kinds, const ContentReader& reader,
    const std::optional<std::int64_t>& arrivedUpTo) const {
    const auto last = arrivedUpTo ? tl::expected<std::int64_t, Trouble>(*arrivedUpTo)
                                  : lastArrival();
    if (!last) {
        return tl::unexpected<Trouble>(last.error());
    }
    std::string query = "SELECT device, content, arrival FROM records"
                        " WHERE arrival > :after AND arrival <= :last AND kind IN (";
    for (std::size_t index = 0; index < kinds.size(); ++index) {
        query += (index == 0 ? ":kind" : ", :kind") + std::to_string(index);
    }
    query += ") ORDER BY arrival";
    auto& database = m_connection->database();
    for (std::int64_t from = 0; from < *last;) {
        const auto to = *last - from > rowsPerTransaction ? from + rowsPerTransaction : *last;
        std::int64_t after = from;
        using Read = tl::expected<void, Trouble>;
        const auto read = [&]() -> Read {
            RowCursor rows(database, query);
            rows.bind(":after", after);
            rows.bind(":last", to);
            for (std::size_t index = 0; index < kinds.size(); ++index) {
                rows.bind((":kind" + std::to_string(index)).c_str(), kinds[index]);
            }
            while (rows.step()) {
                after = rows.number(2);
                reader(rows.text(0), rows.text(1));
            }
            return {};
        };
        auto done = m_connection->readingRound(read, [&]() -> Read {
            for (const Row& row : readArrivedRound(database, after, to)) {
                if (std::ranges::find(kinds, row.kind) != kinds.end() && !row.content.empty()) {
                    reader(row.device, row.content);
                }
            }
            return {};
        });
        if (!done) {
            return done;
        }
        const auto next = nextArrival(*m_connection, to, *last);
        if (!next) {
            return tl::unexpected<Trouble>(next.error());
        }
        from = *next ? **next - 1 : *last;
    }
    return {};
}

tl::expected<std::optional<logbook::Instant>, Trouble> Logbook::latestEntered(
    logbook::Instant last) const {
    using Latest = std::optional<logbook::Instant>;
    const auto by = [&](const std::string& records) -> tl::expected<Latest, Trouble> {
        SQLite::Statement statement(m_connection->database(),
                                    "SELECT max(entered_ms) FROM " + records +
                                        " WHERE at_ms <= :last AND entered_ms <= :last");
        statement.bind(":last", last.ms);
        statement.executeStep();
        const auto latest = statement.getColumn(0);
        return latest.isNull() ? Latest() : Latest(logbook::Instant{latest.getInt64()});
    };
    return m_connection->readingRound([&] { return by("records"); },
                                      [&] { return by("records NOT INDEXED"); });
}

tl::expected<Records, Trouble> Logbook::records(const Selection& selection) const {
    Records result;
    const auto done = forEachRow(selection, [&](const Row& row) {
        result.lastArrival = std::max(result.lastArrival, row.arrival);
        if (auto record = recordOf(row)) {
            result.records.push_back(*std::move(record));
        } else {
            result.inDoubt.push_back(row.place.name);
        }
        return true;
    });
    if (!done) {
        return tl::unexpected<Trouble>(done.error());
    }
    return result;
}

}  // namespace store
