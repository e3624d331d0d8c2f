// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A logbook of an older schema: refused with nothing changed until it is brought up to date, which
// goes whole or not at all wherever the disk fails, and never without a backup. Each is restored.
#include "store/migration.h"

#include "../logbook_files.h"
#include "schema_zero.h"
#include "store/restore.h"
#include "store/schema.h"
#include "swept.h"

#include <catch2/catch.hpp>
#include <set>
#include <string>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Code = Trouble::Code;
using Path = std::filesystem::path;

namespace {

int schemaAt(const Path& path) {
    return behindTheBack(path)->execAndGet("PRAGMA user_version").getInt();
}

// A ward as a program before the first would have left it.
Files olderFiles() {
    const TemporaryFolder folder;
    writeBytes(folder / ward, keptFiles().at(ward));
    behindTheBack(folder / ward)
        ->exec("DROP INDEX records_by_device; DROP TABLE local_badges; PRAGMA user_version = 0");
    return filesOf(folder.path());
}

// Brought up to date, since only then it can be. Of the same bytes once: the same comes of them.
void checkOlderRestores(const Path& backup) {
    CHECK(schemaAt(backup) == 0);
    static std::set<std::string> restored;
    if (!restored.insert(bytesOf(backup)).second) {
        return;
    }
    const TemporaryFolder other;
    std::filesystem::copy_file(backup, other / copy);
    REQUIRE(migrate(other / copy, {other / "before"}, writing()));
    REQUIRE(restore(other / copy, {other / ward, "icu-1b"}, writing(0)));
    checkHolds(other / ward, kept());
}

// As `folder` has it after a migration, whole or not; the backup too, which is restored.
void checkMigrated(const Path& folder, const Outcome& outcome) {
    const SchemaZero known;
    forgetUnfinished(folder, outcome);
    checkStands(schemaAt(folder / ward) == schemaVersion, outcome);
    const bool isThere = std::filesystem::exists(folder / copy);
    CHECK((isThere || schemaAt(folder / ward) == 0));
    if (isThere) {
        checkOlderRestores(folder / copy);
    }
    if (schemaAt(folder / ward) == 0) {
        REQUIRE(migrate(folder / ward, {folder / "again.logbook"}, writing()));
        checkOlderRestores(folder / "again.logbook");
        std::filesystem::remove(folder / "again.logbook");
    }
    checkHolds(folder / ward, kept());
    {
        Logbook logbook = open(folder / ward);
        CHECK(logbook.station()->value() == "icu-1");
        append(logbook, {note("icu-1", kept() + 1)});
    }
    checkNames(folder, {ward, copy});
}

}  // namespace

TEST_CASE("A logbook of an older schema is refused as it is until it is brought up to date",
          "[unit]") {
    const TemporaryFolder folder;
    const Files files = olderFiles();
    writeBytes(folder / ward, files.at(ward));
    for (const Access access : {Access::Read, Access::Write}) {
        CHECK(Logbook::open(folder / ward, {access}).error().code == Code::NotALogbook);
        const SchemaZero known;
        const auto refused = Logbook::open(folder / ward, {access});
        REQUIRE_FALSE(refused);
        CHECK(refused.error().code == Code::OtherSchema);
        CHECK(refused.error().schemaFound == 0);
        CHECK(refused.error().schemaKnown == schemaVersion);
    }
    CHECK(bytesOf(folder / ward) == files.at(ward));
    const SchemaZero known;
    const auto migrated = migrate(folder / ward, {folder / copy}, writing());
    REQUIRE(migrated);
    REQUIRE(*migrated);
    CHECK((*migrated)->from == 0);
    CHECK((*migrated)->backup.path == folder / copy);
    checkMigrated(folder.path(), {});
    const auto again = migrate(folder / ward, {folder / "no"}, writing());
    REQUIRE(again);
    CHECK_FALSE(*again);
    CHECK(folder.names() == std::vector<std::string>{copy, ward});
}

TEST_CASE("Without a backup nothing is brought up to date", "[unit]") {
    const TemporaryFolder folder;
    const Files files = olderFiles();
    const SchemaZero known;
    writeBytes(folder / ward, files.at(ward));
    writeBytes(folder / copy, "somebody's");
    CHECK(migrate(folder / ward, {folder / copy}, writing()).error().code == Code::Exists);
    CHECK(migrate(folder / ward, {folder / "no" / copy}, writing()).error().code ==
          Code::NotFound);
    tamper(folder / ward, "UPDATE records SET content = replace(content, 'seen', 'Seen')"
                          " WHERE seq = 3");
    const auto tampered = bytesOf(folder / ward);
    CHECK(migrate(folder / ward, {folder / "new"}, writing()).error().code == Code::ChainBroken);
    CHECK(bytesOf(folder / ward) == tampered);
    CHECK(folder.names() == std::vector<std::string>{copy, ward});
}

TEST_CASE("The disk may fail at any call of bringing a logbook up to date", "[fault]") {
    const auto tally = sweep(
        {"migrate", olderFiles(),
         [](const Path& folder) -> std::optional<Trouble> {
             const SchemaZero known;
             const auto done = migrate(folder / ward, {folder / copy}, writing());
             return done ? std::nullopt : std::optional(done.error());
         },
         checkMigrated});
    CHECK(tally.fired.at(Failure::PowerCut).at(Call::Move) > 0);
    CHECK(tally.fired.at(Failure::PowerCut).at(Call::Write) > 20);
}
