// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What stands beside a logbook, or tells what may, and the disk does not give it: the journal by
// which a write that was cut off is undone is told as that, and nothing is lost.
#include "bad_sectors.h"
#include "logbook_files.h"
#include "store/restore.h"
#include "store/stray_log.h"

#include <catch2/catch.hpp>
#include <cerrno>
#include <functional>
#include <string>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Code = Trouble::Code;

namespace {

constexpr int all = 40;

// In the middle of a write: much of it is in the file, and its journal stands beside it.
struct CutOff {
    std::string bytes, journal, backup;
};

const CutOff& cutOff() {
    static const CutOff made = [] {
        CutOff cut;
        const TemporaryFolder folder;
        {
            Logbook logbook = create(folder / "log");
            append(logbook, notes("icu-1", all));
            REQUIRE(logbook.setSetting("long", std::string(20'000, 'x'), writing()));
            REQUIRE(logbook.backup(folder / "copy"));
        }
        const auto database = behindTheBack(folder / "log");
        database->exec("PRAGMA cache_size = 5; BEGIN IMMEDIATE;"
                       "UPDATE local_settings SET value = hex(zeroblob(10000))");
        database->exec(
            "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 99)"
            " INSERT INTO local_settings SELECT i, hex(zeroblob(500)) FROM n");
        cut = {bytesOf(folder / "log"), bytesOf(folder / "log-journal"),
               bytesOf(folder / "copy")};
        database->exec("ROLLBACK");
        return cut;
    }();
    REQUIRE(made.journal.size() > 2 * 4096);
    return made;
}

struct Told {
    int error = 0;
    std::string words;
};

// The database takes one of these for a damaged page, and tells the other.
std::vector<Told> errors() {
    return {{EIO, "Input/output error"}, {EREMOTEIO, "Remote I/O error"}};
}

// With the whole journal, its beginning, and a page in it that the disk does not give.
void forEachPlace(const std::function<void(const std::filesystem::path&, const BadPlace&,
                                           const Told&)>& run) {
    for (const auto& told : errors()) {
        for (const auto& place : {BadPlace{}, BadPlace{0, 512}, BadPlace{4096, 4096}}) {
            INFO(told.words << " from byte " << place.from << " of the journal on");
            const TemporaryFolder folder;
            writeBytes(folder / "log", cutOff().bytes);
            writeBytes(folder / "log-journal", cutOff().journal);
            writeBytes(folder / "copy", cutOff().backup);
            run(folder / "log", {place.from, place.size, told.error}, told);
        }
    }
}

std::filesystem::path journalOf(std::filesystem::path path) {
    path += "-journal";
    return path;
}

void checkNothingLost(const std::filesystem::path& path, bool hasSettings = true) {
    const auto logbook = open(path);
    CHECK(logbook.verify()->ok());
    CHECK(logbook.count() == all);
    CHECK((!hasSettings || logbook.settings()->at("long") == std::string(20'000, 'x')));
}

void checkTold(const Trouble& trouble, const std::filesystem::path& path, const Told& told) {
    CHECK(trouble.code == Code::NeedsRecovery);
    CHECK(trouble.isUnread);
    CHECK(trouble.path == path);
    CHECK(trouble.text == told.words);
}

}  // namespace

TEST_CASE("A journal that the disk does not give is told as that, not as damage", "[fault]") {
    forEachPlace([&](const auto& path, const BadPlace& place, const Told& told) {
        for (const auto access : {Access::Read, Access::Write}) {
            const BadSectors bad(journalOf(path), place);
            const auto opened = Logbook::open(path, {access});
            REQUIRE_FALSE(opened);
            checkTold(opened.error(), path, told);
        }
        CHECK(bytesOf(journalOf(path)) == cutOff().journal);
        checkNothingLost(path);
    });
}

TEST_CASE("An open logbook tells of a journal that the disk does not give", "[fault]") {
    forEachPlace([&](const auto& path, const BadPlace& place, const Told& told) {
        std::filesystem::rename(journalOf(path), path.parent_path() / "kept");
        writeBytes(path, cutOff().backup);
        auto logbook = open(path);
        REQUIRE(logbook.setStation("icu-2", writing()));
        auto read = open(path, Access::Read);
        REQUIRE(read.count() == all);
        writeBytes(path, cutOff().bytes);
        std::filesystem::rename(path.parent_path() / "kept", journalOf(path));
        {
            const BadSectors bad(journalOf(path), place);
            for (const auto* each : {&logbook, &read}) {
                const auto counted = each->count();
                REQUIRE_FALSE(counted);
                checkTold(counted.error(), path, told);
            }
            const auto set = logbook.setSetting("a", "b", writing());
            REQUIRE_FALSE(set);
            checkTold(set.error(), path, told);
        }
        CHECK(logbook.count() == all);
        checkNothingLost(path);
    });
}

TEST_CASE("A journal that is given when it is asked for again is played back", "[fault]") {
    forEachPlace([&](const auto& path, BadPlace place, const Told&) {
        place.times = 1;
        {
            const BadSectors bad(journalOf(path), place);
            CHECK(open(path, Access::Read).count() == all);
            CHECK(bad.met() == 1);
        }
        checkNothingLost(path);
    });
}

TEST_CASE("A backup is restored where the disk does not give the journal", "[fault]") {
    forEachPlace([&](const auto& path, const BadPlace& place, const Told&) {
        const auto restored = [&] {
            const BadSectors bad(journalOf(path), place);
            return restore(path.parent_path() / "copy", {path, "icu-9"}, writing(0));
        }();
        INFO((restored ? "" : restored.error().text));
        REQUIRE(restored);
        CHECK(restored->isAtLeast);
        CHECK_FALSE(std::filesystem::exists(journalOf(path)));
        CHECK(open(path).station() == "icu-9");
        checkNothingLost(path, false);
        REQUIRE(restored->aside);
        CHECK(restored->asideJournal == journalOf(*restored->aside));
        CHECK(bytesOf(journalOf(*restored->aside)) == cutOff().journal);
        checkNothingLost(*restored->aside);
    });
}

TEST_CASE("A journal that is not given is not taken for one that stands there", "[fault]") {
    forEachPlace([&](const auto& path, const BadPlace& place, const Told&) {
        const auto there = path.parent_path() / "log.before-20260302T140000Z-journal";
        writeBytes(there, cutOff().journal.substr(0, 600));
        {
            const BadSectors bad(journalOf(path), place);
            const auto restored = restore(path.parent_path() / "copy", {path, "icu-9"},
                                          writing(0));
            REQUIRE_FALSE(restored);
            CHECK(restored.error().code == Code::Exists);
        }
        CHECK(bytesOf(there).size() == 600);
        CHECK(bytesOf(journalOf(path)) == cutOff().journal);
        checkNothingLost(path);
    });
}

TEST_CASE("Whether a log is of the file beside it is asked for twice", "[fault]") {
    for (const auto& told : errors()) {
        INFO(told.words);
        const TemporaryFolder folder;
        writeBytes(folder / "log", cutOff().backup);
        writeBytes(folder / "log-wal", std::string(100, 'x'));
        {
            const BadSectors bad(folder / "log", {0, 512, told.error, 1});
            const auto opened = Logbook::open(folder / "log", {Access::Read});
            REQUIRE_FALSE(opened);
            CHECK(opened.error().text == strayLog);
        }
        const BadSectors bad(folder / "log", {0, 512, told.error});
        const auto opened = Logbook::open(folder / "log", {Access::Read});
        REQUIRE_FALSE(opened);
        CHECK(opened.error().code == Code::Damaged);
        CHECK(opened.error().isUnread);
        CHECK(opened.error().text == told.words);
    }
}
