// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Backups: that they hold all there was, and that nothing half done is left. Each is restored.
#include "store/logbook.h"

#include "bad_sectors.h"
#include "logbook_files.h"
#include "store/operating_system.h"
#include "support/statement_moments.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cerrno>
#include <fstream>
#include <optional>
#include <string>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Code = Trouble::Code;

TEST_CASE("A backup holds every record and has no station of its own", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    REQUIRE(logbook.setStation("icu-1", writing()));
    append(logbook, notes("icu-1", 50));
    append(logbook, notes("icu-2", 3));
    const auto result = logbook.backup(folder / "copy");
    REQUIRE(result);
    CHECK(result->path == folder / "copy");
    CHECK(result->bytes == std::filesystem::file_size(folder / "copy"));
    CHECK(result->heads == headsOf(logbook));
    CHECK(folder.names() == std::vector<std::string>{"copy", "log"});
    checkRestores(folder / "copy", logbook);

    Logbook copy = open(folder / "copy");
    CHECK(contents(copy) == contents(logbook));
    CHECK(headsOf(copy) == headsOf(logbook));
    CHECK(copy.verify()->ok());
    CHECK(copy.station().value() == std::nullopt);
    CHECK(copy.setStation("icu-1", writing()).error().code == Code::StationTaken);
    CHECK(copy.setStation("icu-1b", writing()));
    CHECK(logbook.station().value() == std::optional<std::string>("icu-1"));
}

TEST_CASE("A backup leaves behind what belongs to one file", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    const std::string value = "value-of-one-ward-alone";
    REQUIRE(logbook.setSetting("theme", value, writing()));
    REQUIRE(logbook.importRecords(lent(notes("icu-2", 3)), "in.jsonl", writing()));
    REQUIRE(bytesOf(folder / "log").find(value) != std::string::npos);
    REQUIRE(logbook.backup(folder / "copy"));
    checkRestores(folder / "copy", logbook);
    const Logbook copy = open(folder / "copy");
    CHECK(copy.settings().value().empty());
    CHECK(copy.imports().value().empty());
    CHECK(bytesOf(folder / "copy").find(value) == std::string::npos);
    CHECK(logbook.settings().value().at("theme") == value);
    CHECK(logbook.imports().value().size() == 1);
}

TEST_CASE("A logbook opened to read can be backed up", "[unit]") {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 5));
    }
    const Logbook logbook = open(folder / "log", OpenOptions::Access::Read);
    REQUIRE(logbook.backup(folder / "copy"));
    CHECK(open(folder / "copy").count() == 5);
    checkRestores(folder / "copy", logbook);
}

TEST_CASE("A backup writes over nothing", "[unit]") {
    const TemporaryFolder folder;
    const Logbook logbook = create(folder / "log");
    writeBytes(folder / "letter", "Dear Rowan");
    const auto result = logbook.backup(folder / "letter");
    REQUIRE_FALSE(result);
    CHECK(result.error().code == Code::Exists);
    CHECK(result.error().path == folder / "letter");
    CHECK(bytesOf(folder / "letter") == "Dear Rowan");
    CHECK(logbook.backup(folder / "log").error().code == Code::Exists);
    CHECK(logbook.backup(folder / "no/copy").error().code == Code::NotFound);
    CHECK(folder.names() == std::vector<std::string>{"letter", "log"});
}

TEST_CASE("A name taken while the copy was made stays taken", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 5));
    int steps = 0;
    const auto result = logbook.backup(folder / "copy", [&](std::int64_t, std::int64_t) {
        ++steps;
        writeBytes(folder / "copy", "Dear Rowan");
        return true;
    });
    REQUIRE(steps > 0);
    REQUIRE_FALSE(result);
    CHECK(result.error().code == Code::Exists);
    CHECK(bytesOf(folder / "copy") == "Dear Rowan");
    CHECK(folder.names() == std::vector<std::string>{"copy", "log"});

    std::filesystem::remove(folder / "copy");
    const auto stopped =
        logbook.backup(folder / "copy", [](std::int64_t, std::int64_t) { return false; });
    REQUIRE_FALSE(stopped);
    CHECK(stopped.error().code == Code::Cancelled);
    CHECK(folder.names() == std::vector<std::string>{"log"});
}

TEST_CASE("What does not verify is no backup", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 5));
    behindTheBack(folder / "log", true)->exec("UPDATE records SET device = 'x' WHERE seq = 3");
    const auto result = logbook.backup(folder / "copy");
    REQUIRE_FALSE(result);
    CHECK(result.error().code == Code::ChainBroken);
    CHECK(result.error().records == std::vector<logbook::RecordName>{{"icu-1", 3}});
    CHECK(result.error().path == folder / "log");
    CHECK(folder.names() == std::vector<std::string>{"log"});
}

TEST_CASE("A backup clears what a killed one of its name left, and nothing else", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 3));
    // No process has so high a number, and the first always runs.
    const std::vector<std::string> stay{"copy.unfinished-1", "copy.unfinished-999999999x",
                                        "copy.unfinished-", "copy2.unfinished-999999999"};
    for (const auto& name : stay) {
        std::ofstream(folder / name) << "half";
    }
    std::ofstream(folder / "copy.unfinished-999999999") << "half";
    std::ofstream(folder / "copy.unfinished-999999999-journal") << "half";
    REQUIRE(logbook.backup(folder / "copy"));
    auto names = stay;
    names.insert(names.end(), {"copy", "log"});
    std::ranges::sort(names);
    CHECK(folder.names() == names);
    checkRestores(folder / "copy", logbook);
}

// In the middle of it, and while the copy is proved: then it is proved once more.
TEST_CASE("A backup goes on where a write of somebody else is cut off meanwhile", "[fault]") {
    constexpr std::int64_t many = 12;
    std::string bytes, cutOff, journal;
    {
        const TemporaryFolder folder;
        {
            Logbook logbook = create(folder / "log");
            append(logbook, notes("icu-1", many));
        }
        bytes = bytesOf(folder / "log");
        const auto database = behindTheBack(folder / "log");
        database->exec("PRAGMA cache_size = 5; BEGIN IMMEDIATE;"
                       "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n"
                       " WHERE i < 100) INSERT INTO local_settings"
                       " SELECT i, hex(zeroblob(500)) FROM n");
        cutOff = bytesOf(folder / "log");
        journal = bytesOf(folder / "log-journal");
        database->exec("ROLLBACK");
        REQUIRE(cutOff != bytes);
    }
    int made = 0;  // though the write was cut off after the records had been copied
    bool came = true;
    for (int number = 1; came; ++number) {
        INFO("moment " << number);
        const TemporaryFolder folder;
        writeBytes(folder / "log", bytes);
        const auto logbook = open(folder / "log", Access::Write);
        bool isCopied = false;
        const support::StatementMoments moments(number, [&](sqlite3*) {
            isCopied = std::ranges::any_of(folder.names(), [&](const std::string& name) {
                return name.starts_with("copy") && bytesOf(folder / name).size() > 10 * 4096;
            });
            writeBytes(folder / "log-journal", journal);
            std::fstream file(folder / "log", std::ios::in | std::ios::out | std::ios::binary);
            file << cutOff;
        });
        const auto backup = logbook.backup(folder / "copy");
        came = moments.came();
        if (!backup) {
            CHECK(backup.error().code == Code::NeedsRecovery);
            CHECK_FALSE(std::filesystem::exists(folder / "copy"));
            continue;
        }
        made += came && isCopied ? 1 : 0;
        CHECK(open(folder / "copy", Access::Read).verify()->ok());
        CHECK(open(folder / "copy", Access::Read).count() == many);
        CHECK(open(folder / "log").verify()->ok());
        CHECK(open(folder / "log").settings()->empty());
        checkRestores(folder / "copy", open(folder / "log"));
    }
    CHECK(made > 0);
}

TEST_CASE("What the disk of a backup does not give is told as that disk's", "[fault]") {
    int refused = 0;
    for (const int error : {EIO, EREMOTEIO}) {
        bool came = true;
        for (int number = 1; came; ++number) {
            INFO("error " << error << " in moment " << number);
            const TemporaryFolder folder;
            {
                Logbook logbook = create(folder / "log");
                append(logbook, notes("icu-1", 5));
            }
            const auto copy =
                folder / ("copy.unfinished-" + std::to_string(system::processNumber()));
            std::optional<BadSectors> bad;
            support::StatementMoments moments(number, [&](sqlite3*) {
                if (std::filesystem::exists(copy)) bad.emplace(copy, BadPlace{.error = error});
            });
            const auto logbook = open(folder / "log", Access::Read);
            const auto made = logbook.backup(folder / "copy");
            came = moments.came();
            if (made) {
                CHECK((!bad || bad->met() == 0));
                bad.reset();
                checkRestores(folder / "copy", logbook);
                continue;
            }
            ++refused;
            CHECK(made.error().code == Code::Io);
            CHECK(made.error().path == folder / "copy");
            bad.reset();
            CHECK(logbook.verify()->ok());
        }
    }
    CHECK(refused > 4);
}
