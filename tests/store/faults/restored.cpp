// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a restore leaves on a disk that fails; see restored.h.
#include "restored.h"

#include "../logbook_files.h"
#include "store/restore.h"
#include "swept.h"

#include <catch2/catch.hpp>

namespace store::test {

using Access = OpenOptions::Access;
using Code = Trouble::Code;
using Path = std::filesystem::path;

namespace {

// What was told is so.
void checkTruth(const Path& folder, const Trouble& told) {
    CHECK((std::filesystem::exists(folder / ward) != (told.code == Code::LeftAside)));
    // Nobody has been told of the copy into which the new station was to be written.
    CHECK(told.code != Code::WriteNotConfirmed);
    if (told.code == Code::LeftAside || told.code == Code::NotConfirmed) {
        CHECK(told.aside == folder / aside);
        CHECK(standing(folder) == aside);
    } else {
        CHECK(standing(folder) == ward);
    }
    if (told.code == Code::NotConfirmed) {
        checkIsBackup(folder / ward);
    }
}

}  // namespace

std::optional<Trouble> restoreCopy(const Path& folder) {
    const auto result = restore(folder / copy, {folder / ward, "icu-1b"}, writing(0));
    return result ? std::nullopt : std::optional(result.error());
}

std::string standing(const Path& folder) {
    const bool moved = std::filesystem::exists(folder / aside) &&
                       open(folder / aside, Access::Read).station()->value() != "icu-1b";
    CHECK((moved || std::filesystem::exists(folder / ward)));
    return moved ? aside : ward;
}

void checkIsBackup(const Path& path) {
    checkHolds(path, kept());
    CHECK(open(path).station()->value() == "icu-1b");
}

void checkRestored(const Path& folder, const Outcome& outcome) {
    if (outcome.confirmed()) {
        CHECK(standing(folder) == aside);
        checkIsBackup(folder / ward);
        // Without the lock nothing is moved.
        CHECK((outcome.fired != Call::Lock || !outcome.powerHeld()));
    } else if (outcome.powerHeld()) {
        checkTruth(folder, *outcome.told);
    }
}

void checkNoCopyLeft(const Path& folder, const Outcome& outcome) {
    if (!outcome.confirmed() && outcome.powerHeld() && std::filesystem::exists(folder / aside)) {
        CHECK(standing(folder) == aside);
    }
}

}  // namespace store::test
