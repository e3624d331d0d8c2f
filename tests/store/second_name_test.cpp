// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A logbook's file that has a second name: nothing that can wait is written into it, and what is
// written all the same is not undone by a write that was cut off under the other name.
#include "store/second_name.h"

#include "journals.h"
#include "logbook_files.h"
#include "store/foreign_journal.h"

#include <catch2/catch.hpp>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Code = Trouble::Code;

namespace {

// What a write that is cut off before any of its pages is written leaves beside the file.
std::string journalOfNext(const std::string& file) {
    std::vector<std::pair<std::size_t, std::string>> pages;
    for (std::size_t page = 1; page <= file.size() / pageSize; ++page) {
        pages.emplace_back(page, pageOf(file, page));
    }
    return journal(pages.size(), pages);
}

void checkWaits(const tl::expected<void, Trouble>& written) {
    REQUIRE_FALSE(written);
    CHECK(written.error().code == Code::Io);
    CHECK(written.error().text == fileHasTwoNames);
}

}  // namespace

TEST_CASE("Nothing that can wait is written into a file with a second name", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    REQUIRE(logbook.setStation("icu-1", writing()));
    append(logbook, notes("icu-1", 3));
    CHECK_FALSE(hasSecondName(folder / "log"));
    std::filesystem::create_directory(folder / "elsewhere");
    for (const auto* second : {"desk", "elsewhere/log"}) {
        INFO(second);
        std::filesystem::create_hard_link(folder / "log", folder / second);
        // Also where it was opened before.
        checkWaits(logbook.setSetting("place", "Bay 4", writing()));
        Logbook other = open(folder / second);
        checkWaits(other.setSetting("place", "Bay 4", writing()));
        checkWaits(other.importRecords({}, "er-2.jsonl", writing()).map([](const auto&) {}));
        const auto report = other.verify();
        REQUIRE(report);
        CHECK(report->ok());
        checkWaits(other.noteVerified(*report, writing()));
        std::filesystem::remove(folder / second);
        CHECK(logbook.setSetting("place", "Bay 4", writing()));
    }
}

TEST_CASE("A link, or a name that the program left, is no second name", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    std::filesystem::create_hard_link(folder / "log", folder / "desk");
    REQUIRE(hasSecondName(folder / "log"));
    std::filesystem::remove(folder / "desk");
    std::filesystem::create_symlink(folder / "log", folder / "link");
    for (const auto* left : {"log.unfinished-7", "log.before-20260302T140000Z"}) {
        std::filesystem::create_hard_link(folder / "log", folder / left);
        for (const auto* name : {"log", "link", left}) {
            INFO(name);
            CHECK(open(folder / name).setSetting("place", name, writing()));
        }
    }
    std::filesystem::create_hard_link(folder / "log", folder / "desk");
    CHECK(hasSecondName(folder / "link"));
}

TEST_CASE("A write cut off under one name undoes nothing that came under the other", "[fault]") {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", 20));
    }
    std::filesystem::create_hard_link(folder / "log", folder / "desk");
    const auto left = journalOfNext(bytesOf(folder / "log"));
    SECTION("which it leaves as it was where nothing came") {
        writeBytes(folder / "log-journal", left);
        CHECK(open(folder / "log").count() == 20);
        CHECK(open(folder / "desk").verify()->ok());
    }
    SECTION("but is told and kept") {
        writeBytes(folder / "log-journal", left);
        Logbook desk = open(folder / "desk");
        append(desk, notes("icu-1", 21));
        for (const auto access : {Access::Read, Access::Write}) {
            const auto refused = Logbook::open(folder / "log", {access});
            REQUIRE_FALSE(refused);
            CHECK(refused.error().code == Code::Io);
            CHECK(refused.error().text == journalOfOtherTime);
        }
        CHECK((bytesOf(folder / "log-journal") == left));
        CHECK(desk.count() == 21);
        CHECK(desk.verify()->ok());
    }
}
