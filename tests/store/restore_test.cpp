// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Restoring: what stood there is put aside, and the backup goes on under another station's name.
#include "store/restore.h"

#include "bad_sectors.h"
#include "logbook_files.h"
#include "renames.h"
#include "support/statement_moments.h"

#include <catch2/catch.hpp>
#include <cerrno>
#include <functional>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Code = Trouble::Code;
using Names = std::vector<std::string>;

namespace {

constexpr const char* aside = "log.before-20260302T140000Z";

// "log" with 8 records of icu-1 and "backup" with the first 5 of them.
void fill(const TemporaryFolder& folder) {
    Logbook logbook = create(folder / "log");
    REQUIRE(logbook.setStation("icu-1", writing()));
    append(logbook, notes("icu-1", 5));
    REQUIRE(logbook.backup(folder / "backup"));
    append(logbook, notes("icu-1", 8));
}

Code refusal(const TemporaryFolder& folder, const std::string& station) {
    const auto result = restore(folder / "backup", {folder / "log", station}, writing(0));
    REQUIRE_FALSE(result);
    return result.error().code;
}

}  // namespace

TEST_CASE("A backup takes the place of a logbook, which is put aside", "[unit]") {
    const TemporaryFolder folder;
    fill(folder);
    const std::string before = bytesOf(folder / "log");
    const auto result = restore(folder / "backup", {folder / "log", "icu-1b"}, writing(0));
    REQUIRE(result);
    CHECK(result->path == folder / "log");
    CHECK(result->aside == folder / aside);
    CHECK(result->later == 3);
    CHECK(bytesOf(folder / aside) == before);
    CHECK(folder.names() == Names{"backup", "log", aside});
    Logbook restored = open(folder / "log");
    CHECK(restored.verify()->ok());
    CHECK(headsOf(restored) == result->heads);
    CHECK(restored.count() == 5);
    CHECK(restored.station().value() == std::optional<std::string>("icu-1b"));
    // What came after the backup is brought back from what was put aside.
    CHECK(append(restored, open(folder / aside).records()->records).added == 3);
    CHECK(restored.verify()->ok());
}

// A restore during which, in the moment of that number, somebody else gets that entry confirmed.
struct Joined {
    tl::expected<RestoreResult, Trouble> result;
    bool came = false;  // there was such a moment
};

Joined restoreJoined(const TemporaryFolder& folder, int number, const logbook::Record& entry) {
    fill(folder);
    const support::StatementMoments moments(number, [&](sqlite3*) {
        auto other = Logbook::open(folder / "log", {Access::Write, false, 50});
        (void)(other && other->append(std::vector{entry}, writing()));
    });
    auto result = restore(folder / "backup", {folder / "log", "icu-1b"}, writing(0));
    return {std::move(result), moments.came()};
}

TEST_CASE("What comes in while a restore waits for its turn is told", "[fault]") {
    int last = 0;  // the last moment in which it comes into what is put aside
    for (int number = 1, came = 1; came != 0; ++number) {
        INFO("moment " << number);
        const TemporaryFolder folder;
        const auto joined = restoreJoined(folder, number, note("icu-1", 9));
        REQUIRE(joined.result);
        const auto before = open(folder / aside);
        CHECK(joined.result->later == *before.count() - 5);
        CHECK_FALSE(joined.result->isAtLeast);
        last = *before.count() == 9 ? number : last;
        came = joined.came ? 1 : 0;
    }
    // So is a name used that it was to go on by.
    REQUIRE(last > 10);
    for (int number = last - 10; number <= last; ++number) {
        INFO("moment " << number);
        const TemporaryFolder folder;
        const auto joined = restoreJoined(folder, number, note("icu-1b", 1));
        REQUIRE_FALSE(joined.result);
        CHECK(joined.result.error().code == Code::StationTaken);
        CHECK(open(folder / "log").count() == 9);
    }
}

TEST_CASE("A backup is restored where nothing stands", "[unit]") {
    const TemporaryFolder folder;
    fill(folder);
    std::filesystem::remove(folder / "log");
    const auto result = restore(folder / "backup", {folder / "log", "icu-1b"}, writing(0));
    REQUIRE(result);
    CHECK_FALSE(result->aside);
    CHECK(open(folder / "log").count() == 5);
    CHECK(folder.names() == Names{"backup", "log"});
}

TEST_CASE("A damaged logbook is put aside as it is", "[fault]") {
    const TemporaryFolder folder;
    fill(folder);
    for (const std::string& damaged :
         {std::string(9000, '\0'), bytesOf(folder / "log").substr(0, 5000), std::string()}) {
        writeBytes(folder / "log", damaged);
        std::filesystem::remove(folder / aside);
        const auto result = restore(folder / "backup", {folder / "log", "icu-1b"}, writing(0));
        REQUIRE(result);
        CHECK_FALSE(result->later);
        CHECK(result->isAtLeast);
        CHECK_FALSE(result->isOther);
        CHECK(bytesOf(folder / aside) == damaged);
        CHECK(open(folder / "log").verify()->ok());
    }
}

TEST_CASE("A journal that was left behind is not played back into a new logbook", "[fault]") {
    const TemporaryFolder folder;
    std::string journal;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 5));
        const auto database = behindTheBack(folder / "log");
        database->exec("PRAGMA cache_size = 5; BEGIN IMMEDIATE");
        database->exec("WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n"
                       " WHERE i < 400) INSERT INTO local_settings SELECT i, hex(zeroblob(500))"
                       " FROM n");
        journal = bytesOf(folder / "log-journal");
        database->exec("ROLLBACK");
    }
    std::filesystem::remove(folder / "log");
    writeBytes(folder / "log-journal", journal);
    {
        Logbook logbook = create(folder / "log");
        CHECK(logbook.verify()->ok());
        CHECK(logbook.count() == 0);
        CHECK(append(logbook, notes("icu-2", 2)).added == 2);
    }
    CHECK(open(folder / "log").verify()->ok());
    CHECK(folder.names() == Names{"log", "log-journal.left-over"});
    CHECK(bytesOf(folder / "log-journal.left-over") == journal);
    // And once more, and where a backup comes there.
    REQUIRE(open(folder / "log").backup(folder / "backup"));
    std::filesystem::remove(folder / "log");
    writeBytes(folder / "log-journal", journal);
    (void)create(folder / "log");
    std::filesystem::remove(folder / "log");
    writeBytes(folder / "log-journal", journal);
    REQUIRE(restore(folder / "backup", {folder / "log", "icu-1b"}, writing(0)));
    CHECK(open(folder / "log").count() == 2);
    CHECK(folder.names() == Names{"backup", "log", "log-journal.left-over",
                                  "log-journal.left-over-2", "log-journal.left-over-3"});
}

TEST_CASE("What cannot be restored changes nothing", "[unit]") {
    const TemporaryFolder folder;
    fill(folder);
    const std::string before = bytesOf(folder / "log");
    CHECK(refusal(folder, "icu-1") == Code::StationTaken);
    CHECK(refusal(folder, "ICU 1") == Code::BadStation);
    writeBytes(folder / aside, "Dear Rowan");
    CHECK(refusal(folder, "icu-1b") == Code::Exists);
    CHECK(bytesOf(folder / aside) == "Dear Rowan");
    tamper(folder / "backup", "UPDATE records SET device = 'x' WHERE seq = 3");
    CHECK(refusal(folder, "icu-1b") == Code::ChainBroken);
    std::filesystem::remove(folder / "backup");
    CHECK(refusal(folder, "icu-1b") == Code::NotFound);
    CHECK(bytesOf(folder / "log") == before);
    CHECK(folder.names() == Names{"log", aside});
}

TEST_CASE("No name is taken that the logbook to be put aside has used", "[unit]") {
    const TemporaryFolder folder;
    fill(folder);
    Logbook logbook = open(folder / "log");
    append(logbook, notes("icu-1b", 2));
    CHECK(refusal(folder, "icu-1b") == Code::StationTaken);
    CHECK(folder.names() == Names{"backup", "log"});
    const auto result = restore(folder / "backup", {folder / "log", "icu-1c"}, writing(0));
    REQUIRE(result);
    CHECK(result->later == 5);
}

// Its first page is gone, so that it is no database any more.
TEST_CASE("What a damaged logbook has used and holds is looked for in its pages", "[fault]") {
    const TemporaryFolder folder;
    fill(folder);
    {
        Logbook logbook = open(folder / "log");
        append(logbook, notes("icu-1b", 2));
    }
    auto bytes = bytesOf(folder / "log");
    writeBytes(folder / "log", bytes.replace(0, 4096, std::string(4096, '\0')));
    CHECK(refusal(folder, "icu-1b") == Code::StationTaken);
    CHECK(bytesOf(folder / "log") == bytes);
    const auto result = restore(folder / "backup", {folder / "log", "icu-1c"}, writing(0));
    REQUIRE(result);
    CHECK(result->later == 5);
    CHECK(result->isAtLeast);
}

// How many entries the backup does not have, and whether it is of another log, by what is done to
// the log of these records before.
std::pair<std::optional<std::int64_t>, bool> toldOf(
    const std::vector<logbook::Record>& inPlace, bool isAtLeast = false,
    const std::function<void(const std::filesystem::path&)>& harm = [](const auto&) {}) {
    const TemporaryFolder folder;
    fill(folder);
    std::filesystem::remove(folder / "log");
    {
        Logbook logbook = create(folder / "log");
        append(logbook, inPlace);
    }
    harm(folder / "log");
    const auto result = restore(folder / "backup", {folder / "log", "icu-1b"}, writing(0));
    REQUIRE(result);
    CHECK(result->isAtLeast == isAtLeast);
    return {result->later, result->isOther};
}

std::vector<logbook::Record> forkedFrom5() {
    auto forked = notes("icu-1", 9);
    forked[4] = note("icu-1", 5, "Seen");
    return forked;
}

TEST_CASE("A backup of another log is told, and all that it lacks is counted", "[unit]") {
    using Told = std::pair<std::optional<std::int64_t>, bool>;
    CHECK(toldOf(notes("icu-1", 3)) == Told(0, false));
    CHECK(toldOf(notes("icu-1", 9)) == Told(4, false));
    CHECK(toldOf(notes("icu-7", 9)) == Told(9, true));
    CHECK(toldOf({note("icu-1", 1, "Seen")}) == Told(1, true));
    CHECK(toldOf(forkedFrom5()) == Told(5, true));
    // The same by the pages of a file that is no database any more.
    const auto withoutFirstPage = [](const std::filesystem::path& path) {
        auto bytes = bytesOf(path);
        writeBytes(path, bytes.replace(0, 4096, std::string(4096, '\0')));
    };
    CHECK(toldOf(notes("icu-1", 9), true, withoutFirstPage) == Told(4, false));
    CHECK(toldOf(forkedFrom5(), true, withoutFirstPage) == Told(5, true));
    CHECK(toldOf({note("icu-1", 1, "Seen")}, true, withoutFirstPage) == Told(1, true));
}

// It opens, and its heads can be read: only what stands on that page is gone.
TEST_CASE("That a logbook put aside is damaged is told", "[fault]") {
    const auto withoutLastLeaf = [](const std::filesystem::path& path) {
        auto bytes = bytesOf(path);
        const auto place = bytes.rfind("\"kind\":\"note\"") / 4096 * 4096;
        REQUIRE(bytes.at(place) == '\x0D');
        writeBytes(path, bytes.replace(place, 4096, std::string(4096, '\0')));
    };
    using Told = std::pair<std::optional<std::int64_t>, bool>;
    CHECK(toldOf(notes("icu-1", 60), true, withoutLastLeaf) == Told(55, false));
    // As the last verify has found.
    CHECK(toldOf(notes("icu-1", 9), true, [](const auto& path) {
              auto logbook = open(path);
              auto report = *logbook.verify();
              report.breaks.push_back({{"icu-1", 9}, Break::Reason::WrongHash});
              REQUIRE(logbook.noteVerified(report, writing()));
          }) == Told(4, false));
}

// By what its own version of the program would do.
TEST_CASE("A logbook of another version that is being written into is not put aside", "[unit]") {
    for (const auto* schema : {"2", "0"}) {
        const TemporaryFolder folder;
        fill(folder);
        const auto writer = behindTheBack(folder / "log");
        writer->exec(std::string("PRAGMA user_version = ") + schema);
        writer->exec("BEGIN IMMEDIATE");
        CHECK(refusal(folder, "icu-1b") == Code::Busy);
        CHECK(folder.names() == Names{"backup", "log"});
        writer->exec("ROLLBACK");
        CHECK(refusal(folder, "icu-1") == Code::StationTaken);
        const auto result = restore(folder / "backup", {folder / "log", "icu-1b"}, writing(0));
        REQUIRE(result);
        CHECK(result->later == 3);
    }
}

TEST_CASE("What a link leads to is put aside, not the link", "[unit]") {
    const TemporaryFolder folder;
    fill(folder);
    const std::string before = bytesOf(folder / "log");
    std::filesystem::create_directory(folder / "desk");
    std::filesystem::create_symlink(folder / "log", folder / "desk/link");
    const auto result = restore(folder / "backup", {folder / "desk/link", "icu-1b"}, writing(0));
    REQUIRE(result);
    CHECK(result->path == std::filesystem::canonical(folder / "log"));
    CHECK(bytesOf(folder / aside) == before);
    CHECK(std::filesystem::is_symlink(folder / "desk/link"));
    CHECK(open(folder / "desk/link").count() == 5);
}

TEST_CASE("A logbook that is being written into is not put aside", "[unit]") {
    const TemporaryFolder folder;
    fill(folder);
    const auto writer = behindTheBack(folder / "log");
    writer->exec("BEGIN IMMEDIATE");
    CHECK(refusal(folder, "icu-1b") == Code::Busy);
    CHECK(folder.names() == Names{"backup", "log"});
}

TEST_CASE("A restore takes its lock again after the disk has made it go", "[fault]") {
    // At the former error the database ends the transaction by itself.
    for (const int error : {EREMOTEIO, EIO}) {
        INFO("error " << error);
        const TemporaryFolder folder;
        fill(folder);
        const auto root = behindTheBack(folder / "log")
                              ->execAndGet("SELECT rootpage FROM sqlite_schema"
                                           " WHERE name = 'local_heads'")
                              .getInt64();
        const BadSectors bad(folder / "log",
                             {static_cast<std::uint64_t>(root - 1) * 4096, 4096, error});
        int moves = 0;
        const Renames renames([&](const auto& from, const auto& to) {
            if (from != folder / "log" && to != folder / "log") {
                return;
            }
            ++moves;
            SQLite::Database other((folder / "log").string(), SQLite::OPEN_READWRITE);
            CHECK(other.tryExec("BEGIN IMMEDIATE") == SQLITE_BUSY);
        });
        const auto result = restore(folder / "backup", {folder / "log", "icu-1b"}, writing(0));
        INFO((result ? "" : result.error().text));
        REQUIRE(result);
        CHECK(moves > 0);
        CHECK(bad.met() > 2);
    }
}

TEST_CASE("Where another takes the new name meanwhile, that is told and left", "[fault]") {
    const TemporaryFolder folder;
    fill(folder);
    tl::expected<RestoreResult, Trouble> result;
    {
        const Renames renames([&](const auto&, const auto& to) {
            if (to == folder / "new") {
                writeBytes(to, "of another");
            }
        });
        result = restore(folder / "backup", {folder / "new", "icu-1b"}, writing(0));
    }
    REQUIRE_FALSE(result);
    CHECK(result.error().code == Code::Exists);
    CHECK(result.error().path == folder / "new");
    CHECK(result.error().aside.empty());
    CHECK(bytesOf(folder / "new") == "of another");
    CHECK(folder.names() == Names{"backup", "log", "new"});
}
