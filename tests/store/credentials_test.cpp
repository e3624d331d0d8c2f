// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// PINs in the logbook file: what opens, what makes wait, what locks, and what is left of them
// where. Times are minutes after startText, or seconds where `at` says so.
#include "store/credentials.h"

#include "killing_files.h"
#include "logbook_files.h"
#include "support/no_threads.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <algorithm>
#include <catch2/catch.hpp>
#include <ostream>
#include <thread>

#include <sys/wait.h>
#include <unistd.h>

namespace store {
std::ostream& operator<<(std::ostream& out, const Trial& trial) {
    return out << "outcome " << static_cast<int>(trial.outcome) << ", " << trial.failures
               << " failures, wait " << trial.wait.ms << " ms";
}
}  // namespace store

using namespace store;
using namespace store::test;
using Outcome = Trial::Outcome;

namespace {

constexpr auto right = "402951";
constexpr auto wrong = "402952";

Writing at(std::int64_t second) {
    return {"mt", minute(0) + logbook::Duration{second * 1000}};
}

Now on(std::int64_t second) {
    return [second] { return at(second).at; };
}

// A logbook file in which mt has a PIN.
struct Desk {
    TemporaryFolder folder;
    std::filesystem::path path = folder / "log";
    Logbook logbook = create(path);
    Credentials credentials{path};

    Desk() { REQUIRE(credentials.setPin("mt", right, at(0))); }

    Trial tried(std::int64_t second, std::string_view pin) const {
        const auto trial = credentials.tryPin("mt", pin, on(second));
        REQUIRE(trial);
        return *trial;
    }
    Trial failTimes(int times) const {
        Trial last;
        for (std::int64_t second = 1000; times > 0; --times, second += 100) {
            last = tried(second, wrong);
        }
        return last;
    }
};

}  // namespace

TEST_CASE("The right PIN opens, another and another's do not", "[unit]") {
    const Desk desk;
    REQUIRE(desk.credentials.setPin("rs", "731905", at(0)));
    CHECK(desk.tried(1, right) == Trial{Outcome::Right});
    CHECK(desk.tried(2, "731905").outcome == Outcome::Wrong);
    CHECK(desk.credentials.tryPin("nobody", right, on(3)) == Trial{Outcome::NotSet});
    CHECK(desk.credentials.tryPin("mt", "", on(100))->outcome == Outcome::Wrong);
    CHECK(desk.credentials.tryPin("mt", "40295", on(200))->outcome == Outcome::Wrong);
    CHECK(desk.credentials.tryPin("mt", "4029510", on(300))->outcome == Outcome::Wrong);
}

TEST_CASE("Each failure in a row doubles the wait, up to a minute, and the tenth locks", "[unit]") {
    constexpr int waits[] = {1, 2, 4, 8, 16, 32, 60, 60, 60};
    const Desk desk;
    std::int64_t now = 10;
    int failures = 0;
    for (const int wait : waits) {
        CAPTURE(wait);
        ++failures;
        CHECK(desk.tried(now, wrong) ==
              Trial{Outcome::Wrong, failures, logbook::Duration{wait * 1000}});
        // Not a try: neither right nor wrong counts before the wait is over.
        CHECK(desk.tried(now + wait - 1, right) ==
              Trial{Outcome::Waiting, failures, logbook::Duration{1000}});
        now += wait;
    }
    CHECK(desk.tried(now, wrong).failures == failuresUntilLocked);
    CHECK(desk.tried(now + 1'000'000, right) == Trial{Outcome::Locked, failuresUntilLocked});
    CHECK(desk.credentials.pins()->front().locked);
    REQUIRE(desk.credentials.setPin("mt", "558203", at(now)));
    CHECK_FALSE(desk.credentials.pins()->front().locked);
    CHECK(desk.tried(now, "558203") == Trial{Outcome::Right});
}

TEST_CASE("However many failures are noted, what is more than locks stays locked", "[unit]") {
    const Desk desk;
    const std::string failures = GENERATE("11", "2147483648", "4294967299", "9223372036854775807");
    SQLite::Database(desk.path.string(), SQLite::OPEN_READWRITE)
        .exec("UPDATE local_credentials SET failures = " + failures);
    CHECK(desk.tried(1000, right).outcome == Outcome::Locked);
    CHECK(desk.credentials.pins()->front().locked);
}

TEST_CASE("A success forgets the failures before it", "[unit]") {
    const Desk desk;
    CHECK(desk.failTimes(9).failures == 9);
    CHECK(desk.tried(5000, right).outcome == Outcome::Right);
    CHECK(desk.tried(5001, wrong) == Trial{Outcome::Wrong, 1, logbook::Duration{1000}});
}

TEST_CASE("Failures outlast the program and are counted for each person alone", "[unit]") {
    const Desk desk;
    desk.failTimes(5);
    const Credentials later(desk.path);
    CHECK(later.tryPin("mt", right, on(1401))->outcome == Outcome::Waiting);
    REQUIRE(later.setPin("rs", "731905", at(1401)));
    CHECK(later.tryPin("rs", "731905", on(1401))->outcome == Outcome::Right);
    CHECK(later.pins() == std::vector<Credential>{{"mt", 5, false, "mt", at(0).at, at(1400).at},
                                                  {"rs", 0, false, "mt", at(1401).at}});
}

TEST_CASE("A clock that is set back never shortens a wait, nor makes it endless", "[unit]") {
    const Desk desk;
    desk.failTimes(6);  // the last at 1500, wait 32 s
    CHECK(desk.tried(1510, right).wait == logbook::Duration{22'000});
    const auto pin = desk.credentials.pins()->front();
    CHECK(waitLeft(pin, at(1510).at) == logbook::Duration{22'000});
    CHECK(waitLeft(pin, at(1532).at) == logbook::Duration{0});
    CHECK(waitLeft(pin, at(10).at) == logbook::Duration{32'000});
    CHECK(desk.tried(10, right) == Trial{Outcome::Waiting, 6, logbook::Duration{32'000}});
    CHECK(desk.tried(41, right).wait == logbook::Duration{1000});
    CHECK(desk.tried(5, right).wait == logbook::Duration{32'000});
    CHECK(desk.tried(37, right).outcome == Outcome::Right);
}

TEST_CASE("The first PIN of a file comes with a code, and only once", "[unit]") {
    const TemporaryFolder folder;
    const Logbook logbook = create(folder / "log");
    const Credentials credentials(folder / "log");
    CHECK(credentials.pins()->empty());
    CHECK(credentials.begin({"mt", right, "CODE-1"}, at(0)).value().has_value());
    CHECK(credentials.begin({"rs", "731905", "CODE-2"}, at(1)) == std::nullopt);
    CHECK(credentials.pins()->size() == 1);
    CHECK(credentials.recover({"rs", "CODE-2", "731905", "CODE-3"}, on(2))->outcome ==
          Outcome::Wrong);
}

TEST_CASE("The code gives a new PIN once and is followed by another", "[unit]") {
    const TemporaryFolder folder;
    const Logbook logbook = create(folder / "log");
    const Credentials credentials(folder / "log");
    CHECK(credentials.recover({"mt", "CODE-1", right, "CODE-2"}, on(0))->outcome ==
          Outcome::NotSet);
    REQUIRE(credentials.begin({"mt", right, "CODE-1"}, at(0)));
    for (std::int64_t second = 0; second < 1200; second += 100) {
        CHECK(credentials.tryPin("mt", wrong, on(second)));
    }
    for (std::int64_t second = 0; second < 1200; second += 100) {
        CHECK(credentials.recover({"mt", "CODE-9", "731905", "CODE-2"}, on(second))->outcome ==
              Outcome::Wrong);
    }
    CHECK(credentials.recover({"mt", "CODE-1", "731905", "CODE-2"}, on(1159))->outcome ==
          Outcome::Waiting);
    CHECK(credentials.recover({"mt", "CODE-1", "731905", "CODE-2"}, on(1160))->outcome ==
          Outcome::Right);
    CHECK(credentials.tryPin("mt", right, on(1161))->outcome == Outcome::Wrong);
    CHECK(credentials.tryPin("mt", "731905", on(1200))->outcome == Outcome::Right);
    CHECK(credentials.recover({"mt", "CODE-1", right, "CODE-3"}, on(1300))->outcome ==
          Outcome::Wrong);
    CHECK(credentials.recover({"mt", "CODE-2", right, "CODE-3"}, on(1400))->outcome ==
          Outcome::Right);
}

TEST_CASE("A new code takes the place of the old one, and of its failures", "[unit]") {
    const TemporaryFolder folder;
    const Logbook logbook = create(folder / "log");
    const Credentials credentials(folder / "log");
    REQUIRE(credentials.begin({"mt", right, "CODE-1"}, at(0)));
    CHECK(credentials.recover({"mt", "CODE-9", "731905", "CODE-2"}, on(0))->outcome ==
          Outcome::Wrong);
    CHECK(credentials.onlyAt(7).setCode("CODE-3", at(0)).error().code ==
          Trouble::Code::LogMoved);
    CHECK(credentials.setCode("CODE-3", at(0)));
    CHECK(credentials.recover({"mt", "CODE-1", "731905", "CODE-4"}, on(0))->outcome ==
          Outcome::Wrong);
    CHECK(credentials.recover({"mt", "CODE-3", "731905", "CODE-4"}, on(100))->outcome ==
          Outcome::Right);
    CHECK(credentials.tryPin("mt", "731905", on(101))->outcome == Outcome::Right);
}

TEST_CASE("A badge is one person's, and a person has one", "[unit]") {
    const Desk desk;
    CHECK(desk.credentials.setBadge("mt", "0042", at(0)) == true);
    CHECK(desk.credentials.setBadge("rs", "0042", at(0)) == false);
    CHECK(desk.credentials.setBadge("mt", "0043", at(0)) == true);
    CHECK(desk.credentials.setBadge("rs", "0042", at(0)) == true);
    CHECK(desk.credentials.badges() == std::vector<Badge>{{"0043", "mt"}, {"0042", "rs"}});
    CHECK(desk.credentials.setBadge("mt", std::nullopt, at(0)) == true);
    CHECK(desk.credentials.badges() == std::vector<Badge>{{"0042", "rs"}});
}

TEST_CASE("PINs of several persons are hashed side by side", "[unit][threads]") {
    const Desk desk;
    Pins pins;
    for (int number = 1; number <= 5; ++number) {
        pins.emplace_back("p" + std::to_string(number), "73190" + std::to_string(number));
    }
    SECTION("in threads of their own") {
        REQUIRE(desk.credentials.setPins(pins, at(0)));
    }
    SECTION("and where none can be had one after the other") {
        const support::NoThreads none;
        REQUIRE(desk.credentials.setPins(pins, at(0)));
    }
    for (const auto& [person, pin] : pins) {
        CHECK(desk.credentials.tryPin(person, pin, on(1)) == Trial{Outcome::Right});
        CHECK(desk.credentials.tryPin(person, right, on(2))->outcome == Outcome::Wrong);
    }
}

TEST_CASE("Of two programs that try at once one waits for the other's failure",
          "[unit][threads]") {
    const Desk desk;
    Trial trials[4];
    std::vector<std::thread> programs;
    for (auto& trial : trials) {
        programs.emplace_back([&] { trial = *desk.credentials.tryPin("mt", wrong, on(100)); });
    }
    for (auto& program : programs) {
        program.join();
    }
    CHECK(std::count_if(std::begin(trials), std::end(trials),
                        [](const Trial& trial) { return trial.outcome == Outcome::Wrong; }) == 1);
    CHECK(desk.credentials.pins()->front().failures == 1);
}

TEST_CASE("A PIN stands nowhere in the file, and a hash that was replaced neither", "[unit]") {
    Desk desk;
    REQUIRE(desk.logbook.setStation("icu-1", writing()));
    const auto hashIn = [](const std::string& bytes) {
        const auto place = bytes.find("$argon2id$");
        REQUIRE(place != std::string::npos);
        return bytes.substr(place, 97);
    };
    const auto first = hashIn(bytesOf(desk.path));
    CHECK(bytesOf(desk.path).find(right) == std::string::npos);
    REQUIRE(desk.credentials.setPin("mt", right, at(1)));
    const auto second = hashIn(bytesOf(desk.path));
    CHECK(second != first);
    CHECK(bytesOf(desk.path).find(first) == std::string::npos);
    CHECK(desk.folder.names() == std::vector<std::string>{"log"});
}

TEST_CASE("A backup holds no PIN, no code and no badge", "[unit]") {
    const Desk desk;
    REQUIRE(desk.credentials.setBadge("mt", "badge-of-mt", at(0)));
    const auto copy = desk.folder / "copy";
    REQUIRE(desk.logbook.backup(copy));
    checkRestores(copy, desk.logbook);
    const Credentials copied(copy);
    CHECK(copied.pins()->empty());
    CHECK(copied.badges()->empty());
    CHECK(copied.tryPin("mt", right, on(1)) == Trial{Outcome::NotSet});
    CHECK(bytesOf(copy).find("$argon2id$") == std::string::npos);
    CHECK(bytesOf(copy).find("badge-of-mt") == std::string::npos);
    CHECK(copied.begin({"rs", "731905", "CODE-1"}, at(2)).value().has_value());
    CHECK(desk.tried(3, right).outcome == Outcome::Right);
}

TEST_CASE("A backup that is killed leaves no PIN, no code and no badge behind", "[fault]") {
    const Desk desk;
    REQUIRE(desk.credentials.setBadge("mt", "badge-of-mt", at(0)));
    int call = 1;
    for (bool killed = true; killed; ++call) {
        INFO("call " << call);
        const pid_t child = ::fork();
        if (child == 0) {
            KillingFiles files;
            const auto source = Logbook::open(desk.path, {OpenOptions::Access::Read});
            files.killAt(call);
            ::_exit(source->backup(desk.folder / "copy") ? 0 : 1);
        }
        int status = 0;
        ::waitpid(child, &status, 0);
        killed = WIFSIGNALED(status);
        CHECK((killed || WEXITSTATUS(status) == 0));
        for (const auto& name : desk.folder.names()) {
            if (name != "log") {
                CHECK(bytesOf(desk.folder / name).find("$argon2id$") == std::string::npos);
                CHECK(bytesOf(desk.folder / name).find("badge-of-mt") == std::string::npos);
                if (name == "copy") {
                    checkRestores(desk.folder / name, desk.logbook);
                }
                std::filesystem::remove(desk.folder / name);
            }
        }
    }
    CHECK(call > 10);
}

TEST_CASE("Of one PIN that is typed late no wait is shortened", "[unit]") {
    const Desk desk;
    desk.failTimes(6);  // the last at 1500, wait 32 s
    // The clock goes on while the hash is made: it is asked under the lock.
    std::int64_t second = 1510;
    const auto trial = desk.credentials.tryPin("mt", right, [&] { return at(second++).at; });
    CHECK(trial->outcome == Outcome::Waiting);
    CHECK(second > 1511);
}

TEST_CASE("What rests on a log that has moved is not written", "[unit]") {
    Desk desk;
    const auto arrival = *desk.logbook.lastArrival();
    const auto resting = desk.credentials.onlyAt(arrival);
    REQUIRE(resting.setPin("mt", "731905", at(1)));
    append(desk.logbook, notes("icu-2", 1));
    const auto moved = Trouble::Code::LogMoved;
    CHECK(resting.setPin("mt", right, at(2)).error().code == moved);
    CHECK(resting.setBadge("mt", "0042", at(2)).error().code == moved);
    CHECK(resting.begin({"mt", right, "CODE-1"}, at(2)).error().code == moved);
    CHECK(desk.tried(3, "731905").outcome == Outcome::Right);
    CHECK(desk.credentials.badges()->empty());
}

TEST_CASE("A logbook and its backup can be read by their owner alone", "[unit]") {
    const Desk desk;
    REQUIRE(desk.logbook.backup(desk.folder / "copy"));
    checkRestores(desk.folder / "copy", desk.logbook);
    using std::filesystem::perms;
    for (const auto* name : {"log", "copy"}) {
        CAPTURE(name);
        CHECK(std::filesystem::status(desk.folder / name).permissions() ==
              (perms::owner_read | perms::owner_write));
    }
}

TEST_CASE("PINs need a logbook that can be written", "[unit]") {
    const TemporaryFolder folder;
    const Credentials none(folder / "none");
    CHECK(none.pins().error().code == Trouble::Code::NotFound);
    CHECK(none.tryPin("mt", right, on(0)).error().code == Trouble::Code::NotFound);
    CHECK(none.setPin("mt", right, at(0)).error().code == Trouble::Code::NotFound);
    CHECK(none.setBadge("mt", "0042", at(0)).error().code == Trouble::Code::NotFound);
}
