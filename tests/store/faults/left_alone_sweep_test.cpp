// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The disk may fail, and the power go, at any call while a file is read beside which the journal of
// a write that was cut off lies: both stay as they are, byte for byte, and the copy that is read in
// their place goes again.
#include "store/left_alone.h"

#include "../logbook_files.h"
#include "restored.h"
#include "swept.h"

#include <catch2/catch.hpp>

#include <map>

using namespace store;
using namespace store::test;
using Path = std::filesystem::path;

namespace {

const std::string copysJournal = std::string(copy) + "-journal";

// A logbook in use, in which somebody's program was ended, under the name of the copy.
Files cutOffCopy() {
    const Files cutOff = cutOffFiles();
    return {{copy, cutOff.at(ward)}, {copysJournal, cutOff.at(std::string(ward) + "-journal")}};
}

void checkLeftAlone(const Path& folder, const Files& files) {
    CHECK(bytesOf(folder / copy) == files.at(copy));
    REQUIRE(std::filesystem::exists(folder / copysJournal));
    CHECK(bytesOf(folder / copysJournal) == files.at(copysJournal));
}

// What verify holds a logbook against when it is given such a file (`--heads`).
std::optional<Trouble> readHeads(const Path& folder, Heads& heads) {
    const auto source = LeftAlone::open(folder / copy, folder / copy);
    if (!source) {
        return source.error();
    }
    const auto read = source->logbook().heads();
    if (!read) {
        return source->told(read.error());
    }
    CHECK_FALSE(source->logbook().metDamage());
    heads = headsOf(*read);
    return std::nullopt;
}

Heads headsKept() {
    const TemporaryFolder folder;
    writeBytes(folder / ward, keptFiles().at(ward));
    return headsOf(open(folder / ward, OpenOptions::Access::Read));
}

}  // namespace

TEST_CASE("The disk may fail at any call of a restore from a file with a write cut off",
          "[fault]") {
    Files files = cutOffCopy();
    files[ward] = keptFiles().at(ward);
    std::map<Trouble::Code, int> told;
    const auto tally = sweep(
        {"restore from a write cut off", files, restoreCopy,
         [&](const Path& folder, const Outcome& outcome) {
             forgetUnfinished(folder, outcome);
             const std::vector<std::string> names{ward, copy, copysJournal, aside};
             checkNames(folder, names);
             checkLeftAlone(folder, files);
             CHECK(std::filesystem::exists(folder / ward));  // at every moment
             CHECK(bytesOf(folder / standing(folder)) == files.at(ward));
             checkRestored(folder, outcome);
             checkNoCopyLeft(folder, outcome);
             checkTakes(folder / ward, kept());
             checkNames(folder, names);
             checkLeftAlone(folder, files);
             if (outcome.told) {
                 ++told[outcome.told->code];
             }
         },
         1});
    CHECK(told[Trouble::Code::LeftAside] == 0);
    CHECK(told[Trouble::Code::NotConfirmed] > 0);
    CHECK(tally.fired.at(Failure::Full).at(Call::Make) > 2);  // of the copy and its journal
    CHECK(tally.fired.at(Failure::PowerCut).at(Call::Delete) > 0);
    CHECK(tally.fired.at(Failure::PowerCut).at(Call::Move) > 0);
}

TEST_CASE("The disk may fail at any call of reading heads from a file with a write cut off",
          "[fault]") {
    const Files files = cutOffCopy();
    const Heads wanted = headsKept();
    REQUIRE(wanted.size() == 1);
    Heads heads;
    const auto tally = sweep(
        {"heads from a write cut off", files,
         [&](const Path& folder) {
             heads.clear();
             return readHeads(folder, heads);
         },
         [&](const Path& folder, const Outcome& outcome) {
             if (outcome.powerHeld()) {
                 checkNames(folder, {copy, copysJournal});
             }
             checkLeftAlone(folder, files);
             CHECK((heads == wanted || (!outcome.confirmed() && heads.empty())));
             // The next that needs such a copy reads the same, and what was left of one goes.
             Heads again;
             CHECK_FALSE(readHeads(folder, again));
             CHECK(again == wanted);
             checkNames(folder, {copy, copysJournal});
             checkLeftAlone(folder, files);
         }});
    CHECK(tally.fired.at(Failure::Full).at(Call::Make) > 2);
    CHECK(tally.fired.at(Failure::Io).at(Call::Write) > 5);
    CHECK(tally.fired.at(Failure::PowerCut).at(Call::Delete) > 2);
}
