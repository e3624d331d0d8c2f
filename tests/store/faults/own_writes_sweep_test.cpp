// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The disk may fail, and the power go, at any call of what the program of a ward writes: an entry
// of its own, a setting, the note of a verify. Each is there whole or not at all, as it was told.
#include "../logbook_files.h"
#include "reached.h"
#include "store/logbook.h"
#include "swept.h"

#include <catch2/catch.hpp>

#include <map>
#include <optional>
#include <string>
#include <vector>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Path = std::filesystem::path;

namespace {

template <class Write>
std::optional<Trouble> writeInto(const Path& folder, const Write& write) {
    auto logbook = Logbook::open(folder / ward, {Access::Write});
    if (!logbook) {
        return logbook.error();
    }
    const auto done = write(*logbook);
    return done ? std::nullopt : std::optional(done.error());
}

// Of the ward with its notes, after that.
template <class Write>
Files filesAfter(const Write& write) {
    const TemporaryFolder folder;
    writeBytes(folder / ward, keptFiles().at(ward));
    REQUIRE_FALSE(writeInto(folder.path(), write));
    return filesOf(folder.path());
}

VerifyReport reportOf(const Files& files) {
    const TemporaryFolder folder;
    writeBytes(folder / ward, files.at(ward));
    const auto report = open(folder / ward, Access::Read).verify();
    REQUIRE(report);
    REQUIRE(report->ok());
    return *report;
}

}  // namespace

TEST_CASE("The disk may fail at any call while an entry of the station is kept", "[fault]") {
    int unconfirmed = 0;
    const auto build = [](const logbook::RecordName& next) {
        const auto all = notes("icu-1", kept() + brought());
        return std::vector<logbook::Record>(all.begin() + (next.seq - 1), all.end());
    };
    const auto tally = sweep(
        {"append own", keptFiles(),
         [&](const Path& folder) {
             return writeInto(folder, [&](Logbook& logbook) {
                 return logbook.appendOwn(build, writing());
             });
         },
         [&](const Path& folder, const Outcome& outcome) {
             const auto count = countIn(folder / ward, outcome);
             unconfirmed += isToldUnconfirmed(outcome) && count > kept() ? 1 : 0;
             checkHolds(folder / ward, count);
             CHECK(open(folder / ward, Access::Read).station() == "icu-1");
             checkGoesOn(folder, count);
         }});
    checkReached(tally);
    CHECK(unconfirmed > 0);
}

TEST_CASE("The disk may fail at any call while a setting is written", "[fault]") {
    using Settings = std::map<std::string, std::string>;
    const auto to = [](const std::optional<std::string>& value) {
        return [value](Logbook& logbook) { return logbook.setSetting("paper", value, writing()); };
    };
    const Files files = filesAfter(to("a4"));
    for (const auto& value : {std::optional<std::string>("letter"), std::optional<std::string>()}) {
        int unconfirmed = 0;
        const Settings before{{"paper", "a4"}};
        const Settings after = value ? Settings{{"paper", *value}} : Settings{};
        const auto tally = sweep(
            {value ? "write a setting" : "remove a setting", files,
             [&](const Path& folder) { return writeInto(folder, to(value)); },
             [&](const Path& folder, const Outcome& outcome) {
                 const auto settings = open(folder / ward, Access::Read).settings();
                 REQUIRE(settings);
                 CHECK((*settings == before || *settings == after));
                 checkStands(*settings == after, outcome);
                 unconfirmed += isToldUnconfirmed(outcome) && *settings == after ? 1 : 0;
                 // Without it, as the ward was.
                 CHECK_FALSE(writeInto(folder, to(std::nullopt)));
                 checkHolds(folder / ward, kept());
                 checkGoesOn(folder, kept());
             }});
        checkReached(tally);
        CHECK(unconfirmed > 0);
    }
}

TEST_CASE("The disk may fail at any call while a verify is noted", "[fault]") {
    int unconfirmed = 0;
    const Files files = keptFiles();
    const VerifyReport report = reportOf(files);
    const auto tally = sweep(
        {"note a verify", files,
         [&](const Path& folder) {
             return writeInto(folder, [&](Logbook& logbook) {
                 return logbook.noteVerified(report, writing());
             });
         },
         [&](const Path& folder, const Outcome& outcome) {
             const auto noted = open(folder / ward, Access::Read).lastVerification();
             REQUIRE(noted);
             checkStands(noted->has_value(), outcome);
             if (*noted) {
                 CHECK((*noted)->at == writing().at);
                 CHECK((*noted)->ok);
                 CHECK((*noted)->checked == kept());
                 CHECK((*noted)->heads == report.heads);
                 CHECK((*noted)->breaks.empty());
             }
             unconfirmed += isToldUnconfirmed(outcome) && *noted ? 1 : 0;
             checkHolds(folder / ward, kept());
             checkGoesOn(folder, kept());
         }});
    checkReached(tally);
    CHECK(unconfirmed > 0);
}
