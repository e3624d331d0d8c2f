// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Whether the tests of faults would notice: what guards the records is taken away, and then they
// must find a loss.
#include "../logbook_files.h"
#include "faulty_disk.h"
#include "hash_check.h"
#include "store/logbook.h"

#include <catch2/catch.hpp>

#include <iostream>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;

namespace {

constexpr int mostCalls = 5000;
constexpr std::int64_t kept = 5;
constexpr std::int64_t brought = 3;

enum class Journal { On, Off };

struct Found {
    int runs = 0;
    int losses = 0;
};

std::string keptBytes() {
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        append(logbook, notes("icu-1", kept));
    }
    return bytesOf(folder / "log");
}

// The file opens, verifies and holds what it must.
bool isWhole(const std::filesystem::path& path, bool confirmed) {
    const auto logbook = Logbook::open(path, {Access::Write});
    if (!logbook) {
        return false;
    }
    const auto report = logbook->verify();
    const auto count = logbook->count();
    return report && report->ok() && count &&
           (*count == kept + brought || (!confirmed && *count == kept));
}

// An append with the power cut at every call in turn, and once after the last.
Found cutEverywhere(const std::string& before, Journal journal) {
    Found found;
    bool fired = true;
    for (Fault fault{Failure::PowerCut, 1, true, 1}; fired && fault.call < mostCalls;
         ++fault.call, ++fault.seed) {
        const TemporaryFolder folder;
        writeBytes(folder / "log", before);
        bool confirmed = false;
        {
            FaultyDisk disk(folder.path(), fault);
            if (journal == Journal::Off) {
                disk.loseJournals();
            }
            {
                auto logbook = Logbook::open(folder / "log", {Access::Write});
                confirmed = logbook && logbook->append(notes("icu-1", kept + brought), writing());
            }
            fired = disk.fired().has_value();
            disk.cutPower();
        }
        ++found.runs;
        found.losses += isWhole(folder / "log", confirmed) ? 0 : 1;
    }
    return found;
}

}  // namespace

TEST_CASE("With the journal off, a power cut loses what was confirmed", "[fault]") {
    const std::string before = keptBytes();
    const Found on = cutEverywhere(before, Journal::On);
    CHECK(on.runs > 30);
    CHECK(on.losses == 0);
    const Found off = cutEverywhere(before, Journal::Off);
    CHECK(off.runs > 30);
    CHECK(off.losses > 0);
    std::cout << "control: journal on: " << on.losses << " losses in " << on.runs
              << " power cuts; off: " << off.losses << " in " << off.runs << "\n";
}

TEST_CASE("With the check of hashes off, verify misses a change", "[fault]") {
    const TemporaryFolder folder;
    writeBytes(folder / "log", keptBytes());
    tamper(folder / "log", "UPDATE records SET content = replace(content, 'seen', 'Seen')"
                           " WHERE seq = 3");
    const Logbook logbook = open(folder / "log", Access::Read);
    CHECK(logbook.verify()->breaks ==
          std::vector<Break>{{{"icu-1", 3}, Break::Reason::WrongHash}});
    std::map<std::string, Hash, std::less<>> standing;
    REQUIRE(logbook.forEachRow({}, [&](const Row& row) {
        standing[row.content] = row.hash;
        return true;
    }));
    const HashCheckOff off(standing);
    CHECK(logbook.verify()->ok());
}
