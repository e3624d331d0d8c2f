// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One use of the store, done again and again with the disk failing at every call in turn, in every
// way, until it goes through untouched. AIRMUSTER_FAULTS=full makes logs larger and cuts more.
#pragma once

#include "faulty_disk.h"
#include "store/trouble.h"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <optional>
#include <string>

namespace store::test {

using Files = std::map<std::string, std::string>;  // name in the folder, bytes

// One run alone.
struct Outcome {
    Fault fault;
    std::optional<Call> fired{};
    std::optional<Trouble> told{};

    [[nodiscard]] bool confirmed() const { return !told; }
    // Whether there was still somebody to tidy up.
    [[nodiscard]] bool powerHeld() const { return fault.failure != Failure::PowerCut; }
};

struct Use {
    std::string title;
    Files files;  // what lies in the folder before it
    // Carries it out in that folder and closes what it opens; nothing if it was confirmed.
    std::function<std::optional<Trouble>(const std::filesystem::path& folder)> run;
    // Whether all is as it has to be, with the disk whole again.
    std::function<void(const std::filesystem::path& folder, const Outcome& outcome)> check;
    // How often the power is cut at each call, unless the sweep is the full one: fewer for what is
    // written as something else that is swept is, and takes long.
    std::uint32_t cuts = 3;
};

struct Tally {
    std::map<Failure, int> runs;               // in which a fault fired
    std::map<Failure, std::map<Call, int>> fired;
};

// Fails the test if anything is not as it must be, and prints what fired.
Tally sweep(const Use& use);

[[nodiscard]] bool isFullSweep();
[[nodiscard]] Files filesOf(const std::filesystem::path& folder);

Outcome runOnce(const Use& use, const Fault& fault);

}  // namespace store::test
