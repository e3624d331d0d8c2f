// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which file stands at a name: what a link leads to, and what others put there, move or take away
// while it is being worked on.
#include "logbook_files.h"
#include "store/restore.h"
#include "store/stray_log.h"

#include <catch2/catch.hpp>
#include <sys/stat.h>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Code = Trouble::Code;
using Path = std::filesystem::path;

namespace {

// "real/log" with three records, and "link", which leads to it.
Path linkIn(const TemporaryFolder& folder) {
    std::filesystem::create_directory(folder / "real");
    Logbook logbook = create(folder / "real/log");
    append(logbook, notes("icu-1", 3));
    std::filesystem::create_symlink(folder / "real/log", folder / "link");
    return folder / "link";
}

// "log" with 8 records of icu-1, whose first page is gone, so that it is no database any more, and
// "backup" with the first 5 of them.
void fillBroken(const TemporaryFolder& folder) {
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 5));
        REQUIRE(logbook.backup(folder / "backup"));
        append(logbook, notes("icu-1", 8));
    }
    auto bytes = bytesOf(folder / "log");
    writeBytes(folder / "log", bytes.replace(0, 4096, std::string(4096, '\0')));
}

}  // namespace

// Of another file, which the database would take for pages of this one.
TEST_CASE("A log that is none of the logbook's is found beside what a link leads to", "[fault]") {
    const TemporaryFolder folder;
    const auto link = linkIn(folder);
    {
        Logbook other = create(folder / "other");
        append(other, notes("icu-2", 5));
        const auto database = behindTheBack(folder / "other");
        database->exec("PRAGMA journal_mode = WAL");
        database->exec("INSERT INTO local_settings VALUES ('a', 'b')");
        std::filesystem::copy(folder / "other-wal", folder / "real/log-wal");
    }
    const auto before = bytesOf(folder / "real/log");
    for (const auto access : {Access::Read, Access::Write}) {
        const auto logbook = Logbook::open(link, {access, false, 100});
        REQUIRE_FALSE(logbook);
        CHECK(logbook.error().text == strayLog);
    }
    CHECK(bytesOf(folder / "real/log") == before);
}

TEST_CASE("A pipe beside what a link leads to keeps nobody waiting", "[fault]") {
    const TemporaryFolder folder;
    const auto link = linkIn(folder);
    REQUIRE(::mkfifo((folder / "real/log-journal").c_str(), 0600) == 0);
    for (const auto access : {Access::Read, Access::Write}) {
        const auto logbook = Logbook::open(link, {access});
        REQUIRE_FALSE(logbook);
        CHECK(logbook.error().code == Code::Io);
    }
}

TEST_CASE("What was opened by a link is written, wherever the link leads by then", "[fault]") {
    const TemporaryFolder folder;
    const auto link = linkIn(folder);
    {
        Logbook other = create(folder / "other");
        append(other, notes("icu-1", 3));
    }
    const auto before = bytesOf(folder / "other");
    Logbook logbook = open(link);
    std::filesystem::remove(link);
    std::filesystem::create_symlink(folder / "other", link);
    CHECK(append(logbook, {note("icu-1", 4)}).added == 1);
    CHECK(bytesOf(folder / "other") == before);
    CHECK(open(folder / "real/log").count() == 4);
}

TEST_CASE("A restore by a linked folder tells of the place, not of its copy", "[unit]") {
    const TemporaryFolder folder;
    fillBroken(folder);
    std::filesystem::create_directory_symlink(folder.path(), folder / "desk");
    const auto result =
        restore(folder / "backup", {folder / "desk/log", "ICU 1"}, writing(0));
    REQUIRE_FALSE(result);
    CHECK(result.error().code == Code::BadStation);
    CHECK(result.error().path == folder / "desk/log");
}
