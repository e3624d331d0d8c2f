// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Disks that take what they are given and do not keep it, and shares that know no flush of a
// folder.
#include "swept.h"

#include "../logbook_files.h"

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
