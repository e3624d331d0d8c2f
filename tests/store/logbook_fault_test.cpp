// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Faults: the disk fails at every call there is, the program is killed at any time. What was
// confirmed must be there, what was refused must be told, and the file must stay whole.
#include "store/logbook.h"

#include "failing_files.h"
#include "logbook_files.h"

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
using Code = Trouble::Code;
using Failure = FailingFiles::Failure;

namespace {

constexpr int mostCalls = 2000;

bool isDiskTrouble(const Trouble& trouble, Failure failure) {
    return failure == Failure::Full ? trouble.code == Code::DiskFull : trouble.code == Code::Io;
}

// Three records appended to five, with the disk failing at that call. False once it no longer
// comes to that call.
bool appendWithFailure(const std::string& before, Failure failure, int call, bool forGood) {
    INFO("call " << call);
    const TemporaryFolder folder;
    writeBytes(folder / "log", before);
    bool failed = false;
    bool confirmed = false;
    {
        FailingFiles files(failure);
        Logbook logbook = open(folder / "log");
        files.failAt(call, forGood);
        const auto result = logbook.append(notes("icu-1", 8), writing());
        confirmed = result.has_value();
        failed = files.failed();
        files.failAt(0, false);
        if (!confirmed) {
            CHECK(isDiskTrouble(result.error(), failure));
        }
        CHECK((confirmed || failed));
    }
    const Logbook logbook = open(folder / "log");
    CHECK(logbook.verify()->ok());
    const auto read = contents(logbook);
    CHECK((read.size() == 8 || (!confirmed && read.size() == 5)));
    for (std::size_t i = 0; i < read.size(); ++i) {
        CHECK(read[i] == note("icu-1", static_cast<std::int64_t>(i) + 1).content);
    }
    return failed;
}

}  // namespace

TEST_CASE("The disk may fail at any call of an append", "[fault]") {
    std::string before;
    {
        const TemporaryFolder folder;
        {
            Logbook logbook = create(folder / "log");
            append(logbook, notes("icu-1", 5));
        }
        before = bytesOf(folder / "log");
    }
    for (const Failure failure : {Failure::Full, Failure::HalfWrite, Failure::Io}) {
        for (const bool forGood : {false, true}) {
            int call = 1;
            while (call < mostCalls && appendWithFailure(before, failure, call, forGood)) {
                ++call;
            }
            CHECK(call > 5);
            CHECK(call < mostCalls);
        }
    }
}

TEST_CASE("The disk may fail at any call of making a logbook", "[fault]") {
    for (const Failure failure : {Failure::Full, Failure::HalfWrite, Failure::Io}) {
        int call = 1;
        for (bool failed = true; failed && call < mostCalls; ++call) {
            INFO("call " << call);
            const TemporaryFolder folder;
            bool made = false;
            {
                FailingFiles files(failure);
                files.failAt(call, true);
                const auto logbook = Logbook::open(folder / "log", {Access::Create});
                made = logbook.has_value();
                failed = files.failed();
                files.failAt(0, false);
                if (!made) {
                    CHECK(isDiskTrouble(logbook.error(), failure));
                }
            }
            CHECK(folder.names() == std::vector<std::string>(made ? 1 : 0, "log"));
            CHECK((made ? open(folder / "log") : create(folder / "log")).verify()->ok());
        }
        CHECK(call > 5);
        CHECK(call < mostCalls);
    }
}

TEST_CASE("The disk may fail at any call of a backup", "[fault]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    append(logbook, notes("icu-1", 5));
    for (const Failure failure : {Failure::Full, Failure::HalfWrite, Failure::Io}) {
        int call = 1;
        for (bool failed = true; failed && call < mostCalls; ++call) {
            INFO("call " << call);
            FailingFiles files(failure);
            const Logbook source = open(folder / "log", Access::Read);
            files.failAt(call, true);
            const auto result = source.backup(folder / "copy");
            failed = files.failed();
            files.failAt(0, false);
            if (!result) {
                CHECK(isDiskTrouble(result.error(), failure));
                CHECK(folder.names() == std::vector<std::string>{"log"});
            } else {
                CHECK(open(folder / "copy").verify()->heads == headsOf(logbook));
                std::filesystem::remove(folder / "copy");
            }
        }
        CHECK(call > 2);
        CHECK(call < mostCalls);
    }
}

TEST_CASE("A killed writer loses nothing that was confirmed", "[fault]") {
    const unsigned seed = std::random_device{}();
    INFO("seed " << seed);
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
