// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What lies beside a logbook under the name of its journal and is not what a write into it that was
// cut off has left: it is neither played back, written over nor deleted, and what it names is not
// either. What is such a write is undone, and where a logbook is only looked at, in a copy.
#include "store/foreign_journal.h"

#include "journals.h"
#include "logbook_files.h"
#include "store/left_alone.h"
#include "store/raw_pages.h"
#include "store/restore.h"
#include "store/salvage.h"

#include <catch2/catch.hpp>

#include <vector>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Code = Trouble::Code;
using Path = std::filesystem::path;
using Names = std::vector<std::string>;

namespace {

// That journal without the size of a page: it is that of the database then.
std::string withoutPageSize(std::string journal) {
    return journal.replace(24, 4, 4, '\0');
}

// That it ends in that name: who plays it back deletes the file.
std::string naming(const Path& file) {
    const auto name = file.string();
    std::size_t sum = 0;
    for (const char letter : name) {
        sum += static_cast<unsigned char>(letter);
    }
    return number(0x40000000 / pageSize + 1) + name + number(name.size()) + number(sum) +
           std::string(journalMagic);
}

// "log" after each of three writes.
struct States {
    std::string first, second, last;
};

States states(const TemporaryFolder& folder) {
    States made;
    Logbook logbook = create(folder / "log");
    REQUIRE(logbook.setStation("icu-1", writing()));
    append(logbook, notes("icu-1", 20));
    made.first = bytesOf(folder / "log");
    append(logbook, notes("icu-1", 21));
    made.second = bytesOf(folder / "log");
    append(logbook, notes("icu-1", 30));
    made.last = bytesOf(folder / "log");
    return made;
}

// Neither by looking nor by writing, restoring or being restored over.
void checkRefused(const TemporaryFolder& folder, std::string_view text) {
    const auto file = bytesOf(folder / "log");
    const auto beside = bytesOf(folder / "log-journal");
    const auto checkAsItWas = [&](const tl::expected<void, Trouble>& done) {
        REQUIRE_FALSE(done);
        CHECK(done.error().code == Code::Io);
        CHECK(done.error().path == folder / "log");
        CHECK(done.error().text == text);
        CHECK((bytesOf(folder / "log") == file));
        CHECK((bytesOf(folder / "log-journal") == beside));
    };
    const auto nothing = [](const auto&) {};
    checkAsItWas(Logbook::open(folder / "log", {Access::Read}).map(nothing));
    checkAsItWas(Logbook::open(folder / "log", {Access::Write}).map(nothing));
    checkAsItWas(restore(folder / "backup", {folder / "log", "icu-9"}, writing(0)).map(nothing));
    checkAsItWas(restore(folder / "log", {folder / "new", "icu-9"}, writing(0)).map(nothing));
    checkAsItWas(LeftAlone::open(folder / "log", folder / "log").map(nothing));
    REQUIRE(salvage(folder / "log", folder / "new", minute(2000)));
    CHECK((bytesOf(folder / "log") == file));
    CHECK((bytesOf(folder / "log-journal") == beside));
    std::filesystem::remove(folder / "new");
}

void keepBackup(const TemporaryFolder& folder) {
    const Logbook logbook = open(folder / "log", Access::Read);
    REQUIRE(logbook.backup(folder / "backup"));
    checkRestores(folder / "backup", logbook);
}

}  // namespace

TEST_CASE("A journal that names a file has nothing deleted", "[unit]") {
    const TemporaryFolder folder;
    const auto made = states(folder);
    keepBackup(folder);
    writeBytes(folder / "mine", "precious");
    const auto undone = journalBetween(made.first, made.second);
    writeBytes(folder / "log", made.second);
    // Whatever it begins with.
    for (const auto& beginning : {undone, std::string(512, 'x'), std::string(512, '\x80')}) {
        writeBytes(folder / "log-journal", beginning + naming(folder / "mine"));
        checkRefused(folder, journalNamesFile);
        CHECK(bytesOf(folder / "mine") == "precious");
    }
}

TEST_CASE("What is no journal, or is another file as well, is not written over", "[unit]") {
    const TemporaryFolder folder;
    const auto made = states(folder);
    keepBackup(folder);
    for (const auto& bytes : {std::string("a shopping list"), std::string(1000, 'x'),
                              std::string("\0precious", 9), made.first}) {
        writeBytes(folder / "log-journal", bytes);
        checkRefused(folder, journalIsNone);
    }
    std::filesystem::remove(folder / "log-journal");
    writeBytes(folder / "mine", std::string(600, '\0'));
    std::filesystem::create_hard_link(folder / "mine", folder / "log-journal");
    checkRefused(folder, journalHasTwoNames);
    CHECK(bytesOf(folder / "mine") == std::string(600, '\0'));
}

TEST_CASE("A link that is laid where the journal of an open logbook belongs is left", "[unit]") {
    for (const auto& bytes : {std::string("precious"), std::string(600, '\0')}) {
        const TemporaryFolder folder;
        (void)states(folder);
        const auto file = bytesOf(folder / "log");
        writeBytes(folder / "mine", bytes);
        Logbook logbook = open(folder / "log");
        std::filesystem::create_symlink(folder / "mine", folder / "log-journal");
        const auto refused = logbook.append(notes("icu-1", 31), writing());
        REQUIRE_FALSE(refused);
        CHECK(refused.error().code == Code::Io);
        CHECK(refused.error().text == journalIsNoPlainFile);
        CHECK((bytesOf(folder / "mine") == bytes));
        CHECK(std::filesystem::is_symlink(folder / "log-journal"));
        CHECK((bytesOf(folder / "log") == file));
        std::filesystem::remove(folder / "log-journal");
        append(logbook, notes("icu-1", 31));
        CHECK(logbook.count() == 31);
    }
}

TEST_CASE("A journal of another time undoes nothing", "[unit]") {
    const TemporaryFolder folder;
    const auto made = states(folder);
    keepBackup(folder);
    const auto whole = made.last.size() / pageSize;
    auto other = pageOf(made.last, 1);
    other[24] = static_cast<char>(other[24] + 1);  // of what is counted at each write
    const auto earlier = journalBetween(made.first, made.second);
    for (const auto& bytes : {earlier, withoutPageSize(earlier),
                              journal(2, {{1, pageOf(made.first, 1)}}), journal(whole - 1, {}),
                              journal(0, {}), journal(whole, {{1, std::string(pageSize, '\0')}}),
                              journal(whole, {{1, other}})}) {
        writeBytes(folder / "log-journal", bytes);
        checkRefused(folder, journalOfOtherTime);
    }
    std::filesystem::remove(folder / "log-journal");
    CHECK(open(folder / "log").count() == 30);
}

TEST_CASE("What a write that was cut off has left is undone, however little of it", "[fault]") {
    const TemporaryFolder folder;
    const auto made = states(folder);
    const auto undone = journalBetween(made.first, made.second);
    auto garbage = undone;
    for (std::size_t place = 0; place < 512; ++place) {
        garbage[place] = static_cast<char>(place * 7 + 130);
    }
    auto zeroed = undone;
    zeroed.replace(0, 28, std::string(28, '\0'));
    const std::vector<std::pair<std::string, std::int64_t>> left = {
        {undone, 20},                     // all of it
        {withoutPageSize(undone), 20},
        {undone.substr(0, 512), 21},      // no page yet
        {undone.substr(0, 11), 21},       // less than its beginning
        {std::string(28, '\0'), 21},      // nor that
        {"", 21},
        {zeroed, 21},
        {garbage, 21}};
    for (const auto& [bytes, count] : left) {
        INFO(bytes.size() << " bytes");
        for (const auto access : {Access::Read, Access::Write}) {
            const bool isCut = count == 20;
            writeBytes(folder / "log", isCut ? made.second : made.first);
            writeBytes(folder / "log-journal", bytes);
            Logbook logbook = open(folder / "log", access);
            CHECK(logbook.count() == 20);
            CHECK(logbook.verify()->ok());
            if (access == Access::Write) {
                append(logbook, notes("icu-1", 22));
                CHECK(folder.names() == Names{"log"});
            }
        }
    }
    // Beside both names of what a restore was about to put aside.
    writeBytes(folder / "log", made.second);
    writeBytes(folder / "log-journal", undone);
    std::filesystem::create_hard_link(folder / "log-journal",
                                      folder / "log.before-20260302T140000Z-journal");
    CHECK(open(folder / "log").count() == 20);
}

TEST_CASE("A logbook that is looked at is left as it is, and so is its journal", "[fault]") {
    const TemporaryFolder folder;
    const auto made = states(folder);
    const auto undone = journalBetween(made.first, made.second);
    writeBytes(folder / "log", made.second);
    writeBytes(folder / "log-journal", undone);
    {
        const auto looked = LeftAlone::open(folder / "log", folder / "log");
        REQUIRE(looked);
        CHECK(looked->logbook().count() == 20);
        CHECK(looked->told(looked->logbook().findRecord({"icu-1", 21}).error()).path ==
              folder / "log");
    }
    const auto restored = restore(folder / "log", {folder / "new", "icu-9"}, writing(0));
    REQUIRE(restored);
    CHECK(restored->heads.at("icu-1").seq == 20);
    CHECK((bytesOf(folder / "log") == made.second));
    CHECK((bytesOf(folder / "log-journal") == undone));
    CHECK(folder.names() == Names{"log", "log-journal", "new"});
}

TEST_CASE("Salvage takes what is proven with the journal and without it", "[fault]") {
    const TemporaryFolder folder;
    const auto made = states(folder);
    const auto undone = journalBetween(made.first, made.second);
    const auto salvaged = [&](const std::string& file, const std::string& beside) {
        writeBytes(folder / "log", file);
        writeBytes(folder / "log-journal", beside);
        std::filesystem::remove(folder / "new");
        const auto result = salvage(folder / "log", folder / "new", minute(2000));
        REQUIRE(result);
        CHECK((bytesOf(folder / "log") == file));
        CHECK((bytesOf(folder / "log-journal") == beside));
        return *result;
    };
    // Of another time: what came since stands in the file.
    const auto newer = salvaged(made.last, undone);
    CHECK(newer.records == 30);
    CHECK(newer.unproven.empty());
    CHECK(newer.undone == 10);
    // One that would cut the file to nothing.
    CHECK(salvaged(made.last, journal(1, {})).records == 30);
    // The pages that were being written are torn: they stand in the journal as they were.
    auto torn = made.second;
    for (std::size_t page = 1; page <= made.first.size() / pageSize; ++page) {
        if (pageOf(made.first, page) != pageOf(made.second, page)) {
            torn.replace((page - 1) * pageSize, pageSize, pageSize, '\0');
        }
    }
    const auto before = salvaged(torn, undone);
    CHECK(before.records == 20);
    CHECK(before.undone == 0);
    CHECK(before.unproven.empty());
    CHECK(salvaged(torn, "").records < 20);
}

TEST_CASE("A journal of pages beyond all counting is gone through in no time", "[fault]") {
    constexpr std::size_t far = 4'000'000'000;
    const TemporaryFolder folder;
    const auto made = states(folder);
    const auto last = made.last.rfind(R"("seq":30,)") / pageSize + 1;
    const auto page = pageOf(made.last, last);
    REQUIRE(page.front() == '\x0D');
    auto lacking = made.last;
    writeBytes(folder / "log",
               lacking.replace((last - 1) * pageSize, pageSize, pageSize, '\0'));
    writeBytes(folder / "log-journal", journal(far, {{1, pageOf(made.last, 1)}, {far, page}}));
    {
        const JournalFile beside(folder / "log");
        const Pages pages(folder / "log", pageSize, lacking.size(), &beside);
        REQUIRE(pages.count() == lacking.size() / pageSize + 1);
    }
    const auto result = salvage(folder / "log", folder / "new", minute(2000));
    REQUIRE(result);
    CHECK(result->records == 30);
}

TEST_CASE("Salvage names what the last verify had found", "[unit]") {
    const TemporaryFolder folder;
    (void)states(folder);
    {
        Logbook logbook = open(folder / "log");
        REQUIRE(logbook.noteVerified(*logbook.verify(), writing()));
    }
    tamper(folder / "log",
           "PRAGMA secure_delete = ON; DELETE FROM records WHERE seq > 20;"
           "UPDATE local_heads SET seq = 20, hash = (SELECT hash FROM records WHERE seq = 20)");
    const auto result = salvage(folder / "log", folder / "new", minute(2000));
    REQUIRE(result);
    CHECK(result->records == 20);
    CHECK(result->unproven ==
          std::vector<Unproven>{{{"icu-1", 21}, Break::Reason::TailLost, 30, 0}});
}

TEST_CASE("A restore over an empty file leaves nothing but that", "[unit]") {
    for (const std::string bytes : {"", "x"}) {
        const TemporaryFolder folder;
        (void)states(folder);
        keepBackup(folder);
        writeBytes(folder / "log", bytes);
        const auto restored = restore(folder / "backup", {folder / "log", "icu-9"}, writing(0));
        REQUIRE(restored);
        REQUIRE(restored->aside);
        CHECK_FALSE(restored->asideJournal);
        CHECK(bytesOf(*restored->aside) == bytes);
        CHECK(folder.names() == Names{"backup", "log", "log.before-20260302T140000Z"});
    }
}
