// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Disks that do not keep what they are given, or a name, and shares that know no flush of a folder.
#include "swept.h"

#include "../logbook_files.h"
#include "station/system.h"

#include <catch2/catch.hpp>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Code = Trouble::Code;

namespace {

void lay(const TemporaryFolder& folder) {
    for (const auto& [name, bytes] : keptFiles()) {
        writeBytes(folder / name, bytes);
    }
}

}  // namespace

TEST_CASE("A copy that its disk does not keep is no backup, and the logbook is not blamed",
          "[fault]") {
    const TemporaryFolder folder;
    lay(folder);
    FaultyDisk disk(folder.path(), {});
    disk.whenFlushed([&](const std::filesystem::path& path) {
        if (path.filename().string().starts_with(copy)) {
            auto bytes = bytesOf(path);
            bytes.replace(bytes.rfind("seen"), 4, "Seen");
            writeBytes(path, bytes);
        }
    });
    const auto result = open(folder / ward, Access::Read).backup(folder / copy);
    REQUIRE_FALSE(result);
    CHECK(result.error().code == Code::Io);
    CHECK(result.error().path == folder / copy);
    CHECK(folder.names() == std::vector<std::string>{ward});
    checkHolds(folder / ward, kept());
}

TEST_CASE("Where the names of a folder cannot be waited for a backup is made all the same",
          "[fault]") {
    const TemporaryFolder folder;
    lay(folder);
    FaultyDisk disk(folder.path(), {});
    disk.flushNoFolders();
    const auto result = open(folder / ward, Access::Read).backup(folder / copy);
    REQUIRE(result);
    CHECK(result->bytes == std::filesystem::file_size(folder / copy));
    checkHolds(folder / copy, kept());
    checkRestores(folder / copy, kept());
}

TEST_CASE("Where the names of a folder cannot be waited for an entry is kept all the same",
          "[fault]") {
    const TemporaryFolder folder;
    lay(folder);
    FaultyDisk disk(folder.path(), {});
    disk.flushNoFolders();
    Logbook logbook = open(folder / ward);
    append(logbook, notes("icu-1", kept() + brought()));
    checkHolds(folder / ward, kept() + brought());
}

// The commit stands by then: told as not recorded it would be entered twice.
TEST_CASE("An entry whose commit the disk does not confirm is told as one that may be there",
          "[fault]") {
    bool isSeen = false;
    for (int call = 1; !isSeen; ++call) {
        INFO("call " << call);
        REQUIRE(call < 200);
        const TemporaryFolder folder;
        lay(folder);
        Logbook logbook = open(folder / ward);
        const FaultyDisk disk(folder.path(), {Failure::Io, call});
        const auto result = logbook.append(notes("icu-1", kept() + 1), writing());
        isSeen = !result && result.error().code == Code::WriteNotConfirmed &&
                 disk.fired() == Call::Sync;
        if (isSeen) {
            CHECK(result.error().path == folder / ward);
            checkHolds(folder / ward, kept() + 1);
        }
    }
}

TEST_CASE("The name of a new folder is on the disk before it is said to be there", "[fault]") {
    const TemporaryFolder folder;
    FaultyDisk disk(folder.path(), {});
    std::vector<std::filesystem::path> flushed;
    disk.whenFlushed([&](const std::filesystem::path& path) { flushed.push_back(path); });
    REQUIRE(station::system::makeFolder(folder / "ward.logbook.backups"));
    CHECK(flushed == std::vector{std::filesystem::canonical(folder.path())});
    disk.flushNoFolders();
    CHECK(station::system::makeFolder(folder / "on-a-share"));
}

TEST_CASE("A folder whose name the disk does not keep is made anew the next time", "[fault]") {
    const TemporaryFolder folder;
    const FaultyDisk disk(folder.path(), {Failure::Io, 1});
    CHECK_FALSE(station::system::makeFolder(folder / "backups"));
    CHECK(disk.fired() == Call::Sync);
    CHECK(folder.names().empty());
    CHECK(station::system::makeFolder(folder / "backups"));
    CHECK(folder.names() == std::vector<std::string>{"backups"});
}

TEST_CASE("A file whose name the disk does not keep is not told as written", "[fault]") {
    int syncs = 0;
    for (int call = 1, fired = 1; fired != 0; ++call) {
        INFO("call " << call);
        const TemporaryFolder folder;
        const FaultyDisk disk(folder.path(), {Failure::Io, call});
        const auto written = station::system::writeNewFile(folder / "note", "pressed");
        if (disk.fired() == Call::Sync) {
            ++syncs;
            REQUIRE_FALSE(written);
            CHECK(written.error() == station::system::FileTrouble::Io);
            CHECK(folder.names().empty());
        }
        fired = disk.fired() ? 1 : 0;
    }
    CHECK(syncs == 2);
}
