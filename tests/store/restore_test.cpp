// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Restoring: what stood there is put aside, and the backup goes on under another station's name.
#include "store/restore.h"

#include "logbook_files.h"

#include <catch2/catch.hpp>

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

TEST_CASE("A backup of another log is told", "[unit]") {
    const auto isOther = [](const std::vector<logbook::Record>& inPlace) {
        const TemporaryFolder folder;
        fill(folder);
        std::filesystem::remove(folder / "log");
        {
            Logbook logbook = create(folder / "log");
            append(logbook, inPlace);
        }
        const auto result = restore(folder / "backup", {folder / "log", "icu-1b"}, writing(0));
        REQUIRE(result);
        CHECK_FALSE(result->isAtLeast);
        return result->isOther;
    };
    CHECK_FALSE(isOther(notes("icu-1", 3)));
    CHECK_FALSE(isOther(notes("icu-1", 9)));
    CHECK(isOther(notes("icu-7", 9)));
    CHECK(isOther({note("icu-1", 1, "Seen")}));
    auto forked = notes("icu-1", 9);
    forked[4] = note("icu-1", 5, "Seen");
    CHECK(isOther(forked));
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
