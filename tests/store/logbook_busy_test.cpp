// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Several writers at one file: turns, and who is told to hold the lock.
#include "store/logbook.h"

#include "logbook_files.h"
#include "store/operating_system.h"

#include <catch2/catch.hpp>

#include <array>
#include <set>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

using namespace store;
using namespace store::test;
using Access = OpenOptions::Access;
using logbook::Record;
using logbook::RecordName;

namespace {

Logbook openInHaste(const std::filesystem::path& path) {
    auto logbook = Logbook::open(path, {Access::Write, false, 50});
    REQUIRE(logbook);
    return *std::move(logbook);
}

std::string holderText(std::int64_t process, const std::string& computer) {
    return "{\"person\":\"lark\",\"computer\":\"" + computer + "\",\"process\":" +
           std::to_string(process) + ",\"since\":\"2026-03-02T14:00:00Z\"}";
}

// What a writer is told who finds the lock held and that text in the holder file.
std::optional<Holder> toldHolder(const std::string& text) {
    const TemporaryFolder folder;
    (void)create(folder / "log");
    Logbook logbook = openInHaste(folder / "log");
    const auto other = behindTheBack(folder / "log");
    other->exec("BEGIN IMMEDIATE");
    writeBytes(folder / "log.holder", text);
    const auto result = logbook.append(notes("icu-1", 1), writing());
    REQUIRE_FALSE(result);
    CHECK(result.error().code == Trouble::Code::Busy);
    return result.error().holder;
}

}  // namespace

TEST_CASE("Who finds the lock held is told by whom", "[unit]") {
    const TemporaryFolder folder;
    Logbook holding = create(folder / "log");
    REQUIRE(holding.setStation("icu-1", writing()));
    Logbook waiting = openInHaste(folder / "log");
    tl::expected<AppendResult, Trouble> refused;
    const auto written = holding.appendOwn(
        [&](const RecordName& next) {
            refused = waiting.append(notes("icu-2", 1), writing(60, "mt"));
            CHECK(waiting.count() == 0);
            return std::vector{note(next.station, next.seq)};
        },
        writing(50, "lark"));
    CHECK(written);
    REQUIRE_FALSE(refused);
    CHECK(refused.error().code == Trouble::Code::Busy);
    REQUIRE(refused.error().holder);
    CHECK(*refused.error().holder ==
          Holder{"lark", system::computerName(), system::processNumber(), minute(50)});
    CHECK_FALSE(system::computerName().empty());
    CHECK(folder.names() == std::vector<std::string>{"log"});
    CHECK(append(waiting, notes("icu-2", 1)).added == 1);
}

TEST_CASE("The holder file goes when a write is refused", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    CHECK_FALSE(logbook.append(std::vector{note("icu-1", 2)}, writing()));
    CHECK(folder.names() == std::vector<std::string>{"log"});
}

TEST_CASE("A stale or unreadable holder file says nothing", "[unit]") {
    const pid_t gone = ::fork();
    if (gone == 0) {
        ::_exit(0);
    }
    ::waitpid(gone, nullptr, 0);
    const std::string here = system::computerName();
    CHECK_FALSE(toldHolder(holderText(gone, here)));
    CHECK_FALSE(toldHolder(""));
    CHECK_FALSE(toldHolder("{\"person\":\"lark\"}"));
    CHECK_FALSE(toldHolder("{\"person\":1,\"computer\":2,\"process\":3,\"since\":4}"));
    const auto running = toldHolder(holderText(system::processNumber(), here));
    REQUIRE(running);
    CHECK(running->person == "lark");
    CHECK(running->since == minute(0));
    // Whether it runs there cannot be told from here.
    CHECK(toldHolder(holderText(gone, here + "-other")));
}

TEST_CASE("A holder file left behind stops nobody", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    writeBytes(folder / "log.holder", holderText(1, "elsewhere"));
    CHECK(append(logbook, notes("icu-1", 1)).added == 1);
}

TEST_CASE("In the place of a holder file nothing else is read or written", "[unit]") {
    const TemporaryFolder folder;
    Logbook logbook = create(folder / "log");
    writeBytes(folder / "keys", "of Rowan");
    SECTION("a link to a file") {
        std::filesystem::create_symlink(folder / "keys", folder / "log.holder");
    }
    SECTION("a second name of a file") {
        std::filesystem::create_hard_link(folder / "keys", folder / "log.holder");
    }
    SECTION("a link to what has no end") {
        std::filesystem::create_symlink("/dev/zero", folder / "log.holder");
    }
    SECTION("a link to nothing") {
        std::filesystem::create_symlink(folder / "new", folder / "log.holder");
    }
    SECTION("a pipe") {
        REQUIRE(::mkfifo((folder / "log.holder").c_str(), 0600) == 0);
    }
    SECTION("more than any holder says") {
        writeBytes(folder / "log.holder", std::string(100'000, ' ') +
                                              holderText(system::processNumber(), "elsewhere"));
        const auto other = behindTheBack(folder / "log");
        other->exec("BEGIN IMMEDIATE");
        const auto refused = openInHaste(folder / "log").append(notes("icu-1", 1), writing());
        REQUIRE_FALSE(refused);
        CHECK_FALSE(refused.error().holder);
    }
    {
        const auto other = behindTheBack(folder / "log");
        other->exec("BEGIN IMMEDIATE");
        CHECK_FALSE(openInHaste(folder / "log").append(notes("icu-1", 1), writing()));
    }
    CHECK(append(logbook, notes("icu-1", 1)).added == 1);
    CHECK(bytesOf(folder / "keys") == "of Rowan");
    CHECK_FALSE(std::filesystem::exists(folder / "new"));
}

TEST_CASE("Two logbooks on one file see each other's records", "[unit]") {
    const TemporaryFolder folder;
    Logbook one = create(folder / "log");
    Logbook two = open(folder / "log");
    append(one, notes("icu-1", 1));
    append(two, notes("icu-1", 2));
    append(one, notes("icu-1", 3));
    CHECK(one.count() == 3);
    CHECK(two.count() == 3);
    CHECK(headsOf(one) == headsOf(two));
    {
        const Logbook three = open(folder / "log", Access::Read);
    }
    // Opening and closing a third takes no lock away from the others.
    append(two, notes("icu-1", 4));
    CHECK(one.verify()->ok());
}

TEST_CASE("Two programs that write at once lose nothing", "[unit]") {
    constexpr int each = 40;
    const TemporaryFolder folder;
    {
        Logbook logbook = create(folder / "log");
        REQUIRE(logbook.setStation("icu-1", writing()));
    }
    std::array<pid_t, 2> children{};
    for (pid_t& child : children) {
        child = ::fork();
        if (child == 0) {
            auto logbook = Logbook::open(folder / "log", {Access::Write, false, 60'000});
            int written = 0;
            for (int i = 0; logbook && i < each; ++i) {
                const auto names = logbook->appendOwn(
                    [](const RecordName& next) {
                        return std::vector{note(next.station, next.seq)};
                    },
                    writing());
                written += names && names->size() == 1 ? 1 : 0;
            }
            ::_exit(written == each ? 0 : 1);
        }
    }
    for (const pid_t child : children) {
        int status = -1;
        ::waitpid(child, &status, 0);
        CHECK(status == 0);
    }
    const Logbook logbook = open(folder / "log");
    CHECK(headsOf(logbook).at("icu-1").seq == 2 * each);
    CHECK(logbook.verify()->ok());
    CHECK(folder.names() == std::vector<std::string>{"log"});
}
