// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A logbook that is open while a backup takes its place: what stands under its name from then on is
// another's, and so is the journal beside it.
#include "store/restore.h"

#include "logbook_files.h"

#include <catch2/catch.hpp>
#include <fstream>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Code = Trouble::Code;

namespace {

constexpr const char* aside = "log.before-20260302T140000Z";

// "log" with 400 records of icu-1 and "backup" with the first 5 of them.
void fill(const TemporaryFolder& folder) {
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 5));
    REQUIRE(logbook.backup(folder / "backup"));
    append(logbook, notes("icu-1", 400));
}

// In the middle of a write: much of it is in the file, and its journal stands beside it.
std::unique_ptr<SQLite::Database> midst(const std::filesystem::path& path) {
    auto database = behindTheBack(path);
    database->exec("PRAGMA cache_size = 5; BEGIN IMMEDIATE");
    database->exec("WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n"
                   " WHERE i < 400) INSERT INTO local_settings SELECT i, hex(zeroblob(500))"
                   " FROM n");
    return database;
}

// The same file goes on with those bytes.
void writeInto(const std::filesystem::path& path, const std::string& bytes) {
    std::fstream file(path, std::ios::binary | std::ios::in | std::ios::out);
    file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    REQUIRE(file.flush());
    std::filesystem::resize_file(path, bytes.size());
}

void restoreOver(const TemporaryFolder& folder) {
    REQUIRE(restore(folder / "backup", {folder / "log", "icu-1b"}, writing(0)));
}

}  // namespace

TEST_CASE("Who has a logbook open that was put aside undoes nothing that is written since",
          "[fault]") {
    for (const auto access : {Access::Read, Access::Write}) {
        INFO((access == Access::Read ? "to read" : "to write"));
        const TemporaryFolder folder;
        fill(folder);
        const std::string before = bytesOf(folder / "log");
        Logbook old = open(folder / "log", access);
        REQUIRE(old.count() == 400);
        restoreOver(folder);
        const auto writer = midst(folder / "log");
        const std::string journal = bytesOf(folder / "log-journal");
        const auto count = old.count();
        REQUIRE_FALSE(count);
        CHECK(count.error().code == Code::Moved);
        const auto written = old.append(notes("icu-1", 401), writing());
        REQUIRE_FALSE(written);
        CHECK(written.error().code == (access == Access::Read ? Code::ReadOnly : Code::Moved));
        CHECK(bytesOf(folder / aside) == before);
        CHECK(bytesOf(folder / "log-journal") == journal);
        writer->exec("COMMIT");
        CHECK(open(folder / "log").settings()->size() == 400);
        CHECK(open(folder / "log").verify()->ok());
        CHECK(open(folder / aside).verify()->ok());
    }
}

TEST_CASE("What was judged by a logbook put aside is not written into another", "[fault]") {
    const TemporaryFolder folder;
    fill(folder);
    Logbook old = open(folder / "log");
    restoreOver(folder);
    for (int times = 0; times < 2; ++times) {  // then nothing stands there
        const auto written = old.append(notes("icu-1", 401), writing());
        REQUIRE_FALSE(written);
        CHECK(written.error().code == Code::Moved);
        std::filesystem::remove(folder / "log");
    }
    CHECK(folder.names() == std::vector<std::string>{"backup", aside});
    CHECK(open(folder / aside).count() == 400);
}

TEST_CASE("A logbook is not put aside while somebody reads it to write into it", "[unit]") {
    const TemporaryFolder folder;
    fill(folder);
    const auto reader = behindTheBack(folder / "log");
    reader->exec("BEGIN; SELECT count(*) FROM records");
    const auto result = restore(folder / "backup", {folder / "log", "icu-1b"}, writing(0));
    REQUIRE_FALSE(result);
    CHECK(result.error().code == Code::Busy);
    CHECK(folder.names() == std::vector<std::string>{"backup", "log"});
}

// Whoever wrote it was killed: file and journal are as they stood then.
TEST_CASE("Who has a logbook open to write undoes what somebody's write left there", "[fault]") {
    const TemporaryFolder folder;
    fill(folder);
    Logbook toWrite = open(folder / "log");
    // By a write the connection comes to have another one beside it.
    const int written = GENERATE(0, 1);
    if (written > 0) CHECK(append(toWrite, notes("icu-1", 401)).added == 1);
    const std::string before = bytesOf(folder / "log");
    Logbook toRead = open(folder / "log", Access::Read);
    {
        const auto writer = midst(folder / "log");
        const std::string journal = bytesOf(folder / "log-journal");
        const std::string torn = bytesOf(folder / "log");
        REQUIRE(torn != before);
        writer->exec("ROLLBACK");
        writeBytes(folder / "log-journal", journal);
        writeInto(folder / "log", torn);
    }
    CHECK(toRead.count().error().code == Code::NeedsRecovery);
    const auto count = toWrite.count();
    INFO((count ? std::string() : count.error().text));
    CHECK(count == 400 + written);
    CHECK((bytesOf(folder / "log") == before));
    CHECK(toRead.count() == 400 + written);
    CHECK(append(toWrite, notes("icu-1", 401 + written)).added == 1);
}
