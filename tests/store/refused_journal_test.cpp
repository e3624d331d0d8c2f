// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A file that is refused, beside which the journal of a write that was cut off lies: neither is
// touched. Which file it is says the first page that it will have once that write is undone.
#include "logbook_files.h"
#include "store/foreign_schema.h"
#include "store/left_alone.h"
#include "store/restore.h"

#include <catch2/catch.hpp>

#include <string_view>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Code = Trouble::Code;
using Path = std::filesystem::path;

namespace {

constexpr std::size_t schemaPlace = 63;  // its last byte
constexpr std::size_t pageSize = 4096;

// A copy at `to`, with its journal, as a power cut in the middle of a write leaves both.
void leaveUnfinishedWrite(const Path& from, const Path& to) {
    const auto database = behindTheBack(from);
    database->exec("PRAGMA cache_size = 5; CREATE TABLE IF NOT EXISTS more (a);"
                   "BEGIN IMMEDIATE; WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1"
                   " FROM n WHERE i < 400) INSERT INTO more SELECT hex(zeroblob(500)) FROM n");
    std::filesystem::copy_file(from, to);
    std::filesystem::copy_file(from.native() + "-journal", to.native() + "-journal");
    database->exec("ROLLBACK");
    REQUIRE(bytesOf(to) != bytesOf(from));
}

// A logbook of three records, in which a write of a program that has that schema was cut off.
void leaveOfSchema(const TemporaryFolder& folder, const std::string& schema) {
    {
        Logbook logbook = create(folder / "whole");
        append(logbook, notes("icu-1", 3));
        REQUIRE(logbook.backup(folder / "backup"));
    }
    behindTheBack(folder / "whole")->exec("PRAGMA user_version = " + schema);
    leaveUnfinishedWrite(folder / "whole", folder / "log");
    std::filesystem::remove(folder / "whole");
}

// As the file's own first page says, whatever the journal does.
void setSchema(const Path& path, char schema) {
    auto bytes = bytesOf(path);
    bytes.at(schemaPlace) = schema;
    writeBytes(path, bytes);
}

void checkLeft(const TemporaryFolder& folder, Code code) {
    const auto file = bytesOf(folder / "log");
    const auto journal = bytesOf(folder / "log-journal");
    REQUIRE_FALSE(journal.empty());
    const auto checkAsItWas = [&](const tl::expected<void, Trouble>& done) {
        REQUIRE_FALSE(done);
        CHECK(done.error().code == code);
        CHECK((bytesOf(folder / "log") == file));
        CHECK((bytesOf(folder / "log-journal") == journal));
    };
    const auto nothing = [](const auto&) {};
    const auto names = folder.names();
    for (const Access access : {Access::Read, Access::Write}) {
        checkAsItWas(Logbook::open(folder / "log", {access}).map(nothing));
    }
    const auto schema = refuseSchemaAt(folder / "log");
    REQUIRE(schema);
    checkAsItWas(tl::unexpected<Trouble>(*schema));
    checkAsItWas(LeftAlone::open(folder / "log", folder / "log").map(nothing));
    checkAsItWas(restore(folder / "log", {folder / "new", "icu-9"}, writing(0)).map(nothing));
    CHECK(folder.names() == names);
}

}  // namespace

TEST_CASE("The journal of another program's file is left, and so is the file", "[fault]") {
    const TemporaryFolder folder;
    SQLite::Database((folder / "whole").native(), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE)
        .exec("CREATE TABLE other (a)");
    leaveUnfinishedWrite(folder / "whole", folder / "log");
    checkLeft(folder, Code::NotALogbook);
}

TEST_CASE("The journal of another version's logbook is left, and so is the logbook", "[fault]") {
    const TemporaryFolder folder;
    leaveOfSchema(folder, "9");
    checkLeft(folder, Code::OtherSchema);
    CHECK(Logbook::open(folder / "log", {Access::Read}).error().schemaFound == 9);
    const auto file = bytesOf(folder / "log");
    const auto journal = bytesOf(folder / "log-journal");
    // Both are put aside as they are.
    const auto restored = restore(folder / "backup", {folder / "log", "icu-9"}, writing(0));
    REQUIRE(restored);
    REQUIRE(restored->aside);
    CHECK((bytesOf(*restored->aside) == file));
    CHECK((bytesOf(restored->aside->native() + "-journal") == journal));
    CHECK(open(folder / "log", Access::Read).count() == 3);
}

TEST_CASE("What is undone says which schema it is, not what was being written", "[fault]") {
    const TemporaryFolder folder;
    leaveOfSchema(folder, "9");
    setSchema(folder / "log", '\1');
    checkLeft(folder, Code::OtherSchema);
    // A step to another schema that was cut off, and a first page that stands in the journal alone.
    for (const bool isThere : {true, false}) {
        const TemporaryFolder other;
        leaveOfSchema(other, "1");
        setSchema(other / "log", '\x09');
        if (!isThere) {
            auto bytes = bytesOf(other / "log");
            writeBytes(other / "log", bytes.replace(0, pageSize, pageSize, '\0'));
        }
        CHECK(open(other / "log", Access::Read).count() == 3);
        CHECK_FALSE(std::filesystem::exists(other / "log-journal"));
    }
}
