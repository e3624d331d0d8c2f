// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The disk may fail, and the power go, at any call while a ward gets its first PIN, a PIN another,
// or a code is used up: each is so whole or not at all, as it was told, and nobody is locked out.
// Times are minutes after startText.
#include "store/credentials.h"

#include "../logbook_files.h"
#include "reached.h"
#include "swept.h"

#include <catch2/catch.hpp>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using Path = std::filesystem::path;

namespace {

constexpr auto pin = "402951";
constexpr auto nextPin = "731905";
constexpr auto code = "CODE-1";
constexpr auto nextCode = "CODE-2";

Now at(std::int64_t atMinute) {
    return [atMinute] { return minute(atMinute); };
}

bool opens(const Path& path, std::string_view given, std::int64_t atMinute) {
    const auto trial = Credentials(path).tryPin("mt", given, at(atMinute));
    REQUIRE(trial);
    return trial->outcome == Trial::Outcome::Right;
}

// Which is used up by it.
bool isCode(const Path& path, std::string_view given, std::int64_t atMinute) {
    const auto trial = Credentials(path).recover({"mt", given, "118240", "CODE-3"}, at(atMinute));
    REQUIRE(trial);
    return trial->outcome == Trial::Outcome::Right;
}

Beginning first() {
    return {"mt", pin, code, "icu-1",
            [](const logbook::RecordName&) { return notes("icu-1", brought()); }};
}

// With no station yet.
Files emptyFiles() {
    const TemporaryFolder folder;
    CHECK(create(folder / ward).count() == 0);
    return filesOf(folder.path());
}

// The ward with its notes, in which mt has a PIN and there is a code.
Files begunFiles() {
    const TemporaryFolder folder;
    writeBytes(folder / ward, keptFiles().at(ward));
    const auto begun = Credentials(folder / ward).begin({"mt", pin, code}, writing());
    REQUIRE(begun);
    REQUIRE(*begun);
    return filesOf(folder.path());
}

std::string hashOfPin(const Files& files) {
    const TemporaryFolder folder;
    writeBytes(folder / ward, files.at(ward));
    return behindTheBack(folder / ward)
        ->execAndGet("SELECT hash FROM local_credentials WHERE purpose = 'pin'")
        .getString();
}

}  // namespace

TEST_CASE("The disk may fail at any call of the beginning of a ward", "[fault]") {
    int unconfirmed = 0;
    const auto tally = sweep(
        {"begin", emptyFiles(),
         [](const Path& folder) -> std::optional<Trouble> {
             const auto begun = Credentials(folder / ward).begin(first(), writing());
             if (!begun) {
                 return begun.error();
             }
             REQUIRE(*begun);
             CHECK((*begun)->size() == static_cast<std::size_t>(brought()));
             return std::nullopt;
         },
         [&](const Path& folder, const Outcome& outcome) {
             const Path path = folder / ward;
             const auto count = open(path, Access::Read).count();
             REQUIRE(count);
             CHECK((*count == 0 || *count == brought()));
             const bool isThere = *count > 0;
             checkStands(isThere, outcome);
             unconfirmed += isToldUnconfirmed(outcome) && isThere ? 1 : 0;
             checkHolds(path, *count);
             CHECK(open(path, Access::Read).station()->has_value() == isThere);
             CHECK(Credentials(path).pins()->size() == (isThere ? 1U : 0U));
             // It begins once.
             const auto begun = Credentials(path).begin(first(), writing());
             REQUIRE(begun);
             CHECK(begun->has_value() != isThere);
             CHECK(open(path, Access::Read).station() == "icu-1");
             CHECK(opens(path, pin, 2000));
             CHECK(isCode(path, code, 3000));
             checkHolds(path, brought());
             checkGoesOn(folder, brought());
         }});
    checkReached(tally);
    CHECK(unconfirmed > 0);
}

TEST_CASE("The disk may fail at any call while a PIN is set", "[fault]") {
    int unconfirmed = 0;
    const Files files = begunFiles();
    const std::string before = hashOfPin(files);
    REQUIRE(files.at(ward).find(before) != std::string::npos);
    const auto tally = sweep(
        {"set a PIN", files,
         [](const Path& folder) -> std::optional<Trouble> {
             const auto set = Credentials(folder / ward).setPin("mt", nextPin, writing());
             return set ? std::nullopt : std::optional(set.error());
         },
         [&](const Path& folder, const Outcome& outcome) {
             const Path path = folder / ward;
             if (outcome.confirmed()) {
                 CHECK(bytesOf(path).find(before) == std::string::npos);
             }
             checkHolds(path, kept());
             CHECK(Credentials(path).pins()->size() == 1);
             const bool isThere = opens(path, nextPin, 2000);
             checkStands(isThere, outcome);
             CHECK(opens(path, pin, 3000) != isThere);
             unconfirmed += isToldUnconfirmed(outcome) && isThere ? 1 : 0;
             CHECK(isCode(path, code, 4000));
             checkHolds(path, kept());
             checkGoesOn(folder, kept());
         }});
    checkReached(tally);
    CHECK(unconfirmed > 0);
}

TEST_CASE("The disk may fail at any call while a code is used", "[fault]") {
    int unconfirmed = 0;
    const auto tally = sweep(
        {"use a code", begunFiles(),
         [](const Path& folder) -> std::optional<Trouble> {
             const auto trial =
                 Credentials(folder / ward).recover({"mt", code, nextPin, nextCode}, at(1500));
             if (!trial) {
                 return trial.error();
             }
             CHECK(trial->outcome == Trial::Outcome::Right);
             return std::nullopt;
         },
         [&](const Path& folder, const Outcome& outcome) {
             const Path path = folder / ward;
             checkHolds(path, kept());
             const bool isThere = opens(path, nextPin, 2000);
             checkStands(isThere, outcome);
             CHECK(opens(path, pin, 3000) != isThere);
             unconfirmed += isToldUnconfirmed(outcome) && isThere ? 1 : 0;
             // The code went with it, and the next came.
             CHECK_FALSE(isCode(path, isThere ? code : nextCode, 4000));
             CHECK(isCode(path, isThere ? nextCode : code, 5000));
             checkHolds(path, kept());
             checkGoesOn(folder, kept());
         }});
    checkReached(tally);
    CHECK(unconfirmed > 0);
}
