// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The program beside others and where it may not write: two at once, a lock held by another, a
// read-only file or folder, a disk with no room left. What a person is told, word for word where
// it matters.
#include "running.h"

#include "store/logbook.h"
#include "store/operating_system.h"

#include <catch2/catch.hpp>
#include <fcntl.h>
#include <fstream>
#include <iostream>
#include <sched.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace program;
using store::Logbook;
using Access = store::OpenOptions::Access;

namespace {

bool says(const Said& said, std::string_view text) {
    return said.out.find(text) != std::string::npos;
}

std::int64_t countIn(const std::filesystem::path& path) {
    const auto logbook = Logbook::open(path, {Access::Read});
    REQUIRE(logbook);
    CHECK(logbook->verify()->ok());
    return logbook->count().value();
}

// As countIn, for a child, whose checks nobody counts: -1 if it does not verify.
std::int64_t soundCountIn(const std::filesystem::path& path) {
    const auto logbook = Logbook::open(path, {Access::Read});
    if (!logbook) {
        return -1;
    }
    const auto report = logbook->verify();
    return report && report->ok() ? logbook->count().value_or(-1) : -1;
}

void writeText(const char* path, const std::string& text) {
    const int file = ::open(path, O_WRONLY | O_CLOEXEC);
    (void)!::write(file, text.data(), text.size());
    ::close(file);
}

// A small file system there, which only this process and its children see. Whether it may be.
bool mountSmall(const std::filesystem::path& folder, const char* size) {
    const auto user = std::to_string(::geteuid());
    const auto group = std::to_string(::getegid());
    const int wanted = ::geteuid() == 0 ? CLONE_NEWNS : CLONE_NEWNS | CLONE_NEWUSER;
    if (::unshare(wanted) != 0) {
        return false;
    }
    if ((wanted & CLONE_NEWUSER) != 0) {
        writeText("/proc/self/setgroups", "deny");
        writeText("/proc/self/uid_map", "0 " + user + " 1");
        writeText("/proc/self/gid_map", "0 " + group + " 1");
    }
    return ::mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) == 0 &&
           ::mount("none", folder.c_str(), "tmpfs", 0, size) == 0;
}

constexpr int notAllowed = 77;
constexpr std::uintmax_t roomLeft = 64 * 1024;

// Fills the small disk with entries until one is refused; 0 if all is as it has to be.
int fillDisk(const Ward& ward) {
    const auto disk = ward.folder.file("disk");
    std::filesystem::create_directory(disk);
    if (!mountSmall(disk, "size=2m")) {
        return notAllowed;
    }
    std::filesystem::copy_file(ward.logbook(), disk / "ward.logbook");
    const auto ballast = std::filesystem::space(disk).available - roomLeft;
    std::ofstream(disk / "ballast", std::ios::binary) << std::string(ballast, 'x');
    std::int64_t before = soundCountIn(disk / "ward.logbook");
    Said last;
    for (int tries = 0; tries < 200; ++tries) {
        last = said(disk, Ward::logFault());
        if (last.status != 0) {
            break;
        }
        ++before;
    }
    if (last.status != 3 || !says(last, "The disk is full.") ||
        !says(last, "Everything confirmed so far is safe, as it was; nothing new was saved.") ||
        !says(last, "Free some space on the disk")) {
        std::cerr << last.status << " " << last.out;
        return 1;
    }
    // With no room at all it is verified all the same, and why that is not noted is told.
    std::ofstream(disk / "rest", std::ios::binary)
        << std::string(std::filesystem::space(disk).available, 'x');
    const auto verified = said(disk, {"verify", "ward.logbook"});
    if (verified.status != 0 ||
        !says(verified, "The disk is full, so that it was verified is not noted")) {
        std::cerr << verified.status << " " << verified.out;
        return 4;
    }
    // Nothing is lost, the board is still told, and with room again it goes on.
    if (soundCountIn(disk / "ward.logbook") != before ||
        said(disk, {"board", "ward.logbook"}).status != 0 ||
        !std::filesystem::remove(disk / "ballast")) {
        return 2;
    }
    return said(disk, Ward::logFault()).status == 0 &&
                   soundCountIn(disk / "ward.logbook") == before + 1
               ? 0
               : 3;
}

}  // namespace

TEST_CASE("Two programs that record at once both keep what they told", "[fault]") {
    constexpr int rounds = 8;
    const Ward ward;
    const auto before = countIn(ward.logbook());
    for (int round = 0; round < rounds; ++round) {
        Running one(ward.folder.path(), Ward::logFault());
        Running two(ward.folder.path(), Ward::logFault());
        const auto first = one.said();
        const auto second = two.said();
        INFO(first.out << second.out);
        CHECK(first.status == 0);
        CHECK(second.status == 0);
        CHECK(first.out.substr(0, first.out.find(',')) !=
              second.out.substr(0, second.out.find(',')));
    }
    CHECK(countIn(ward.logbook()) == before + 2 * rounds);
}

TEST_CASE("Who finds the lock held is told by whom, where and since when", "[fault]") {
    const Ward ward;
    auto holding = Logbook::open(ward.logbook(), {Access::Write});
    REQUIRE(holding);
    Said refused, board;
    REQUIRE(holding->appendOwn(
        [&](const logbook::RecordName&) {
            refused = ward.ran(Ward::logFault());
            board = ward.ran({"board", "ward.logbook"});
            return std::vector<logbook::Record>{};
        },
        {"m.toller", {1772460000000}}));
    INFO(refused.out);
    CHECK(refused.status == 3);
    CHECK(refused.took.count() >= 5'000'000);
    CHECK(says(refused, "m.toller on " + store::system::computerName() +
                            " has been writing to the logbook since 2026-03-02"));
    CHECK(says(refused, "Nothing is lost; nothing new was saved yet."));
    CHECK(says(refused, "Wait a moment and try again."));
    CHECK(board.status == 0);
    CHECK(ward.ran(Ward::logFault()).status == 0);
}

TEST_CASE("A read-only file or folder is told, and still read", "[fault]") {
    using std::filesystem::perms;
    const Ward ward;
    const auto before = countIn(ward.logbook());
    std::filesystem::permissions(ward.logbook(), perms::owner_read | perms::others_read);
    for (const auto& folderMode : {perms::owner_all | perms::others_all,
                                   perms::owner_read | perms::owner_exec | perms::others_read |
                                       perms::others_exec}) {
        std::filesystem::permissions(ward.folder.path(), folderMode);
        const auto refused = ward.ran(Ward::logFault(), becomeNobody);
        INFO(refused.out);
        CHECK(refused.status == 3);
        CHECK(says(refused, "cannot be written: the file or its folder is read-only."));
        CHECK(says(refused, "Everything recorded is safe; nothing new was saved."));
        CHECK(says(refused, "Ask for the right to write there"));
        CHECK(ward.ran({"board", "ward.logbook"}, becomeNobody).status == 0);
        CHECK(ward.ran({"verify", "ward.logbook"}, becomeNobody).status == 0);
    }
    for (const auto& call : {std::vector<std::string>{"backup", "ward.logbook", "copy.logbook"},
                             {"export", "ward.logbook", "--to", "ward.jsonl"}}) {
        CHECK(ward.ran(call, becomeNobody).status == 3);
    }
    std::filesystem::permissions(ward.folder.path(), perms::owner_all);
    CHECK(countIn(ward.logbook()) == before);
}

TEST_CASE("A disk that is full loses nothing and is told", "[fault]") {
    const Ward ward;
    const pid_t child = ::fork();
    if (child == 0) {
        ::_exit(fillDisk(ward));
    }
    int status = -1;
    ::waitpid(child, &status, 0);
    REQUIRE(WIFEXITED(status));
    if (WEXITSTATUS(status) == notAllowed) {
        WARN("no file system may be mounted here: only the disk that the tests make fail is full");
        return;
    }
    CHECK(WEXITSTATUS(status) == 0);
}

TEST_CASE("A file that may grow no further ends no program, and is told", "[fault]") {
    const Ward ward;
    const auto size = std::filesystem::file_size(ward.logbook());
    const auto limited = [&] {
        const rlimit limit{size, size};
        if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) {
            ::_exit(125);
        }
    };
    auto before = countIn(ward.logbook());
    auto last = ward.ran(Ward::logFault(), limited);
    for (int tries = 1; last.status == 0 && tries < 200; ++tries) {
        ++before;
        last = ward.ran(Ward::logFault(), limited);
    }
    INFO(last.out);
    CHECK(last.status == 3);
    CHECK(says(last, "The disk is full."));
    CHECK(says(last, "Everything confirmed so far is safe, as it was; nothing new was saved."));
    CHECK(countIn(ward.logbook()) == before);
    CHECK(ward.ran(Ward::logFault()).status == 0);
    CHECK(countIn(ward.logbook()) == before + 1);
}
