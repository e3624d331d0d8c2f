// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The sweep over every call; see sweep.h.
#include "sweep.h"

#include "../logbook_files.h"
#include "station/problem.h"
#include "words/words.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <iostream>
#include <string_view>

namespace store::test {

namespace {

constexpr int mostCalls = 5000;

bool fits(const Outcome& outcome, Trouble::Code code) {
    // The database does not tell why it can make no file: who asks for it a moment later finds
    // room.
    const bool wasFull = outcome.fired == Call::Make && !outcome.fault.forGood;
    if (outcome.fault.failure == Failure::Full && !(wasFull && code == Trouble::Code::Io)) {
        return code == Trouble::Code::DiskFull;
    }
    return code == Trouble::Code::Io || code == Trouble::Code::LeftAside ||
           code == Trouble::Code::NotConfirmed || code == Trouble::Code::WriteNotConfirmed;
}

// What happened, that the data is safe, and what to do, in words.
void checkTold(const Outcome& outcome, const Trouble& trouble) {
    INFO("told " << name(trouble.code) << " " << trouble.text);
    CHECK(fits(outcome, trouble.code));
    const auto problem = station::problemOf(*words::Words::builtIn(), trouble);
    for (const std::string& sentence :
         {problem.notice.says, problem.notice.safe, problem.notice.action}) {
        CHECK_FALSE(sentence.empty());
        CHECK(sentence.find('_') == std::string::npos);
    }
    CHECK(problem.notice.safe.find("safe") != std::string::npos);
}

std::string told(const Fault& fault) {
    return std::string(name(fault.failure)) + (fault.forGood ? " for good" : "") + " at call " +
           std::to_string(fault.call) + ", seed " + std::to_string(fault.seed);
}

// Every call in turn.
void sweepOne(const Use& use, Fault fault, Tally& tally) {
    for (fault.call = 1; fault.call < mostCalls; ++fault.call) {
        const Outcome outcome = runOnce(use, fault);
        if (!outcome.fired) {
            CHECK_FALSE(outcome.told);
            return;
        }
        ++tally.runs[fault.failure];
        ++tally.fired[fault.failure][*outcome.fired];
    }
    FAIL(use.title << ": there is no end of calls");
}

void print(const Use& use, const Tally& tally) {
    for (const auto& [failure, calls] : tally.fired) {
        std::cout << "faults: " << use.title << ": " << name(failure) << ": "
                  << tally.runs.at(failure) << ":";
        for (const auto& [call, count] : calls) {
            std::cout << " " << name(call) << " " << count;
        }
        std::cout << "\n";
    }
}

}  // namespace

bool isFullSweep() {
    const char* wanted = std::getenv("AIRMUSTER_FAULTS");
    return wanted != nullptr && std::string_view(wanted) == "full";
}

Files filesOf(const std::filesystem::path& folder) {
    Files files;
    for (const auto& entry : std::filesystem::directory_iterator(folder)) {
        files[entry.path().filename()] = bytesOf(entry.path());
    }
    return files;
}

Outcome runOnce(const Use& use, const Fault& fault) {
    INFO(use.title << ": " << told(fault));
    const TemporaryFolder folder;
    for (const auto& [name, bytes] : use.files) {
        writeBytes(folder / name, bytes);
    }
    Outcome outcome{fault};
    {
        FaultyDisk disk(folder.path(), fault);
        outcome.told = use.run(folder.path());
        outcome.fired = disk.fired();
        if (fault.failure == Failure::PowerCut) {
            // Also the moment after: what was confirmed must be on the disk by then.
            disk.cutPower();
        }
    }
    INFO((outcome.told ? "refused" : "confirmed"));
    if (outcome.told && fault.failure != Failure::PowerCut) {
        checkTold(outcome, *outcome.told);
    }
    use.check(folder.path(), outcome);
    return outcome;
}

Tally sweep(const Use& use) {
    Tally tally;
    for (const Failure failure : {Failure::Io, Failure::Full, Failure::ShortWrite}) {
        for (const bool forGood : {false, true}) {
            sweepOne(use, {failure, 0, forGood, 0}, tally);
        }
    }
    const std::uint32_t seeds = isFullSweep() ? 12 : use.cuts;
    for (std::uint32_t seed = 1; seed <= seeds; ++seed) {
        sweepOne(use, {Failure::PowerCut, 0, true, seed}, tally);
    }
    print(use, tally);
    return tally;
}

}  // namespace store::test
