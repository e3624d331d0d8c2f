// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The disk may fail at any call of any use of a logbook, and the power may go there: what was
// confirmed is there, what was not is there whole or not at all, and verify agrees.
#include "faulty_state.h"
#include "restored.h"
#include "swept.h"

#include "../logbook_files.h"
#include "store/logbook.h"
#include "store/salvage.h"

#include <catch2/catch.hpp>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Path = std::filesystem::path;

namespace {

// With a backup of the logbook beside it.
Files withCopy(Files files) {
    const TemporaryFolder folder;
    writeBytes(folder / ward, keptFiles().at(ward));
    REQUIRE(open(folder / ward, Access::Read).backup(folder / copy));
    files[copy] = bytesOf(folder / copy);
    return files;
}

// On a file system that gives and takes names one by one.
struct WithoutExchange {
    WithoutExchange() { exchangesNames() = false; }
    ~WithoutExchange() { exchangesNames() = true; }
    WithoutExchange(const WithoutExchange&) = delete;
    WithoutExchange& operator=(const WithoutExchange&) = delete;
};

// On one that does not rename without replacing, but gives second names.
struct BySecondName {
    explicit BySecondName(bool is) { renamesSafely() = !is; }
    ~BySecondName() { renamesSafely() = true; }
    BySecondName(const BySecondName&) = delete;
    BySecondName& operator=(const BySecondName&) = delete;
};

std::string titleOf(const std::string& use, bool bySecondName) {
    return use + (bySecondName ? " by a second name" : "");
}

}  // namespace

TEST_CASE("The disk may fail at any call of opening", "[fault]") {
    for (const Access access : {Access::Read, Access::Write}) {
        const auto run = [&](const Path& folder) {
            return troubleIn(Logbook::open(folder / ward, {access}));
        };
        const auto check = [](const Path& folder, const Outcome&) {
            checkHolds(folder / ward, kept());
            checkGoesOn(folder, kept());
        };
        const std::string title = access == Access::Read ? "open to read" : "open to write";
        const auto tally = sweep({title, keptFiles(), run, check});
        CHECK(tally.runs.at(Failure::Io) > 5);
        const auto undone = sweep({title + " after a write cut off", cutOffFiles(), run, check});
        CHECK(undone.fired.at(Failure::Io).at(Call::Write) > 5);
        CHECK(undone.fired.at(Failure::PowerCut).at(Call::Delete) >= 3);
    }
}

TEST_CASE("The disk may fail at any call of making a logbook", "[fault]") {
    for (const bool bySecondName : {false, true}) {
        const BySecondName given(bySecondName);
        const auto tally = sweep(
            {titleOf("make", bySecondName), {},
             [](const Path& folder) {
                 return troubleIn(Logbook::open(folder / ward, {Access::Create}));
             },
             [](const Path& folder, const Outcome& outcome) {
                 forgetUnfinished(folder, outcome);
                 checkNames(folder, {ward});
                 const bool there = std::filesystem::exists(folder / ward);
                 CHECK((there || !outcome.confirmed()));
                 CHECK((there ? open(folder / ward) : create(folder / ward)).verify()->ok());
                 checkGoesOn(folder, 0);
             }});
        CHECK(tally.fired.at(Failure::Full).at(Call::Make) > 0);
        CHECK(tally.fired.at(Failure::PowerCut).at(Call::Move) > 0);
    }
}

TEST_CASE("The disk may fail at any call of an append", "[fault]") {
    int unconfirmed = 0;
    const auto tally = sweep(
        {"append", keptFiles(),
         [](const Path& folder) -> std::optional<Trouble> {
             auto logbook = Logbook::open(folder / ward, {Access::Write});
             if (!logbook) {
                 return logbook.error();
             }
             const auto result = logbook->append(notes("icu-1", kept() + brought()), writing());
             return result ? std::nullopt : std::optional(result.error());
         },
         [&](const Path& folder, const Outcome& outcome) {
             const auto count = countIn(folder / ward, outcome);
             checkHolds(folder / ward, count);
             checkGoesOn(folder, count);
             const bool isUnconfirmed =
                 outcome.told && outcome.told->code == Trouble::Code::WriteNotConfirmed;
             unconfirmed += isUnconfirmed && count > kept() ? 1 : 0;
         }});
    CHECK(unconfirmed > 1);  // the folder was not flushed, or the lock not given back
    CHECK(tally.fired.at(Failure::Full).at(Call::Make) > 0);  // of the journal
    for (const Call call : {Call::Read, Call::Write, Call::Sync, Call::Delete, Call::Lock}) {
        CHECK(tally.fired.at(Failure::Io).at(call) > 1);
        CHECK(tally.fired.at(Failure::PowerCut).at(call) > 2);
    }
}

TEST_CASE("The disk may fail at any call of an import", "[fault]") {
    sweep({"import", keptFiles(),
           [](const Path& folder) -> std::optional<Trouble> {
               auto logbook = Logbook::open(folder / ward, {Access::Write});
               if (!logbook) {
                   return logbook.error();
               }
               const auto result = logbook->importRecords(lent(notes("icu-1", kept() + brought())),
                                                          "in.jsonl", writing());
               return result ? std::nullopt : std::optional(result.error());
           },
           [](const Path& folder, const Outcome& outcome) {
               const auto count = countIn(folder / ward, outcome);
               checkHolds(folder / ward, count);
               CHECK(open(folder / ward).imports()->size() == (count > kept() ? 1U : 0U));
               checkGoesOn(folder, count);
           }});
}

TEST_CASE("The disk may fail at any call of a backup", "[fault]") {
    for (const bool bySecondName : {false, true}) {
        const BySecondName given(bySecondName);
        int unconfirmed = 0;
        const auto tally = sweep(
            {titleOf("backup", bySecondName), keptFiles(),
             [](const Path& folder) -> std::optional<Trouble> {
                 auto logbook = Logbook::open(folder / ward, {Access::Read});
                 if (!logbook) {
                     return logbook.error();
                 }
                 const auto result = logbook->backup(folder / copy);
                 return result ? std::nullopt : std::optional(result.error());
             },
             [&](const Path& folder, const Outcome& outcome) {
                 forgetUnfinished(folder, outcome);
                 checkNames(folder, {ward, copy});
                 checkHolds(folder / ward, kept());
                 const bool there = std::filesystem::exists(folder / copy);
                 CHECK((there || !outcome.confirmed()));
                 if (there) {
                     checkHolds(folder / copy, kept());
                     checkRestores(folder / copy, kept());
                 }
                 if (outcome.told && outcome.powerHeld()) {
                     CHECK(there == (outcome.told->code == Trouble::Code::NotConfirmed));
                     unconfirmed += there ? 1 : 0;
                 }
                 checkTakes(folder / ward, kept());
                 checkNames(folder, {ward, copy});
             }});
        CHECK(unconfirmed > 0);
        CHECK(tally.fired.at(Failure::PowerCut).at(Call::Move) > 0);
    }
}

TEST_CASE("The disk may fail at any call of a restore", "[fault]") {
    const Files files = withCopy(keptFiles());
    std::map<Trouble::Code, int> told;
    const auto tally = sweep(
        {"restore", files, restoreCopy, [&](const Path& folder, const Outcome& outcome) {
             forgetUnfinished(folder, outcome);
             checkNames(folder, {ward, copy, aside});
             CHECK(bytesOf(folder / copy) == files.at(copy));
             CHECK(std::filesystem::exists(folder / ward));  // at every moment
             CHECK(bytesOf(folder / standing(folder)) == files.at(ward));
             checkRestored(folder, outcome);
             checkNoCopyLeft(folder, outcome);
             checkTakes(folder / ward, kept());
             checkNames(folder, {ward, copy, aside});
             if (outcome.told) {
                 ++told[outcome.told->code];
             }
         }});
    CHECK(told[Trouble::Code::LeftAside] == 0);
    CHECK(told[Trouble::Code::NotConfirmed] > 0);
    CHECK(tally.fired.at(Failure::PowerCut).at(Call::Move) > 5);
}

TEST_CASE("The disk may fail at any call of a restore over a write cut off", "[fault]") {
    const Files files = withCopy(cutOffFiles());
    const std::string journal = "-journal";
    std::map<Trouble::Code, int> told;
    const WithoutExchange without;
    sweep({"restore over a write cut off", files, restoreCopy,
           [&](const Path& folder, const Outcome& outcome) {
               forgetUnfinished(folder, outcome);
               checkNames(folder, {ward, copy, aside, ward + journal, aside + journal,
                                   ward + journal + ".left-over"});
               CHECK(bytesOf(folder / copy) == files.at(copy));
               checkRestored(folder, outcome);
               checkNoCopyLeft(folder, outcome);
               checkHolds(folder / standing(folder), kept());
               if (std::filesystem::exists(folder / ward)) {
                   checkTakes(folder / ward, kept());
               }
               checkNames(folder, {ward, copy, aside, ward + journal, aside + journal,
                                   ward + journal + ".left-over"});
               if (outcome.told) {
                   ++told[outcome.told->code];
               }
           }});
    CHECK(told[Trouble::Code::LeftAside] > 0);
    CHECK(told[Trouble::Code::NotConfirmed] > 0);
}

// It is no database any more, so that nothing undoes what was cut off before it is put aside.
TEST_CASE("The disk may fail at any call of a restore over a damaged write cut off", "[fault]") {
    Files files = withCopy(cutOffFiles());
    const std::string journal = "-journal";
    files[ward].replace(0, 100, 100, '\0');
    files[ward + journal].front() = '\0';
    std::map<Trouble::Code, int> told;
    sweep({"restore over a damaged write cut off", files, restoreCopy,
           [&](const Path& folder, const Outcome& outcome) {
               forgetUnfinished(folder, outcome);
               checkNames(folder, {ward, copy, aside, ward + journal, aside + journal,
                                   ward + journal + ".left-over"});
               const auto left = filesOf(folder);
               // Wherever it stands, its journal stands beside it.
               const auto stands = left.contains(aside) ? aside : std::string(ward);
               REQUIRE(left.contains(stands));
               CHECK(left.at(stands) == files.at(ward));
               REQUIRE(left.contains(stands + journal));
               CHECK(left.at(stands + journal) == files.at(ward + journal));
               if (stands == aside && left.contains(ward)) {
                   checkIsBackup(folder / ward);
                   checkTakes(folder / ward, kept());
               }
               CHECK((!outcome.confirmed() || (stands == aside && left.contains(ward))));
               if (outcome.told) {
                   ++told[outcome.told->code];
               }
           }});
    CHECK(told[Trouble::Code::LeftAside] > 0);
}

TEST_CASE("The disk may fail at any call of salvaging", "[fault]") {
    for (const bool bySecondName : {false, true}) {
        const BySecondName given(bySecondName);
        sweep({titleOf("salvage", bySecondName), keptFiles(),
               [](const Path& folder) -> std::optional<Trouble> {
                   const auto result = salvage(folder / ward, folder / copy, minute(0));
                   return result ? std::nullopt : std::optional(result.error());
               },
               [](const Path& folder, const Outcome& outcome) {
                   forgetUnfinished(folder, outcome);
                   checkNames(folder, {ward, copy});
                   checkHolds(folder / ward, kept());
                   const bool there = std::filesystem::exists(folder / copy);
                   CHECK((there || !outcome.confirmed()));
                   if (outcome.told && outcome.powerHeld()) {
                       CHECK(there == (outcome.told->code == Trouble::Code::NotConfirmed));
                       CHECK(outcome.told->code != Trouble::Code::WriteNotConfirmed);
                   }
                   if (there) {
                       checkHolds(folder / copy, kept());
                       checkTakes(folder / copy, kept());
                   }
                   checkTakes(folder / ward, kept());
                   checkNames(folder, {ward, copy});
               }});
    }
}
