// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Salvaging what a power cut in the middle of a write has left: entries that the journal alone
// gives are got out, or it is told that they may be lacking, and why. So it is where the file's
// notes of how far its entries go are gone.
#include "store/salvage.h"

#include "as_nobody.h"
#include "bad_sectors.h"
#include "journals.h"
#include "logbook_files.h"

#include <catch2/catch.hpp>

#include <cerrno>
#include <string>
#include <sys/stat.h>
#include <vector>

using namespace store;
using namespace store::test;
using Why = UnreadJournal::Why;
using Stations = std::vector<std::string>;

namespace {

constexpr std::int64_t confirmed = 20;
constexpr std::size_t behindFirstPage = 512 + 8 + pageSize;  // in a journal

// A logbook before a write, with that cut off: the half of each page that it writes is gone; and
// the journal by which it would be undone.
struct CutOff {
    std::string whole, torn, undone;
};

const CutOff& cutOff() {
    static const CutOff made = [] {
        CutOff cut;
        const TemporaryFolder folder;
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", confirmed));
        cut.whole = bytesOf(folder / "log");
        append(logbook, notes("icu-1", confirmed + 1));
        cut.torn = bytesOf(folder / "log");
        cut.undone = journalBetween(cut.whole, cut.torn);
        for (std::size_t page = 2; page <= cut.whole.size() / pageSize; ++page) {
            if (pageOf(cut.whole, page) != pageOf(cut.torn, page)) {
                cut.torn.replace(page * pageSize - pageSize / 2, pageSize / 2, pageSize / 2, '\0');
            }
        }
        return cut;
    }();
    REQUIRE(made.undone.size() > behindFirstPage + pageSize);
    return made;
}

SalvageResult salvaged(const TemporaryFolder& folder) {
    std::filesystem::remove(folder / "new");
    const auto result = salvage(folder / "log", folder / "new", minute(2000));
    REQUIRE(result);
    return *result;
}

// What the journal alone gives is lacking, and it is told why.
void checkTold(const SalvageResult& result, Why why) {
    CHECK(result.records > 0);
    CHECK(result.records < confirmed);
    CHECK(result.unproven.empty());
    CHECK(result.unnoted == Stations{"icu-1"});
    REQUIRE(result.journal);
    CHECK(result.journal->path.filename() == "log-journal");
    CHECK(result.journal->why == why);
    CHECK(result.journal->text == (why == Why::NotGiven ? "Input/output error" : ""));
}

void checkNothingLacking(const SalvageResult& result) {
    CHECK(result.records == confirmed);
    CHECK(result.unproven.empty());
    CHECK(result.unnoted.empty());
    CHECK_FALSE(result.journal);
}

void zeroPage(const std::filesystem::path& path, const std::string& table) {
    const auto root = behindTheBack(path)
                          ->execAndGet("SELECT rootpage FROM sqlite_schema WHERE name = '" +
                                       table + "'")
                          .getUInt();
    auto bytes = bytesOf(path);
    writeBytes(path, bytes.replace((root - 1) * pageSize, pageSize, pageSize, '\0'));
}

}  // namespace

TEST_CASE("Salvage tells of a journal that the disk does not give, or not whole", "[fault]") {
    const TemporaryFolder folder;
    writeBytes(folder / "log", cutOff().torn);
    writeBytes(folder / "log-journal", cutOff().undone);
    checkNothingLacking(salvaged(folder));
    for (const auto& place : {BadPlace{0, cutOff().undone.size(), EIO}, BadPlace{0, 512, EIO},
                              BadPlace{behindFirstPage + 100, 512, EIO}}) {
        INFO("from byte " << place.from << " on, " << place.size);
        {
            const BadSectors bad(folder / "log-journal", place);
            checkTold(salvaged(folder), Why::NotGiven);
        }
        // What is given when it is asked for again is as whole as any.
        const BadSectors bad(folder / "log-journal", {place.from, place.size, EIO, 1});
        checkNothingLacking(salvaged(folder));
        CHECK(bad.met() == 1);
    }
    CHECK((bytesOf(folder / "log") == cutOff().torn));
    CHECK((bytesOf(folder / "log-journal") == cutOff().undone));
}

TEST_CASE("Salvage tells of a journal that this user may not read", "[unit]") {
    using std::filesystem::perms;
    const TemporaryFolder folder;
    writeBytes(folder / "log", cutOff().torn);
    writeBytes(folder / "log-journal", cutOff().undone);
    std::filesystem::permissions(folder.path(), perms::all);
    std::filesystem::permissions(folder / "log", perms::all);
    std::filesystem::permissions(folder / "log-journal", perms::none);
    CHECK(asNobody([&] {
              const auto result = salvage(folder / "log", folder / "new", minute(2000));
              if (!result || result->records == 0) {
                  return 1;
              }
              return result->journal && result->journal->why == Why::NotPermitted ? 0 : 2;
          }) == 0);
}

TEST_CASE("Salvage tells of what is no plain file where the journal would be", "[unit]") {
    const TemporaryFolder folder;
    const auto beside = folder / "log-journal";
    writeBytes(folder / "log", cutOff().torn);
    writeBytes(folder / "elsewhere", cutOff().undone);
    std::filesystem::create_symlink(folder / "elsewhere", beside);
    checkTold(salvaged(folder), Why::NoPlainFile);
    std::filesystem::remove(beside);
    std::filesystem::create_directory(beside);
    checkTold(salvaged(folder), Why::NoPlainFile);
    std::filesystem::remove(beside);
    REQUIRE(::mkfifo(beside.c_str(), 0600) == 0);
    checkTold(salvaged(folder), Why::NoPlainFile);
    std::filesystem::remove(beside);
    std::filesystem::rename(folder / "elsewhere", beside);
    checkNothingLacking(salvaged(folder));
}

TEST_CASE("Salvage tells of a journal that is none, or is not as it was written", "[fault]") {
    const TemporaryFolder folder;
    writeBytes(folder / "log", cutOff().torn);
    const auto& undone = cutOff().undone;
    const auto told = [&](const std::string& bytes) {
        writeBytes(folder / "log-journal", bytes);
        return salvaged(folder);
    };
    checkTold(told(std::string(512, '\x80') + undone.substr(512)), Why::Strange);
    checkTold(told("Dear Rowan, the circuits have come."), Why::Strange);
    checkTold(told(std::string(undone).replace(20, 4, 4, '\xFF')), Why::Strange);
    checkTold(told(undone.substr(0, behindFirstPage + 600)), Why::Torn);
    auto other = undone;
    other[behindFirstPage + 4 + pageSize - 200] ^= '\1';
    checkTold(told(other), Why::Torn);
}

TEST_CASE("Of a journal that nothing is played back from no salvage tells", "[unit]") {
    const TemporaryFolder folder;
    const auto& undone = cutOff().undone;
    // None; as one is left that was kept when its write was done; and as one stands there that was
    // not on the disk yet when its write was cut off.
    for (const auto& bytes : {std::string(), std::string(600, '\0'),
                              std::string(28, '\0') + undone.substr(28),
                              std::string(12, '\0') + undone.substr(12), undone}) {
        INFO(bytes.size() << " bytes");
        writeBytes(folder / "log", cutOff().whole);
        writeBytes(folder / "log-journal", bytes);
        checkNothingLacking(salvaged(folder));
    }
    std::filesystem::remove(folder / "log-journal");
    checkNothingLacking(salvaged(folder));
}

TEST_CASE("Salvage tells where the notes of how far the entries go are gone", "[fault]") {
    const TemporaryFolder folder;
    writeBytes(folder / "log", cutOff().whole);
    {
        Logbook logbook = open(folder / "log");
        // What a verify has noted is no word on what came after it.
        REQUIRE(logbook.noteVerified(*logbook.verify(), writing()));
        append(logbook, {note("icu-2", 1)});
    }
    CHECK(salvaged(folder).unnoted.empty());
    zeroPage(folder / "log", "local_heads");
    const auto result = salvaged(folder);
    CHECK(result.records == confirmed + 1);
    CHECK(result.unproven.empty());
    CHECK(result.unnoted == Stations{"icu-1", "icu-2"});
    CHECK_FALSE(result.journal);
}
