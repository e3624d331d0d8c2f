// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The folders of the sweeps; see swept.h.
#include "swept.h"

#include "../logbook_files.h"
#include "store/restore.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

namespace store::test {

using Access = OpenOptions::Access;
using Path = std::filesystem::path;

std::int64_t kept() {
    return isFullSweep() ? 60 : 5;
}
std::int64_t brought() {
    return isFullSweep() ? 40 : 3;
}

Files keptFiles() {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / ward);
        REQUIRE(logbook.setStation("icu-1", writing()));
        append(logbook, notes("icu-1", kept()));
    }
    return filesOf(folder.path());
}

Files cutOffFiles() {
    const TemporaryFolder folder;
    writeBytes(folder / ward, keptFiles().at(ward));
    const auto database = behindTheBack(folder / ward);
    database->exec("PRAGMA cache_size = 5; BEGIN IMMEDIATE");
    database->exec("WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n WHERE i < 100)"
                   " INSERT INTO local_settings SELECT i, hex(zeroblob(500)) FROM n");
    Files files = filesOf(folder.path());
    database->exec("ROLLBACK");
    REQUIRE(files.size() == 2);
    return files;
}

std::optional<Trouble> troubleIn(const tl::expected<Logbook, Trouble>& opened) {
    return opened ? std::nullopt : std::optional(opened.error());
}

void checkHolds(const Path& path, std::int64_t count) {
    const Logbook logbook = open(path);
    const auto report = logbook.verify();
    REQUIRE(report);
    CHECK(report->ok());
    const auto read = contents(logbook);
    REQUIRE(read.size() == static_cast<std::size_t>(count));
    for (std::size_t i = 0; i < read.size(); ++i) {
        CHECK(read[i] == note("icu-1", static_cast<std::int64_t>(i) + 1).content);
    }
    CHECK(logbook.settings()->empty());
}

std::int64_t countIn(const Path& path, const Outcome& outcome) {
    const auto count = open(path, Access::Read).count();
    REQUIRE(count);
    const bool areThere = *count == kept() + brought();
    CHECK((areThere || *count == kept()));
    checkStands(areThere, outcome);
    return *count;
}

void checkStands(bool isThere, const Outcome& outcome) {
    if (outcome.confirmed()) {
        CHECK(isThere);
    } else if (outcome.powerHeld() && outcome.told->code != Trouble::Code::WriteNotConfirmed) {
        CHECK_FALSE(isThere);
    } else if (outcome.powerHeld() && !outcome.fault.forGood) {
        CHECK(isThere);  // a disk that gives nothing any more lets nobody look
    }
}

void checkNames(const Path& folder, const std::vector<std::string>& names) {
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        const std::string name = entry.path().filename();
        INFO(name);
        CHECK(std::count(names.begin(), names.end(), name) == 1);
    }
}

void checkRestores(const Path& backup, std::int64_t count) {
    static std::set<std::string> restored;
    if (!restored.insert(bytesOf(backup) + std::to_string(count)).second) {
        return;
    }
    const TemporaryFolder other;
    REQUIRE(restore(backup, {other / ward, "icu-1b"}, writing(0)));
    CHECK(other.names() == std::vector<std::string>{ward});
    checkHolds(other / ward, count);
    CHECK(open(other / ward).station()->value() == "icu-1b");
}

void checkTakes(const Path& path, std::int64_t count) {
    Logbook logbook = open(path);
    append(logbook, {note("icu-1", count + 1)});
    CHECK(logbook.count() == count + 1);
    CHECK(logbook.verify()->ok());
}

void checkGoesOn(const Path& folder, std::int64_t count) {
    checkTakes(folder / ward, count);
    checkNames(folder, {ward});
}

void forgetUnfinished(const Path& folder, const Outcome& outcome) {
    if (outcome.powerHeld()) {
        return;
    }
    for (const auto& [name, bytes] : filesOf(folder)) {
        if (name.find(".unfinished-") != std::string::npos) {
            std::filesystem::remove(folder / name);
        }
    }
}

}  // namespace store::test
