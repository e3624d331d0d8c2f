// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Opening: what is a logbook, what is refused, and that a refused file stays as it was.
#include "store/logbook.h"

#include "as_nobody.h"
#include "logbook_files.h"
#include "store/operating_system.h"
#include "store/stray_log.h"

#include <catch2/catch.hpp>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Code = Trouble::Code;

namespace {

void checkRefused(const std::filesystem::path& path, Access access, Code code) {
    const std::string before = std::filesystem::is_regular_file(path) ? bytesOf(path) : "";
    const auto logbook = Logbook::open(path, {access});
    REQUIRE_FALSE(logbook);
    CHECK(logbook.error().code == code);
    CHECK(logbook.error().path == path);
    if (std::filesystem::is_regular_file(path)) {
        CHECK(bytesOf(path) == before);
    }
}

void makeReadOnly(const TemporaryFolder& folder) {
    using std::filesystem::perms;
    const perms read = perms::owner_read | perms::group_read | perms::others_read;
    const perms enter = perms::owner_exec | perms::group_exec | perms::others_exec;
    for (const std::string& name : folder.names()) {
        std::filesystem::permissions(folder / name, read);
    }
    std::filesystem::permissions(folder.path(), read | enter);
}

// A logbook at `to` as a power cut in the middle of a write leaves it, with its journal.
void leaveUnfinishedWrite(const std::filesystem::path& from, const std::filesystem::path& to) {
    const auto database = behindTheBack(from);
    database->exec("PRAGMA cache_size = 5; BEGIN IMMEDIATE");
    database->exec("WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 400)"
                   " INSERT INTO local_settings SELECT i, hex(zeroblob(500)) FROM n");
    std::filesystem::copy_file(from, to);
    std::filesystem::copy_file(from.native() + "-journal", to.native() + "-journal");
    database->exec("ROLLBACK");
}

}  // namespace

TEST_CASE("A new logbook is empty, whole and alone in its folder", "[unit]") {
    const TemporaryFolder folder;
    {
        const Logbook logbook = create(folder / "log");
        CHECK(logbook.path() == folder / "log");
        CHECK(logbook.access() == Access::Write);
        CHECK(logbook.count() == 0);
        CHECK(logbook.lastArrival() == 0);
        CHECK(logbook.heads()->empty());
        CHECK(logbook.verify()->ok());
    }
    CHECK(folder.names() == std::vector<std::string>{"log"});
    const auto database = behindTheBack(folder / "log");
    CHECK(database->execAndGet("PRAGMA application_id").getInt() == 0x4169726D);
    CHECK(database->execAndGet("PRAGMA user_version").getInt() == 1);
    CHECK(database->execAndGet("PRAGMA journal_mode").getString() == "delete");
    CHECK(database
              ->execAndGet("SELECT count(*) FROM pragma_table_list"
                           " WHERE schema = 'main' AND NOT strict AND name NOT LIKE 'sqlite%'")
              .getInt() == 0);
}

TEST_CASE("What was written is there after opening anew", "[unit]") {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 3));
    }
    for (const Access access : {Access::Read, Access::Write}) {
        const Logbook logbook = open(folder / "log", access);
        CHECK(logbook.access() == access);
        CHECK(logbook.count() == 3);
    }
    CHECK(folder.names() == std::vector<std::string>{"log"});
}

TEST_CASE("An open logbook can be handed on", "[unit]") {
    const TemporaryFolder folder;
    Logbook first = create(folder / "a");
    append(first, notes("icu-1", 2));
    Logbook second = std::move(first);
    CHECK(second.count() == 2);
    second = create(folder / "b");
    CHECK(second.count() == 0);
}

TEST_CASE("Waiting for the lock takes five seconds unless said otherwise", "[unit]") {
    CHECK(OpenOptions{}.busyTimeoutMs == 5000);
    CHECK(OpenOptions{}.access == Access::Read);
    CHECK_FALSE(OpenOptions{}.trustLocks);
}

TEST_CASE("What is not there is not made by opening", "[unit]") {
    const TemporaryFolder folder;
    checkRefused(folder / "log", Access::Read, Code::NotFound);
    checkRefused(folder / "log", Access::Write, Code::NotFound);
    checkRefused(folder / "no/log", Access::Create, Code::NotFound);
    CHECK(folder.names().empty());
}

TEST_CASE("What is there is not made anew", "[unit]") {
    const TemporaryFolder folder;
    (void)create(folder / "log");
    writeBytes(folder / "letter", "Dear Rowan");
    checkRefused(folder / "log", Access::Create, Code::Exists);
    checkRefused(folder / "letter", Access::Create, Code::Exists);
    checkRefused(folder.path(), Access::Create, Code::Exists);
    std::filesystem::create_symlink(folder / "nothing", folder / "link");
    checkRefused(folder / "link", Access::Create, Code::Exists);
    CHECK(folder.names() == std::vector<std::string>{"letter", "link", "log"});
}

TEST_CASE("A file that is no logbook is refused as it is", "[unit]") {
    const TemporaryFolder folder;
    writeBytes(folder / "letter", "Dear Rowan, the circuits have come. " + std::string(5000, 'x'));
    writeBytes(folder / "short", "SQLite");
    writeBytes(folder / "empty", "");
    SQLite::Database((folder / "other").native(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE)
        .exec("CREATE TABLE records (a); PRAGMA user_version = 1");
    for (const Access access : {Access::Read, Access::Write}) {
        for (const char* name : {"letter", "short", "empty", "other"}) {
            INFO(name);
            checkRefused(folder / name, access, Code::NotALogbook);
        }
        checkRefused(folder.path(), access, Code::NotALogbook);
    }
    CHECK(folder.names() == std::vector<std::string>{"empty", "letter", "other", "short"});
}

TEST_CASE("A newer schema is refused with nothing changed", "[unit]") {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 3));
    }
    behindTheBack(folder / "log")->exec("PRAGMA user_version = 2");
    for (const Access access : {Access::Read, Access::Write}) {
        checkRefused(folder / "log", access, Code::OtherSchema);
        const auto logbook = Logbook::open(folder / "log", {access});
        CHECK(logbook.error().schemaFound == 2);
        CHECK(logbook.error().schemaKnown == 1);
    }
    CHECK(folder.names() == std::vector<std::string>{"log"});
}

TEST_CASE("A file cut short is refused or found out, and left as it is", "[fault]") {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 60));
    }
    const std::string whole = bytesOf(folder / "log");
    for (std::size_t size = 1; size < whole.size(); size += 997) {
        INFO(size << " of " << whole.size());
        const std::string cut = whole.substr(0, size);
        writeBytes(folder / "cut", cut);
        for (const Access access : {Access::Read, Access::Write}) {
            const auto logbook = Logbook::open(folder / "cut", {access});
            if (logbook) {
                CHECK_FALSE(logbook->verify()->ok());
            } else {
                CHECK((logbook.error().code == Code::NotALogbook ||
                       logbook.error().code == Code::Damaged));
            }
        }
        CHECK(bytesOf(folder / "cut") == cut);
    }
}

TEST_CASE("A name that reads like an address is a name", "[unit]") {
    const TemporaryFolder folder;
    const auto before = std::filesystem::current_path();
    std::filesystem::current_path(folder.path());
    const auto logbook = Logbook::open("file:log?mode=memory", {Access::Create});
    std::filesystem::current_path(before);
    REQUIRE(logbook);
    CHECK(folder.names() == std::vector<std::string>{"file:log?mode=memory"});
}

TEST_CASE("A read-only file in a read-only folder is read", "[unit]") {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 3));
    }
    makeReadOnly(folder);
    CHECK(asNobody([&] {
              const auto logbook = Logbook::open(folder / "log", {Access::Read});
              if (!logbook) {
                  return 1;
              }
              const auto records = logbook->records();
              if (!records || records->records.size() != 3) {
                  return 2;
              }
              const auto report = logbook->verify();
              return report && report->ok() ? 0 : 3;
          }) == 0);
    CHECK(asNobody([&] {
              const auto logbook = Logbook::open(folder / "log", {Access::Write});
              return !logbook && logbook.error().code == Code::ReadOnly ? 0 : 1;
          }) == 0);
    CHECK(asNobody([&] {
              const auto logbook = Logbook::open(folder / "new", {Access::Create});
              return !logbook && logbook.error().code == Code::ReadOnly ? 0 : 1;
          }) == 0);
    CHECK(folder.names() == std::vector<std::string>{"log"});
}

TEST_CASE("A file that this user may not read says so", "[unit]") {
    const TemporaryFolder folder;
    (void)create(folder / "log");
    makeReadOnly(folder);
    std::filesystem::permissions(folder / "log", std::filesystem::perms::none);
    CHECK(asNobody([&] {
              const auto logbook = Logbook::open(folder / "log", {Access::Read});
              return !logbook && logbook.error().code == Code::NotPermitted ? 0 : 1;
          }) == 0);
}

TEST_CASE("A write cut off is undone by whoever opens next, a reader too", "[fault]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 3));
    for (const Access access : {Access::Read, Access::Write}) {
        const auto copy = folder / (access == Access::Read ? "read" : "write");
        leaveUnfinishedWrite(folder / "log", copy);
        REQUIRE(bytesOf(copy) != bytesOf(folder / "log"));
        const Logbook recovered = open(copy, access);
        CHECK(recovered.settings()->empty());
        CHECK(contents(recovered) == contents(logbook));
        CHECK(recovered.verify()->ok());
    }
}

TEST_CASE("A write cut off that cannot be undone is told", "[fault]") {
    const TemporaryFolder folder;
    const TemporaryFolder other;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 3));
    leaveUnfinishedWrite(folder / "log", other / "log");
    makeReadOnly(other);
    CHECK(asNobody([&] {
              const auto opened = Logbook::open(other / "log", {Access::Read});
              return !opened && opened.error().code == Code::NeedsRecovery ? 0 : 1;
          }) == 0);
}

// Of another file, which the database would take for pages of this one.
TEST_CASE("A log that is not of the logbook keeps nobody waiting and is not read", "[fault]") {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 3));
        Logbook other = create(folder / "other");
        append(other, notes("icu-2", 5));
        const auto database = behindTheBack(folder / "other");
        database->exec("PRAGMA journal_mode = WAL");
        database->exec("INSERT INTO local_settings VALUES ('a', 'b')");
        std::filesystem::copy(folder / "other-wal", folder / "log-wal");
    }
    const auto refusedAs = [&](Access access) {
        const auto logbook = Logbook::open(folder / "log", {access, false, 100});
        return logbook ? std::string() : logbook.error().text;
    };
    CHECK(refusedAs(Access::Write) == strayLog);
    CHECK(refusedAs(Access::Read) == strayLog);
    writeBytes(folder / "log-wal", "");
    CHECK(refusedAs(Access::Write) == strayLog);
    CHECK(contents(open(folder / "log", Access::Read)).size() == 3);
    std::filesystem::remove(folder / "log-wal");
    std::filesystem::remove(folder / "log-shm");
    Logbook logbook = open(folder / "log");
    CHECK(append(logbook, notes("icu-1", 4)).added == 1);
}

TEST_CASE("A logbook left with another journal by another program is written as before", "[unit]") {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 3));
        behindTheBack(folder / "log")->exec("PRAGMA journal_mode = WAL");
    }
    {
        Logbook logbook = open(folder / "log");
        CHECK(append(logbook, {note("icu-1", 4)}).added == 1);
    }
    CHECK(behindTheBack(folder / "log")->execAndGet("PRAGMA journal_mode").getString() == "delete");
    CHECK_FALSE(std::filesystem::exists(folder / "log-wal"));
    CHECK(open(folder / "log", Access::Read).verify()->ok());
}

TEST_CASE("File systems whose locks cannot be trusted are known", "[reference]") {
    // statfs(2), the list of f_type
    CHECK(system::networkFileSystem(0x6969) == "nfs");
    CHECK(system::networkFileSystem(0xFF534D42) == "cifs");
    CHECK(system::networkFileSystem(0x517B) == "smb");
    CHECK(system::networkFileSystem(0xFE534D42) == "smb");
    CHECK(system::networkFileSystem(0x01021997) == "9p");
    CHECK(system::networkFileSystem(0x65735546) == "fuse");
    CHECK_FALSE(system::networkFileSystem(0xEF53));      // ext4
    CHECK_FALSE(system::networkFileSystem(0x01021994));  // tmpfs
}
