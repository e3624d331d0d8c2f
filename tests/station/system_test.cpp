// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is asked of the operating system: zones, the clock, whole files.
#include "station/system.h"

#include "support/environment.h"
#include "support/folder.h"
#include "support/zones.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <map>
#include <optional>
#include <sys/resource.h>
#include <sys/stat.h>
#include <thread>
#include <unistd.h>

using namespace station::system;
using support::Environment;
using support::utc;

TEST_CASE("Zones come from the computer's database, one object a name", "[unit]") {
    const auto zones = systemZones();
    const auto chicago = zones("America/Chicago");
    REQUIRE(chicago);
    CHECK(zones("America/Chicago") == chicago);
    CHECK(chicago->name() == "America/Chicago");
    CHECK_FALSE(zones("America/Nowhere"));
    CHECK_FALSE(zones(""));
    CHECK_FALSE(zones("../../etc/passwd"));
    // That of whatever computer asks.
    CHECK_FALSE(zones("localtime"));
}

// The transitions of these zones in 2026 as support/zones.h has them, with their source.
TEST_CASE("Zones change when the published tables say so", "[reference]") {
    const auto zones = systemZones();
    for (const auto* name : {"America/Chicago", "America/New_York", "Europe/Berlin",
                             "Europe/London", "UTC"}) {
        const auto zone = zones(name);
        const auto table = support::zone(name);
        REQUIRE(zone);
        REQUIRE(table);
        CAPTURE(name);
        for (int hour = 0; hour < 365 * 24; ++hour) {
            const auto instant = utc(2026, 1, 1, hour);
            if (zone->at(instant).offset != table->at(instant).offset ||
                zone->at(instant).abbreviation != table->at(instant).abbreviation) {
                CAPTURE(logbook::toText(instant));
                FAIL("the zones differ");
            }
        }
    }
}

TEST_CASE("A zone reaches from 1970 to 2100", "[unit]") {
    const auto zone = systemZones()("Europe/Berlin");
    REQUIRE(zone);
    CHECK(zone->at(utc(2100, 7, 1)).offset == support::hours(2));
    CHECK(zone->at(utc(2100, 12, 1)).offset == support::hours(1));
    CHECK(zone->at(utc(1970, 7, 1)).offset == support::hours(1));
}

TEST_CASE("The clock tells whole seconds of this century", "[unit]") {
    const auto now = SystemClock().now();
    CHECK(now.ms % 1000 == 0);
    CHECK(now > utc(2026, 1, 1));
    CHECK(now < utc(2100, 1, 1));
}

TEST_CASE("The locales wanted come from the environment, the most particular first", "[unit]") {
    using Locales = std::vector<std::string>;
    const Environment environment{"LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"};
    CHECK((localesWanted() == Locales{""}));
    environment.set("LANG", "es_MX.UTF-8");
    CHECK((localesWanted() == Locales{"es_MX.UTF-8"}));
    environment.set("LC_MESSAGES", "en_US.UTF-8");
    CHECK((localesWanted() == Locales{"en_US.UTF-8"}));
    environment.set("LANGUAGE", "qu:es");
    CHECK((localesWanted() == Locales{"qu", "es", "en_US.UTF-8"}));
    environment.set("LC_ALL", "C.UTF-8");
    CHECK((localesWanted() == Locales{"C.UTF-8"}));
    environment.set("LC_ALL", "POSIX");
    CHECK((localesWanted() == Locales{"POSIX"}));
    environment.set("LC_ALL", "");
    environment.set("LC_MESSAGES", "");
    environment.set("LANG", "");
    CHECK((localesWanted() == Locales{"qu", "es", ""}));
}

TEST_CASE("A thread that gives way does so with those it begins, and no other", "[unit]") {
    const auto niceness = [] {
        return ::getpriority(PRIO_PROCESS, static_cast<id_t>(::gettid()));
    };
    const int before = niceness();
    int first = 0, further = 0, begun = 0, after = 0;
    std::thread([&] {
        giveWay(Way::ToPainting);
        first = niceness();
        giveWay(Way::ToAll);
        further = niceness();
        std::thread([&] { begun = niceness(); }).join();
        giveWay(Way::ToPainting);
        after = niceness();
    }).join();
    CHECK(first == std::max(before, 4));
    CHECK(further == std::max(before, 10));
    CHECK(begun == further);
    CHECK(after == further);
    CHECK(niceness() == before);
}

TEST_CASE("Whole files are read as they are", "[unit]") {
    const support::Folder folder;
    const std::string bytes("a\0b\r\n\xFF", 6);
    CHECK(readFile(folder.write("file", bytes)) == bytes);
    CHECK(readFile(folder.write("empty", "")) == std::string());
    CHECK(readFile(folder.file("none")).error() == FileTrouble::NotFound);
    CHECK(readFile(folder.path()).error() == FileTrouble::NotAFile);
    // Nobody writes to it, and nobody waits for that.
    REQUIRE(::mkfifo(folder.file("pipe").c_str(), S_IRUSR | S_IWUSR) == 0);
    CHECK(readFile(folder.file("pipe")).error() == FileTrouble::NoPlainFile);
    CHECK(readFile("/dev/zero").error() == FileTrouble::NoPlainFile);
}

TEST_CASE("A new file is written whole and replaces nothing", "[unit]") {
    const support::Folder folder;
    REQUIRE(writeNewFile(folder.file("new"), "kept"));
    CHECK(support::bytesOf(folder.file("new")) == "kept");
    CHECK(writeNewFile(folder.file("new"), "other").error() == FileTrouble::Exists);
    CHECK(support::bytesOf(folder.file("new")) == "kept");
    CHECK(writeNewFile(folder.file("none/new"), "kept").error() == FileTrouble::NotFound);
    CHECK(std::distance(std::filesystem::directory_iterator(folder.path()), {}) == 1);
}

