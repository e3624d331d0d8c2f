// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The program is killed at any time: what was confirmed must be there, and the file stay whole.
#include "store/logbook.h"

#include "logbook_files.h"
#include "support/seed.h"

#include <catch2/catch.hpp>

#include <array>
#include <chrono>
#include <csignal>
#include <random>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;

TEST_CASE("A killed writer loses nothing that was confirmed", "[fault]") {
    const auto seed = support::seedOfRun();
    INFO("AIRMUSTER_SEED=" << seed);
    std::mt19937 random(seed);
    const TemporaryFolder folder;
    REQUIRE(create(folder / "log").setStation("icu-1", writing()));
    std::int64_t confirmed = 0;
    for (int round = 0; round < 8; ++round) {
        std::array<int, 2> pipe{};
        REQUIRE(::pipe(pipe.data()) == 0);
        const pid_t child = ::fork();
        if (child == 0) {
            auto logbook = Logbook::open(folder / "log", {Access::Write});
            while (logbook) {
                const auto names = logbook->appendOwn(
                    [](const logbook::RecordName& next) {
                        return std::vector{note(next.station, next.seq)};
                    },
                    writing());
                if (!names || ::write(pipe[1], &names->front().seq, sizeof(std::int64_t)) < 0) {
                    break;
                }
            }
            ::_exit(1);
        }
        ::close(pipe[1]);
        std::int64_t seq = 0;
        // Once it writes, somewhere in one of its writes.
        REQUIRE(::read(pipe[0], &seq, sizeof seq) == sizeof seq);
        std::this_thread::sleep_for(std::chrono::microseconds(random() % 60'000));
        ::kill(child, SIGKILL);
        ::waitpid(child, nullptr, 0);
        confirmed = seq;
        while (::read(pipe[0], &seq, sizeof seq) == sizeof seq) {
            confirmed = seq;
        }
        ::close(pipe[0]);
        const Logbook logbook = open(folder / "log", Access::Read);
        CHECK(logbook.verify()->ok());
        CHECK(headsOf(logbook)["icu-1"].seq >= confirmed);
    }
    CHECK(confirmed >= 8);
}
