// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Verify: whatever is done to a file behind the store's back is found, at the right record.
#include "store/logbook.h"

#include "logbook_files.h"
#include "store/proven_records.h"

#include <catch2/catch.hpp>

#include <random>

using namespace store;
using namespace store::test;
using logbook::RecordName;
using Reason = Break::Reason;

namespace {

constexpr int lastSeq = 8;

// A logbook of two stations, to be tampered with.
class Victim {
public:
    // Each from the bytes of the same one: there are many, and writing takes its time.
    Victim() : m_logbook(copyOf(freshBytes(), m_folder / "log")) {}
    [[nodiscard]] Logbook& logbook() { return m_logbook; }
    void noteVerified() { REQUIRE(m_logbook.noteVerified(*m_logbook.verify(), writing())); }
    void tamper(const std::string& sql) { test::tamper(m_folder / "log", sql); }
    [[nodiscard]] std::vector<Break> breaks() {
        const auto report = m_logbook.verify();
        REQUIRE(report);
        CHECK(report->schemaChanged.empty());
        CHECK(report->ok() == report->breaks.empty());
        return report->breaks;
    }

private:
    static const std::string& freshBytes() {
        static const std::string bytes = [] {
            const TemporaryFolder folder;
            Logbook logbook = create(folder / "log");
            append(logbook, notes("icu-1", lastSeq));
            append(logbook, notes("icu-2", 3));
            return bytesOf(folder / "log");
        }();
        return bytes;
    }
    static Logbook copyOf(const std::string& bytes, const std::filesystem::path& path) {
        writeBytes(path, bytes);
        return open(path);
    }

    TemporaryFolder m_folder;
    Logbook m_logbook;
};

std::string hexOf(const Hash& hash) {
    return "x'" + toHex(hash) + "'";
}

// SQL that puts another text into a record and chains it and all after it anew.
std::string rewriteFrom(Logbook& logbook, std::int64_t seq) {
    std::string sql;
    Hash hash{};
    for (std::int64_t i = 1; i <= lastSeq; ++i) {
        std::string content = logbook.findRecord({"icu-1", i})->content;
        if (i == seq) {
            content = note("icu-1", i, "forged").content;
        }
        hash = chainHash(hash, content);
        sql += "UPDATE records SET content = '" + content + "', hash = " + hexOf(hash) +
               " WHERE station = 'icu-1' AND seq = " + std::to_string(i) + ";";
    }
    return sql;
}

}  // namespace

TEST_CASE("A whole logbook verifies up to its heads", "[unit]") {
    Victim victim;
    const auto report = victim.logbook().verify();
    REQUIRE(report);
    CHECK(report->ok());
    CHECK(report->checked == lastSeq + 3);
    CHECK(report->heads == headsOf(victim.logbook()));
}

TEST_CASE("A change to any one record is found there", "[exhaustive]") {
    struct Change {
        std::string set;
        Reason reason;
        std::string detail;
    };
    const std::vector<Change> changes = {
        {"content = replace(content, 'seen', 'Seen')", Reason::WrongHash, ""},
        {"content = content || ' '", Reason::WrongHash, ""},
        {"content = ''", Reason::WrongHash, ""},
        {"hash = zeroblob(32)", Reason::WrongHash, ""},
        {"at_ms = at_ms - 1", Reason::Column, "at_ms"},
        {"entered_ms = entered_ms + 1", Reason::Column, "entered_ms"},
        {"device = 'KB-0002'", Reason::Column, "device"},
        {"kind = 'soil'", Reason::Column, "kind"},
    };
    for (const Change& change : changes) {
        for (std::int64_t seq = 1; seq <= lastSeq; ++seq) {
            INFO(change.set << " of " << seq);
            Victim victim;
            victim.tamper("UPDATE records SET " + change.set +
                          " WHERE station = 'icu-1' AND seq = " + std::to_string(seq));
            CHECK(victim.breaks() ==
                  std::vector<Break>{{{"icu-1", seq}, change.reason, change.detail}});
        }
    }
}

TEST_CASE("A record taken out is missed, whichever it is", "[exhaustive]") {
    for (std::int64_t seq = 1; seq <= lastSeq; ++seq) {
        INFO(seq);
        Victim victim;
        victim.tamper("DELETE FROM records WHERE station = 'icu-1' AND seq = " +
                      std::to_string(seq));
        CHECK(victim.breaks() ==
              std::vector<Break>{
                  {{"icu-1", seq}, seq == lastSeq ? Reason::TailLost : Reason::Gap}});
    }
}

TEST_CASE("A tail is missed although its note is gone too", "[unit]") {
    Victim victim;
    victim.noteVerified();
    const Row row = *victim.logbook().findRecord({"icu-1", 5});
    victim.tamper("DELETE FROM records WHERE station = 'icu-1' AND seq > 5;"
                  "UPDATE local_heads SET seq = 5, hash = " +
                  hexOf(row.hash) + " WHERE station = 'icu-1'");
    CHECK(victim.breaks() == std::vector<Break>{{{"icu-1", 6}, Reason::TailLost}});
    // And is not forgotten by what is noted of that.
    victim.noteVerified();
    CHECK(victim.breaks() == std::vector<Break>{{{"icu-1", 6}, Reason::TailLost}});
}

TEST_CASE("A station taken out is missed", "[unit]") {
    const std::string sql = "DELETE FROM records WHERE station = 'icu-1'";
    Victim noted;
    noted.tamper(sql);
    CHECK(noted.breaks() == std::vector<Break>{{{"icu-1", 1}, Reason::TailLost}});
    Victim traceless;
    traceless.tamper(sql + "; DELETE FROM local_heads WHERE station = 'icu-1'");
    CHECK(traceless.breaks() == std::vector<Break>{{{"", 1}, Reason::Hole}});
}

TEST_CASE("A record put in is found", "[unit]") {
    const auto insert = [](Victim& victim, const logbook::Record& record, const Hash& hash) {
        victim.tamper("INSERT INTO records SELECT 1 + max(arrival), '" + record.name.station +
                      "', " + std::to_string(record.name.seq) + ", " +
                      std::to_string(record.at.ms) + ", " + std::to_string(record.entered.ms) +
                      ", 'KB-0001', 'note', '" + record.content + "', " + hexOf(hash) +
                      ", 0 FROM records");
    };
    const auto record = note("icu-2", 4);
    Victim unchained;
    insert(unchained, record, sha256("x"));
    CHECK(unchained.breaks() == std::vector<Break>{{{"icu-2", 4}, Reason::WrongHash}});

    Victim chained;
    const Hash last = headsOf(chained.logbook()).at("icu-2").hash;
    insert(chained, record, chainHash(last, record.content));
    CHECK(chained.breaks() == std::vector<Break>{{{"icu-2", 4}, Reason::NotNoted}});
    // Nor is it handed on.
    CHECK(provenRecords(chained.logbook())->breaks == chained.breaks());
    CHECK(provenRecords(chained.logbook())->records.size() == lastSeq + 3);

    Victim newStation;
    const auto first = note("icu-3", 1);
    insert(newStation, first, chainHash({}, first.content));
    CHECK(newStation.breaks() == std::vector<Break>{{{"icu-3", 1}, Reason::NotNoted}});
    CHECK(provenRecords(newStation.logbook())->breaks == newStation.breaks());
}

TEST_CASE("A record put in between any two is found", "[exhaustive]") {
    for (std::int64_t seq = 1; seq <= lastSeq; ++seq) {
        for (const bool chained : {false, true}) {
            INFO(seq << (chained ? " chained" : ""));
            Victim victim;
            const auto record = note("icu-1", seq, "put in");
            const Hash before =
                seq == 1 ? Hash{} : victim.logbook().findRecord({"icu-1", seq - 1})->hash;
            const auto number = std::to_string(seq);
            victim.tamper(
                "UPDATE records SET seq = seq + 1000 WHERE station = 'icu-1' AND seq >= " + number +
                "; UPDATE records SET seq = seq - 999 WHERE station = 'icu-1' AND seq > 1000;"
                "INSERT INTO records SELECT 1 + max(arrival), 'icu-1', " + number + ", " +
                std::to_string(record.at.ms) + ", " + std::to_string(record.entered.ms) +
                ", 'KB-0001', 'note', '" + record.content + "', " +
                hexOf(chained ? chainHash(before, record.content) : sha256("x")) +
                ", 0 FROM records");
            // One that is chained is found by what no longer fits behind it, the last by its note.
            const Break found = !chained        ? Break{{"icu-1", seq}, Reason::WrongHash}
                                : seq < lastSeq ? Break{{"icu-1", seq + 1}, Reason::WrongHash}
                                                : Break{{"icu-1", seq}, Reason::NotAsNoted};
            CHECK(victim.breaks() == std::vector<Break>{found});
        }
    }
}

TEST_CASE("Any two records in each other's place are found", "[exhaustive]") {
    for (std::int64_t one = 1; one < lastSeq; ++one) {
        for (std::int64_t other = one + 1; other <= lastSeq; ++other) {
            INFO(one << " and " << other);
            Victim victim;
            const auto move = [](std::int64_t from, std::int64_t to) {
                return "UPDATE records SET seq = " + std::to_string(to) +
                       " WHERE station = 'icu-1' AND seq = " + std::to_string(from) + ";";
            };
            victim.tamper(move(one, 100) + move(other, one) + move(100, other));
            CHECK(victim.breaks() == std::vector<Break>{{{"icu-1", one}, Reason::WrongHash}});
        }
    }
}

TEST_CASE("Records in another order of arrival, or of another station, are found", "[unit]") {
    Victim byArrival;
    byArrival.tamper("UPDATE records SET arrival = 100 WHERE arrival = 3;"
                     "UPDATE records SET arrival = 3 WHERE arrival = 4;"
                     "UPDATE records SET arrival = 4 WHERE arrival = 100;");
    CHECK(byArrival.breaks() == std::vector<Break>{{{"icu-1", 4}, Reason::Order}});

    Victim byStation;
    byStation.tamper("UPDATE records SET station = 'icu-3' WHERE station = 'icu-2'");
    CHECK(byStation.breaks() == std::vector<Break>{{{"icu-2", 1}, Reason::TailLost},
                                                   {{"icu-3", 1}, Reason::Column, "station"}});
}

TEST_CASE("A chain written anew does not fit the notes of it", "[exhaustive]") {
    for (std::int64_t seq = 1; seq <= lastSeq; ++seq) {
        INFO(seq);
        Victim victim;
        victim.tamper(rewriteFrom(victim.logbook(), seq));
        CHECK(victim.breaks() == std::vector<Break>{{{"icu-1", lastSeq}, Reason::NotAsNoted}});
    }
    Victim thorough;
    thorough.noteVerified();
    thorough.tamper(rewriteFrom(thorough.logbook(), 3) +
                    "UPDATE local_heads SET hash = (SELECT hash FROM records WHERE records.station"
                    " = local_heads.station AND records.seq = local_heads.seq)");
    CHECK(thorough.breaks() == std::vector<Break>{{{"icu-1", lastSeq}, Reason::NotAsNoted}});
}

TEST_CASE("Well chained bytes that are no record are found", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, {note("icu-1", 1)});
    for (const std::string& content :
         {std::string("{}"), "[" + note("icu-1", 1).content + "]",
          " " + note("icu-1", 1).content}) {
        const std::string hash = hexOf(chainHash({}, content));
        const auto database = behindTheBack(folder / "log");
        database->exec("DROP TRIGGER IF EXISTS records_are_never_updated;"
                       "UPDATE records SET content = '" +
                       content + "', hash = " + hash + "; UPDATE local_heads SET hash = " + hash);
        CHECK(logbook.verify()->breaks ==
              std::vector<Break>{{{"icu-1", 1}, Reason::NotARecord}});
    }
}

TEST_CASE("Each station in doubt is named once, the others hold", "[unit]") {
    Victim victim;
    victim.tamper("UPDATE records SET device = 'KB-0002' WHERE seq IN (2, 3)");
    CHECK(victim.breaks() == std::vector<Break>{{{"icu-1", 2}, Reason::Column, "device"},
                                                {{"icu-2", 2}, Reason::Column, "device"}});
    append(victim.logbook(), notes("icu-3", 2));
    const auto report = victim.logbook().verify();
    CHECK(report->heads.at("icu-1").seq == 1);
    CHECK(report->heads.at("icu-2").seq == 1);
    CHECK(report->heads.at("icu-3").seq == 2);
}

TEST_CASE("A schema that is not as made is told", "[unit]") {
    const std::vector<std::pair<std::string, std::string>> changes = {
        {"DROP TRIGGER records_are_never_updated", "records_are_never_updated"},
        {"DROP TRIGGER records_are_never_deleted", "records_are_never_deleted"},
        {"DROP TRIGGER records_are_only_appended", "records_are_only_appended"},
        {"DROP INDEX records_by_device", "records_by_device"},
        {"CREATE TABLE extra (a)", "extra"},
        {"CREATE INDEX sqlite1stat_a ON records (seq)", "sqlite1stat_a"},
        {"CREATE TRIGGER sqlite1stat_a BEFORE INSERT ON records BEGIN SELECT 1; END",
         "sqlite1stat_a"},
        {"DROP TRIGGER records_are_never_deleted;"
         "CREATE TRIGGER records_are_never_deleted BEFORE DELETE ON records"
         " WHEN false BEGIN SELECT 1; END",
         "records_are_never_deleted"},
    };
    for (const auto& [sql, name] : changes) {
        INFO(sql);
        const TemporaryFolder folder;
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 2));
        behindTheBack(folder / "log")->exec(sql);
        const auto report = logbook.verify();
        REQUIRE(report);
        CHECK_FALSE(report->ok());
        CHECK(report->breaks.empty());
        CHECK(report->schemaChanged == std::vector<std::string>{name});
    }
}

TEST_CASE("A byte turned in the schema's own text is told as damage", "[fault]") {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 2));
    }
    const std::string whole = bytesOf(folder / "log");
    for (const char* column :
         {"arrival INTEGER", "content TEXT", "breaks TEXT", "checked INTEGER"}) {
        INFO(column);
        std::string damaged = whole;
        REQUIRE(damaged.find(column) != std::string::npos);
        damaged[damaged.find(column) + 1] = 'X';
        writeBytes(folder / "damaged", damaged);
        const Logbook logbook = open(folder / "damaged", OpenOptions::Access::Read);
        const auto report = logbook.verify();
        REQUIRE(report);
        CHECK_FALSE(report->ok());
        CHECK_FALSE(report->schemaChanged.empty());
        const auto records = logbook.records();
        CHECK((records || records.error().code == Trouble::Code::Damaged));
    }
}

TEST_CASE("The database's own statistics are no change", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 2));
    behindTheBack(folder / "log")->exec("ANALYZE");
    CHECK(logbook.verify()->ok());
}

TEST_CASE("Verify says how far it is and can be stopped", "[unit]") {
    Victim victim;
    std::vector<std::int64_t> steps;
    CHECK(victim.logbook().verify([&](std::int64_t done, std::int64_t total) {
        CHECK(total == lastSeq + 3);
        steps.push_back(done);
        return true;
    }));
    CHECK(steps == std::vector<std::int64_t>{lastSeq, lastSeq + 3});
    const auto stopped =
        victim.logbook().verify([](std::int64_t, std::int64_t) { return false; });
    REQUIRE_FALSE(stopped);
    CHECK(stopped.error().code == Trouble::Code::Cancelled);
}

TEST_CASE("A damaged byte is found or harms no record", "[property]") {
    const unsigned seed = std::random_device{}();
    INFO("seed " << seed);
    std::mt19937 random(seed);
    const TemporaryFolder folder;
    std::vector<std::string> before;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 60));
        append(logbook, notes("icu-2", 60));
        before = contents(logbook);
    }
    const std::string whole = bytesOf(folder / "log");
    int found = 0;
    for (int i = 0; i < 150; ++i) {
        std::string damaged = whole;
        const std::size_t place = random() % whole.size();
        damaged[place] = static_cast<char>(damaged[place] ^ (1 + random() % 255));
        writeBytes(folder / "damaged", damaged);
        INFO("byte " << place);
        const auto logbook = Logbook::open(folder / "damaged", {OpenOptions::Access::Read});
        if (!logbook) {
            ++found;
            continue;
        }
        const auto report = logbook->verify();
        REQUIRE(report);
        if (report->ok()) {
            CHECK(contents(*logbook) == before);
        } else {
            ++found;
        }
    }
    CHECK(found > 0);
}
