// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// When and who below the panels: a time that stays is pressed for, marked, and lapses; nobody is
// their own second.
#include "way_world.h"

using namespace support;

namespace {

constexpr std::string_view withSecond = "[checks.a_mains]\ntakes = \"PT1M\"\nneeds_second = true\n";

std::string atOf(const std::string& line) { return line.substr(0, line.find(',')); }

std::string at(const Way& way, int minutesAgo) {
    return R"({"at":")" +
           toText(way.clock.now() - logbook::Duration{minutesAgo * 60'000LL}) + "\"";
}

}  // namespace

TEST_CASE("a time stays for a run of steps once that is pressed", "[unit]") {
    Way way;
    way.openSignedIn();
    const auto before = way.records().size();
    const auto then = at(way, 10);
    way.press("10");
    way.press("Stay with this time");
    CHECK(way.isSaid("Every entry is for"));
    way.press("Passed");
    CHECK(atOf(way.lastOf(before + 1)) == then);
    way.waitForNext("B leak");
    CHECK(way.one<QPushButton>("10")->isChecked());
    way.doFirst("C flow sensor");
    way.clock.advance(logbook::Duration{60'000});
    way.press("Passed");
    CHECK(atOf(way.lastOf(before + 2)) == then);
    way.press("Go back to now");
    CHECK_FALSE(way.isSaid("Every entry is for"));
    way.doFirst("D oxygen");
    way.press("Passed");
    CHECK(atOf(way.lastOf(before + 3)) == at(way, 0));
}

TEST_CASE("a time that stays is told on the sheet of a check", "[unit]") {
    Way way;
    way.openSignedIn();
    way.doFirst("B leak");
    way.press("10");
    way.press("Stay with this time");
    way.press("Passed");
    way.waitUntil("the value is asked for", [&] { return way.sheet() != nullptr; });
    CHECK(way.isSaid("done at 08:50"));
}

TEST_CASE("a time that stays lapses", "[unit]") {
    Way way;
    way.enrol("KB-0150", "40150");
    way.openSignedIn();
    way.press("10");
    way.press("Stay with this time");
    SECTION("after a quiet while") {
        way.clock.advance(logbook::Duration{121'000});
        way.waitUntil("it is told", [&] { return way.isSaid("is now again"); });
    }
    SECTION("where the clock is set back") {
        way.clock.advance(logbook::Duration{-1'000});
        way.waitUntil("it is told", [&] { return way.isSaid("is now again"); });
    }
    SECTION("with another unit") { way.openUnit("KB-0150"); }
    SECTION("by another time") {
        way.press("5");
        CHECK(way.isSaid("5 min ago"));
        CHECK(way.one<QPushButton>("Stay with this time")->isVisible());
        way.press("Now");
    }
    way.waitUntil("it is now", [&] { return way.one<QPushButton>("Now")->isChecked(); });
    CHECK_FALSE(way.isSaid("Every entry is for"));
}

TEST_CASE("whoever does it is no second person, and no other one", "[unit]") {
    Way way(withSecond);
    way.person("p.quill", "Petra Quill");
    way.person("o.pell", "Otto Pell");
    way.openSignedIn();
    SECTION("who is signed in") {
        way.press("Another");
        CHECK(way.all<QPushButton>("Petra Quill").size() == 1);
        CHECK(way.all<QPushButton>("Mara Toller").size() == 1);  // the head of the window alone
    }
    SECTION("who did it") {
        way.press("Another");
        way.press("Petra Quill");
        way.waitForNext("A mains");
        way.press("Passed");
        way.waitUntil("a second is asked for",
                      [&] { return way.all<QPushButton>("Otto Pell").size() == 1; });
        CHECK(way.all<QPushButton>("Petra Quill").empty());
        way.scan("p.quill");
        way.waitUntil("the badge is told",
                      [&] { return way.isSaid("Petra Quill has a part in it already."); });
    }
}

TEST_CASE("a check without conditions fails with words beside it", "[unit]") {
    Way way;
    way.openSignedIn();
    const auto before = way.records().size();
    way.press("Not so");
    way.waitUntil("what was seen is asked for", [&] { return way.isSaid("What was seen?"); });
    CHECK(way.all<QPushButton>("Keep it; it does not count").empty());
    way.window->findChild<desktop::SheetStack*>()->top()->findChild<QLineEdit*>()->setFocus();
    way.type("hose is torn");
    SECTION("failed") {
        way.press("It failed");
        const auto last = way.lastOf(before + 2);
        INFO(last);
        CHECK(last.find(R"("body":{"text":"a power up: hose is torn"})") != std::string::npos);
        CHECK(way.records()[before].find(R"({"check":"a_power_up","outcome":"fail"})") !=
              std::string::npos);
        way.waitUntil("it can be struck", [&] {
            return !way.all<QPushButton>("Strike through: ").empty();
        });
    }
    SECTION("not finished") {
        way.press("It was not finished");
        (void)way.lastOf(before + 2);
        CHECK(way.records()[before].find(R"("outcome":"incomplete")") != std::string::npos);
    }
}
