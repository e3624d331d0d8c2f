// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Which file stands at a name: what a link leads to, and what others put there, move or take away
// while it is being worked on.
#include "logbook_files.h"
#include "store/restore.h"
#include "store/stray_log.h"
#include "support/statement_moments.h"

#include <catch2/catch.hpp>
#include <cerrno>
#include <cstdarg>
#include <fcntl.h>
#include <sqlite3.h>
#include <sys/stat.h>

using namespace store;
using namespace store::test;
using support::StatementMoments;
using Access = OpenOptions::Access;
using Code = Trouble::Code;
using Path = std::filesystem::path;

namespace {

constexpr const char* aside = "log.before-20260302T140000Z";

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

tl::expected<RestoreResult, Trouble> restoreOver(const TemporaryFolder& folder) {
    return restore(folder / "backup", {folder / "log", "icu-1b"}, writing(0));
}

// While it lives the system tells that error where the lock that keeps everyone out of a file is
// asked for.
class NoLocks {
public:
    NoLocks(const Path& file, int error) {
        struct stat status {};
        REQUIRE(::stat(file.c_str(), &status) == 0);
        s_file = status.st_ino;
        s_error = error;
        set(reinterpret_cast<sqlite3_syscall_ptr>(&call));
    }
    ~NoLocks() { set(nullptr); }
    NoLocks(const NoLocks&) = delete;
    NoLocks& operator=(const NoLocks&) = delete;

private:
    static void set(sqlite3_syscall_ptr call) {
        auto* layer = sqlite3_vfs_find(nullptr);
        layer->xSetSystemCall(layer, "fcntl", call);
    }
    static int call(int file, int command, ...) {
        std::va_list arguments;
        va_start(arguments, command);
        auto* argument = va_arg(arguments, void*);
        va_end(arguments);
        struct stat status {};
        if (command == F_SETLK && static_cast<struct flock*>(argument)->l_type == F_WRLCK &&
            ::fstat(file, &status) == 0 && status.st_ino == s_file) {
            errno = s_error;
            return -1;
        }
        return ::fcntl(file, command, argument);
    }
    static inline ino_t s_file = 0;
    static inline int s_error = 0;
};

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

// Of one that cannot be read no connection is open, which would tell that another stands there.
TEST_CASE("What another restore has put there meanwhile is not put aside unseen", "[fault]") {
    int all = 0;
    {
        const TemporaryFolder folder;
        fillBroken(folder);
        const StatementMoments moments(0, {});
        REQUIRE(restoreOver(folder));
        all = moments.seen();
    }
    int moved = 0;
    for (int number = all - 11; number <= all; ++number) {
        INFO("moment " << number << " of " << all);
        const TemporaryFolder folder;
        fillBroken(folder);
        REQUIRE(restore(folder / "backup", {folder / "next", "icu-1c"}, writing(0)));
        REQUIRE(open(folder / "next").append(std::vector{note("icu-1c", 1)}, writing()));
        const StatementMoments moments(number, [&](sqlite3*) {
            std::filesystem::rename(folder / "log", folder / "log.put-aside");
            std::filesystem::rename(folder / "next", folder / "log");
        });
        const auto result = restoreOver(folder);
        REQUIRE(moments.came());
        if (result) {
            CHECK(result->later == 1);
            CHECK_FALSE(result->isAtLeast);
            CHECK(open(folder / aside).count() == 6);
        } else {
            ++moved;
            CHECK(result.error().code == Code::Moved);
            CHECK(open(folder / "log").count() == 6);
        }
    }
    CHECK(moved > 3);
}

TEST_CASE("A restore tells that it could not have the lock, where there are locks", "[fault]") {
    const TemporaryFolder folder;
    fillBroken(folder);
    const auto before = bytesOf(folder / "log");
    {
        const NoLocks none(folder / "log", EIO);
        const auto result = restoreOver(folder);
        REQUIRE_FALSE(result);
        CHECK(result.error().code == Code::Io);
        CHECK(result.error().path == folder / "log");
        CHECK(result.error().text == std::generic_category().message(EIO));
        CHECK(bytesOf(folder / "log") == before);
        CHECK(folder.names() == std::vector<std::string>{"backup", "log"});
    }
    for (const int error : {EOPNOTSUPP, ENOSYS, EINVAL}) {
        const NoLocks none(folder / "log", error);
        REQUIRE(restoreOver(folder));
        CHECK(bytesOf(folder / aside) == before);
        std::filesystem::rename(folder / aside, folder / "log");
    }
}
