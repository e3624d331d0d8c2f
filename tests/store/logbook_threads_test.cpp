// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One file used by the threads of one program at once, each by a logbook of its own, or by one that
// they lend each other. To be run under the thread sanitizer too.
#include "store/logbook.h"

#include "logbook_files.h"
#include "store/restore.h"
#include "support/threads.h"

#include <algorithm>
#include <map>
#include <mutex>
#include <set>
#include <stdexcept>

using namespace store;
using namespace store::test;
using logbook::Record;
using logbook::RecordName;
using support::Outcome;
using Access = OpenOptions::Access;

namespace {

constexpr std::int64_t written = 12;  // records of each station
constexpr int engine = 7;

// The records of one station after the other, made beforehand.
struct Stations {
    std::map<std::string, std::vector<Record>> records{};
    std::map<RecordName, std::string> contents{};

    explicit Stations(const std::set<std::string>& names) {
        for (const auto& name : names) {
            records[name] = notes(name, written);
            for (const auto& record : records[name]) {
                contents[record.name] = record.content;
            }
        }
    }
};

// However long the others take.
Logbook opened(const std::filesystem::path& path, Access access) {
    auto logbook = Logbook::open(path, {access, false, 120'000});
    if (!logbook) {
        throw std::runtime_error("it cannot be opened: " + std::string(name(logbook.error().code)));
    }
    return *std::move(logbook);
}

Outcome troubleOf(const Trouble& trouble) {
    return std::string(name(trouble.code)) + " " + trouble.text;
}

Outcome appendOneByOne(const std::filesystem::path& path, const std::vector<Record>& records) {
    auto logbook = opened(path, Access::Write);
    for (const auto& record : records) {
        const auto added = logbook.append(std::vector{record}, writing());
        if (!added) return troubleOf(added.error());
    }
    return {};
}

Outcome writeAsOwn(const std::filesystem::path& path, const std::vector<Record>& records) {
    auto logbook = opened(path, Access::Write);
    for (const auto& record : records) {
        const auto build = [&](const RecordName& next) {
            return next == record.name ? std::vector{record} : std::vector<Record>{};
        };
        const auto added = logbook.appendOwn(build, writing());
        if (!added) return troubleOf(added.error());
        if (added->size() != 1) return "its number was taken";
    }
    return {};
}

// What is read at once is the beginning of each station's records, and is never less than before.
class Reader {
public:
    Reader(const std::filesystem::path& path, const Stations& stations)
        : m_logbook(opened(path, Access::Read)), m_stations(stations) {}

    Outcome look() {
        const auto read = m_logbook.records();
        if (!read) return troubleOf(read.error());
        if (!read->inDoubt.empty() || m_logbook.metDamage()) return "a record cannot be read";
        std::map<std::string, std::int64_t> last;
        for (const auto& record : read->records) {
            if (record.name.seq != ++last[record.name.station]) return "one is missing";
            if (m_stations.contents.at(record.name) != record.content) return "one is another";
        }
        if (read->records.size() < m_seen) return "one has gone";
        m_seen = read->records.size();
        return {};
    }

private:
    Logbook m_logbook;
    const Stations& m_stations;
    std::size_t m_seen = 0;
};

Outcome verifyAndNote(Logbook& logbook) {
    const auto report = logbook.verify();
    if (!report) return troubleOf(report.error());
    if (!report->ok()) return "it does not verify";
    const auto noted = logbook.noteVerified(*report, writing());
    return noted ? Outcome() : troubleOf(noted.error());
}

// A state behind the first record, after which all others come.
Outcome keepAndDrop(Logbook& logbook, const Record& first) {
    Snapshot state;
    state.place = placeOf(first);
    state.engine = engine;
    state.bytes = "state";
    const auto arrival = logbook.lastArrival();
    const auto heads = logbook.heads();
    if (!arrival || !heads) return troubleOf(arrival ? heads.error() : arrival.error());
    state.arrival = *arrival;
    state.heads = headsOf(*heads);
    const auto kept = logbook.keepSnapshots(std::vector{state}, {}, writing());
    if (!kept) return troubleOf(kept.error());
    const auto found = logbook.snapshotFor({minute(10'000), engine});
    if (!found) return troubleOf(found.error());
    if (*found != state) return "what was kept is not found";
    const auto dropped = logbook.dropDerived(writing());
    return dropped ? Outcome() : troubleOf(dropped.error());
}

Outcome askKept(const Logbook& logbook) {
    const auto kept = logbook.snapshotsKept();
    if (!kept) return troubleOf(kept.error());
    return kept->size() <= 1 ? "" : "more is kept than there was";
}

Outcome backUp(const Logbook& logbook, const std::filesystem::path& target) {
    const auto made = logbook.backup(target);
    if (!made) return troubleOf(made.error());
    const auto again = target.parent_path() / "restored";
    const auto restored = restore(target, {again, "icu-9"}, writing());
    std::filesystem::remove(target);
    if (!restored) return troubleOf(restored.error());
    const auto report = opened(again, Access::Read).verify();
    const bool isWhole = report && report->ok() && report->heads == made->heads;
    std::filesystem::remove(again);
    return isWhole ? Outcome() : "a backup is not whole";
}

// One logbook that several threads ask in turns.
class Lent {
public:
    Lent(const std::filesystem::path& path, const Stations& stations)
        : m_logbook(opened(path, Access::Read)), m_stations(stations) {}

    Outcome lookUp() {
        for (const auto& [record, content] : m_stations.contents) {
            const std::lock_guard lock(m_asking);
            const auto row = m_logbook.findRecord(record);
            if (!row && row.error().code != Trouble::Code::NoRecord) {
                return troubleOf(row.error());
            }
            if (row && row->content != content) return "another was found";
        }
        // Whoever it is lent to, or not.
        return m_logbook.metDamage() ? "it met damage" : "";
    }

private:
    std::mutex m_asking;
    Logbook m_logbook;
    const Stations& m_stations;
};

}  // namespace

TEST_CASE("Threads of one program write, read, verify, keep and copy one file at once",
          "[unit][threads]") {
    const TemporaryFolder folder;
    const auto path = folder / "log";
    const Stations stations({"desk-1", "icu-1", "icu-2"});
    const auto first = noteAt("er-1", 1, 0);
    {
        Logbook logbook = create(path);
        REQUIRE(logbook.setStation("desk-1", writing()));
        append(logbook, {first});
    }
    auto known = stations;
    known.contents[first.name] = first.content;
    Reader one(path, known), other(path, known);
    auto verified = opened(path, Access::Write), kept = opened(path, Access::Write);
    const auto copied = opened(path, Access::Read), asked = opened(path, Access::Read);
    Lent lent(path, known);
    support::Threads threads;
    threads.once([&] { return writeAsOwn(path, stations.records.at("desk-1")); });
    threads.once([&] { return appendOneByOne(path, stations.records.at("icu-1")); });
    threads.once([&] { return appendOneByOne(path, stations.records.at("icu-2")); });
    threads.beside([&] { return one.look(); });
    threads.beside([&] { return other.look(); });
    threads.beside([&] { return verifyAndNote(verified); });
    threads.beside([&] { return keepAndDrop(kept, first); });
    threads.beside([&] { return askKept(asked); });
    threads.beside([&] { return backUp(copied, folder / "copy"); });
    threads.beside([&] { return lent.lookUp(); });
    threads.beside([&] { return lent.lookUp(); });
    threads.join();
    const Logbook logbook = open(path, Access::Read);
    CHECK(contents(logbook).size() == known.contents.size());
    CHECK(logbook.verify()->ok());
    CHECK(folder.names() == std::vector<std::string>{"log"});
}
