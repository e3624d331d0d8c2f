// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Verify: reads the whole file and believes none of it.
#include "store/logbook.h"

#include "logbook/record_reader.h"
#include "store/connection.h"
#include "store/disk_refusal.h"
#include "store/header_check.h"
#include "store/pages_check.h"
#include "store/reading_in_turns.h"
#include "store/rows_round.h"
#include "store/schema_entries.h"
#include "store/unread.h"

#include <algorithm>
#include <optional>
#include <set>
#include <sqlite3.h>
#include <string>
#include <string_view>
#include <utility>

namespace store {

namespace {

// Trouble with the file itself belongs in the report; anything else (busy) ends verify.
bool belongsInReport(const SQLite::Exception& exception) {
    const int code = exception.getErrorCode() & 0xFF;
    // SQLITE_ERROR: a table lacks a column that every logbook has.
    return isDamage(exception) || code == SQLITE_NOTADB || code == SQLITE_IOERR ||
           code == SQLITE_ERROR;
}

// The column that is not what the content says; empty if all are.
std::string wrongColumn(const Row& row, const logbook::Record& record) {
    if (row.place.name.station != record.name.station) return "station";
    if (row.place.name.seq != record.name.seq) return "seq";
    if (row.place.at != record.at) return "at_ms";
    if (row.place.entered != record.entered) return "entered_ms";
    if (row.device != record.device) return "device";
    return row.kind == logbook::kindName(record.kind()) ? "" : "kind";
}

class Verifier {
public:
    Verifier(int schema, Database& database, const Progress& progress)
        : m_schema(schema), m_database(database), m_progress(progress) {}

    // False: the caller stopped it.
    bool run();
    VerifyReport takeReport() { return std::move(m_report); }
    // Whether the disk did not give what was to be read: not where it failed at a lock.
    [[nodiscard]] bool wasRefused() const { return m_wasRefused; }

private:
    struct Chain {
        Head last;
        std::int64_t arrival = 0;
    };

    template <class Function>
    void guarded(Function function);
    // Why something could not be read; notes it where it is the disk.
    [[nodiscard]] std::string reasonFor(const SQLite::Exception& exception);
    void checkPages();
    void checkSchema();
    void collectNotes();
    [[nodiscard]] std::set<std::string> stations();
    bool checkStation(const std::string& station);
    [[nodiscard]] Portion portion(const std::string& station, std::int64_t after);
    [[nodiscard]] std::optional<Break> fault(const Row& row, const Chain& chain) const;
    [[nodiscard]] std::optional<Break> lostTail(const std::string& station,
                                                const Chain& chain) const;
    [[nodiscard]] std::optional<Break> notNoted(const std::string& station);
    void checkArrivals();
    void checkCount();

    int m_schema;
    Database& m_database;
    const Progress& m_progress;
    VerifyReport m_report;
    bool m_wasRefused = false;
    bool m_hasFailed = false;  // at a question about the records, or about what is noted of them
    std::vector<Heads> m_noted;
    std::int64_t m_total = 0;    // of the records, when it began
    std::int64_t m_ofTotal = 0;  // how many of those were checked
    std::string m_unreadable;  // why rows had to be read each by itself; empty: they had not
};

template <class Function>
void Verifier::guarded(Function function) {
    try {
        function();
    } catch (const SQLite::Exception& exception) {
        if (!belongsInReport(exception)) {
            throw;
        }
        m_hasFailed = true;
        auto reason = reasonFor(exception);
        // Of several questions to one damaged page once.
        if (m_report.integrity.empty() || m_report.integrity.back() != reason) {
            m_report.integrity.push_back(std::move(reason));
        }
    }
}

std::string Verifier::reasonFor(const SQLite::Exception& exception) {
    const bool isRefused = isRefusedBy(m_database, exception);
    const bool isDisk = isRefused || (exception.getErrorCode() & 0xFF) == SQLITE_IOERR;
    m_wasRefused = m_wasRefused || isRefused;
    m_report.diskFailed = m_report.diskFailed || isDisk;
    return isDisk ? reasonOf(systemErrorOf(m_database), exception) : exception.what();
}

void Verifier::checkPages() {
    std::vector<std::string> messages;
    readInTurns(m_database, [&] { messages = messagesOfPages(m_database); });
    for (std::string& message : messages) {
        m_wasRefused = m_wasRefused || saysDiskFailed(message);
        m_report.diskFailed = m_report.diskFailed || m_wasRefused;
        m_report.integrity.push_back(std::move(message));
    }
}

void Verifier::checkSchema() {
    const auto names = schemaChangedIn(m_database, m_schema);
    m_report.schemaChanged.assign(names.begin(), names.end());
    // No verify gives its note a number from which no other can be counted up.
    SQLite::Statement wrong(m_database,
                            "SELECT 1 FROM local_verifications WHERE number NOT BETWEEN 0 AND " +
                                std::to_string(logbook::largestSeq - 1));
    if (wrong.executeStep() && !names.contains("local_verifications")) {
        m_report.schemaChanged.emplace_back("local_verifications");
    }
}

// Each by itself: where one is damaged the other tells all the same.
void Verifier::collectNotes() {
    guarded([&] { m_noted.push_back(notedHeads(m_database)); });
    guarded([&] {
        if (auto verification = readVerification(m_database, "ok = 1")) {
            m_noted.push_back(std::move(verification->heads));
        }
    });
    guarded([&] { m_total = lastArrivalIn(m_database); });
}

std::set<std::string> Verifier::stations() {
    std::set<std::string> stations;
    for (const Heads& heads : m_noted) {
        for (const auto& [station, head] : heads) {
            stations.insert(station);
        }
    }
    guarded([&] {
        // From one to the next, since to look at every record takes long.
        SQLite::Statement first(m_database, "SELECT min(station) FROM records");
        SQLite::Statement next(m_database, "SELECT min(station) FROM records WHERE station > ?");
        std::optional<std::string> last;
        while (true) {
            auto& asked = last ? next : first;
            if (last) {
                asked.bind(1, *last);
            }
            if (!asked.executeStep() || asked.getColumn(0).isNull()) {
                return;
            }
            const std::string station = asked.getColumn(0).getString();
            if (last && !(*last < station)) {
                return;  // an index out of order, which the check of its pages tells
            }
            asked.reset();
            stations.insert(station);
            last = station;
        }
    });
    return stations;
}

Portion Verifier::portion(const std::string& station, std::int64_t after) {
    const auto ask = [&](std::string_view columns, const std::string& records) {
        SQLite::Statement statement(m_database, "SELECT " + std::string(columns) + " FROM " +
                                                    records + " WHERE station = ? AND seq > ?"
                                                              " ORDER BY seq LIMIT ?");
        statement.bind(1, station);
        statement.bind(2, after);
        statement.bind(3, rowsPerTransaction);
        return statement;
    };
    try {
        return portionOf(ask(rowColumns, "records"));
    } catch (const SQLite::Exception& exception) {
        if (!isDamage(exception)) {
            throw;
        }
        m_unreadable = reasonFor(exception);
    }
    const auto find = [&](const std::string& records) { return ask(placeColumns, records); };
    auto portion =
        rowsRound(m_database, "records_in_reading_order", find, bytesPerTransaction);
    portion.isCut = portion.isCut ||
                    portion.rows.size() == static_cast<std::size_t>(rowsPerTransaction);
    return portion;
}

std::optional<Break> Verifier::fault(const Row& row, const Chain& chain) const {
    using enum Break::Reason;
    const logbook::RecordName& name = row.place.name;
    if (name.seq != chain.last.seq + 1) {
        return Break{{name.station, chain.last.seq + 1}, Gap};
    }
    if (row.content.empty() && !m_unreadable.empty()) {
        return Break{name, Unreadable, m_unreadable};
    }
    if (row.hash != chainHash(chain.last.hash, row.content)) {
        return Break{name, WrongHash};
    }
    const auto record = logbook::readRecord(std::string_view(row.content));
    if (!record || record->content != row.content) {
        return Break{name, NotARecord};
    }
    if (auto column = wrongColumn(row, *record); !column.empty()) {
        return Break{name, Column, std::move(column)};
    }
    if (row.arrival <= chain.arrival) {
        return Break{name, Order};
    }
    for (const Heads& heads : m_noted) {
        const auto noted = heads.find(name.station);
        if (noted != heads.end() && noted->second.seq == name.seq &&
            noted->second.hash != row.hash) {
            return Break{name, NotAsNoted};
        }
    }
    return std::nullopt;
}

std::optional<Break> Verifier::lostTail(const std::string& station, const Chain& chain) const {
    for (const Heads& heads : m_noted) {
        const auto noted = heads.find(station);
        if (noted != heads.end() && noted->second.seq > chain.last.seq) {
            return Break{{station, chain.last.seq + 1}, Break::Reason::TailLost};
        }
    }
    return std::nullopt;
}

std::optional<Break> Verifier::notNoted(const std::string& station) {
    // Asked anew and in one statement, for records may have come in since the notes were read.
    SQLite::Statement statement(
        m_database,
        "SELECT (SELECT max(seq) FROM records WHERE station = :station),"
        " coalesce((SELECT seq FROM local_heads WHERE station = :station), 0)");
    statement.bind(":station", station);
    if (statement.executeStep() &&
        statement.getColumn(0).getInt64() > statement.getColumn(1).getInt64()) {
        return Break{{station, statement.getColumn(1).getInt64() + 1}, Break::Reason::NotNoted};
    }
    return std::nullopt;
}

bool Verifier::checkStation(const std::string& station) {
    Chain chain;
    std::optional<Break> found;
    for (bool more = true; more && !found;) {
        Portion read;
        try {
            read = portion(station, chain.last.seq);
        } catch (const SQLite::Exception& exception) {
            if (!belongsInReport(exception)) {
                throw;
            }
            found = Break{{station, chain.last.seq + 1}, Break::Reason::Unreadable,
                          reasonFor(exception)};
        }
        for (const Row& row : read.rows) {
            ++m_report.checked;
            m_ofTotal += row.arrival <= m_total ? 1 : 0;
            found = fault(row, chain);
            if (found) {
                break;
            }
            chain = {{row.place.name.seq, row.hash}, row.arrival};
        }
        more = read.isCut;
        if (m_progress && !m_progress(m_report.checked, std::max(m_total, m_report.checked))) {
            return false;
        }
    }
    if (!found) {
        found = lostTail(station, chain);
    }
    if (!found) {
        guarded([&] { found = notNoted(station); });
    }
    if (found) {
        m_report.breaks.push_back(*std::move(found));
    }
    if (chain.last.seq > 0) {
        m_report.heads[station] = chain.last;
    }
    return true;
}

void Verifier::checkArrivals() {
    SQLite::Statement statement(m_database, "SELECT arrival FROM records WHERE arrival > ?"
                                            " ORDER BY arrival LIMIT ?");
    std::int64_t last = 0;
    for (bool more = true; more;) {
        const std::int64_t wanted = last + rowsPerTransaction;
        statement.bind(1, last);
        statement.bind(2, rowsPerTransaction);
        while (statement.executeStep()) {
            if (statement.getColumn(0).getInt64() != last + 1) {
                m_report.breaks.push_back({{"", last + 1}, Break::Reason::Hole});
                return;
            }
            ++last;
        }
        statement.reset();
        more = last == wanted;
    }
}

// Whether some stand under what no query for a station finds. Others may have appended meanwhile,
// each with the next number of arrival.
void Verifier::checkCount() {
    SQLite::Statement statement(m_database,
                                // An index may be what is damaged.
                                std::string("SELECT (SELECT count(*) FROM records") +
                                    (m_report.integrity.empty() ? "" : " NOT INDEXED") +
                                    "), (SELECT coalesce(max(arrival), 0) FROM records)");
    statement.executeStep();
    const auto count = statement.getColumn(0).getInt64();
    const auto last = statement.getColumn(1).getInt64();
    const auto unseen = count - last + m_total - m_ofTotal;
    m_report.areEntriesWhole = unseen == 0 && !m_hasFailed;
    if (unseen != 0 && m_report.integrity.empty()) {
        m_report.integrity.push_back("rows of records that are of no station: " +
                                     std::to_string(unseen));
    }
}

bool Verifier::run() {
    guarded([&] { checkPages(); });
    guarded([&] { checkSchema(); });
    m_hasFailed = false;
    collectNotes();
    for (const std::string& station : stations()) {
        if (!checkStation(station)) {
            return false;
        }
    }
    // A record known to be gone has left its hole; only one that nothing else tells of is news.
    if (m_report.breaks.empty()) {
        guarded([&] { checkArrivals(); });
    }
    if (m_report.breaks.empty()) {
        guarded([&] { checkCount(); });
    }
    return true;
}

}  // namespace

tl::expected<VerifyReport, Trouble> verifyAs(int schema, const Connection& connection,
                                             const Progress& progress) {
    return connection.guarded([&]() -> tl::expected<VerifyReport, Trouble> {
        auto& database = connection.database();
        VerifyReport report;
        bool wasRefused = true;
        // What the disk did not give is asked for again, but in no transaction: that has ended.
        const int most = sqlite3_get_autocommit(database.getHandle()) != 0 ? 2 : 1;
        for (int times = 0; times < most && wasRefused; ++times) {
            forgetSystemError(database);
            Verifier verifier(schema, database, progress);
            if (!verifier.run()) {
                return tl::unexpected<Trouble>(connection.trouble(Trouble::Code::Cancelled));
            }
            report = verifier.takeReport();
            wasRefused = verifier.wasRefused();
        }
        if (report.diskFailed &&
            (!isDiskThere(connection.path()) || reasonOfJournal(connection.path()))) {
            return tl::unexpected<Trouble>(unreadTrouble(
                connection.path(), report.integrity.empty() ? "" : report.integrity.front()));
        }
        if (auto harm = harmOfHeader(connection.path())) {
            report.integrity.push_back(*std::move(harm));
        }
        return report;
    });
}

}  // namespace store
