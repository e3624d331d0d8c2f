// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Disks that take what they are given and do not keep it, and shares that know no flush of a
// folder; and files and folders of the use cases, which stand there once their names are kept.
#include "swept.h"

#include "../logbook_files.h"
#include "station/file_kind.h"
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
}

TEST_CASE("A folder that is made for backups has its name on the disk", "[fault]") {
    const TemporaryFolder folder;
    FaultyDisk disk(folder.path(), {});
    std::vector<std::filesystem::path> flushed;
    disk.whenFlushed([&](const std::filesystem::path& path) { flushed.push_back(path); });
    REQUIRE(station::system::makeFolder(folder / "backups"));
    CHECK(flushed == std::vector{folder.path()});
    REQUIRE(station::system::makeFolder(folder / "backups"));
    CHECK(flushed.size() == 1);
}

TEST_CASE("What has no name on the disk is not told to stand there", "[fault]") {
    const TemporaryFolder folder;
    {
        const FaultyDisk disk(folder.path(), {Failure::Io, 1});
        CHECK_FALSE(station::system::makeFolder(folder / "backups"));
        CHECK(disk.fired() == Call::Sync);
    }
    {
        // The file, the other name that it had, and then its folder.
        const FaultyDisk disk(folder.path(), {Failure::Io, 3});
        CHECK_FALSE(station::system::writeNewFile(folder / "note", "kept"));
        CHECK(disk.fired() == Call::Sync);
    }
    CHECK(folder.names().empty());
    {
        FaultyDisk disk(folder.path(), {});
        disk.flushNoFolders();
        CHECK(station::system::makeFolder(folder / "backups"));
        CHECK(station::system::writeNewFile(folder / "note", "kept"));
    }
}
