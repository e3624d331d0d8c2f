// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A time of another day, and in the nights in which the clock is changed. America/Chicago went from
// 02:00 to 03:00 on 8 March 2026 and from 02:00 CDT to 01:00 CST on 1 November 2026
// (15 U.S.C. 260a; tz database, "northamerica").
#include "desktop/bedside/time_sheet.h"
#include "way_world.h"

#include <algorithm>

using support::Way;

namespace {

struct AskedTime : Way {
    explicit AskedTime(logbook::Instant now, QSize size = {1280, 800},
                       const desktop::Appearance& looks = {})
        : Way("", now) {
        openSignedIn(size, looks);
        before = records().size();
        pressButton(all<QPushButton>("A time").empty() ? "When?" : "When: a time");
        waitUntil("the time is asked for", [&] { return timeSheet() != nullptr; });
    }
    [[nodiscard]] desktop::TimeSheet* timeSheet() const {
        return window->findChild<desktop::TimeSheet*>();
    }
    [[nodiscard]] QLineEdit* field() const { return timeSheet()->findChild<QLineEdit*>(); }
    void typeTime(const QString& text) const {
        type(text);
        waitUntil("it is typed", [&] { return field()->text() == text; });
    }
    // When the next step is kept for.
    [[nodiscard]] std::string keptAt() const {
        press("Passed");
        const auto last = lastOf(before + 1);
        return last.substr(0, last.find("Z\"") + 2);
    }
    std::size_t before = 0;
};

logbook::Instant at(const char* text) {
    return *logbook::parseInstant(text);
}

}  // namespace

TEST_CASE("a time of another day is hinted at, and pressed without a keyboard", "[unit]") {
    AskedTime way(at("2026-11-28T14:00:00Z"));
    CHECK(way.isSaid("with the date before it, as 2026-11-26 14:20"));
    way.pressButton("Yesterday");
    for (const auto* key : {"1", "4", "2", "0"}) way.pressButton(key);
    CHECK(way.field()->text() == "2026-11-27 1420");
    way.pressButton("Two days ago");
    CHECK(way.field()->text() == "2026-11-26 1420");
    // What it is read as is told at once, and stands where it was chosen.
    CHECK(way.isSaid("Thu 26 Nov 14:20, 41 h 40 min ago"));
    // What is no time at all is told likewise, and not only once it is pressed.
    way.field()->clear();
    way.typeTime("25:10");
    CHECK(way.isSaid("There is no such time: the hours go to 23, the minutes to 59."));
    way.pressButton("Take this time");
    CHECK(way.isSaid("There is no such time"));
    way.field()->clear();
    way.typeTime("2026-11-31 14:20");
    CHECK(way.isSaid("That is no day."));
    way.field()->clear();
    way.typeTime("2026-11-26 1420");
    way.pressButton("Take this time");
    CHECK(way.all<QPushButton>("26 Nov 14:20").size() == 1);
    CHECK(way.keptAt() == R"({"at":"2026-11-26T20:20:00Z")");
}

TEST_CASE("a date can be typed with the large keys", "[unit]") {
    AskedTime way(at("2026-11-28T14:00:00Z"));
    for (const QChar letter : QStringLiteral("2026-11-26 14:20")) {
        const QString key(letter);
        way.pressButton(key == "-" ? "Hyphen" : key == " " ? "Blank" : key == ":" ? "Colon" : key);
    }
    CHECK(way.field()->text() == "2026-11-26 14:20");
}

TEST_CASE("a time that the clock left out is told with the one that it was", "[unit]") {
    AskedTime way(at("2026-03-08T12:00:00Z"));
    way.typeTime("02:30");
    CHECK(way.isSaid("the clock went from 02:00 to 03:00"));
    way.field()->clear();
    CHECK_FALSE(way.isSaid("the clock went"));
    way.typeTime("09:30");  // of today it has not come yet
    CHECK(way.isSaid("Sat 7 Mar 09:30, 20 h 30 min ago"));
    way.field()->clear();
    way.typeTime("2026-03-08 09:30");
    CHECK(way.isSaid("That time has not come yet."));
    way.field()->clear();
    way.typeTime("02:30");
    way.pressButton("Take this time");
    CHECK(way.isSaid("the clock went from 02:00 to 03:00"));
    CHECK(way.isSaid("write 03:30"));
    CHECK_FALSE(way.isSaid("UTC"));
}

TEST_CASE("of two equal times both are in sight, one beside the other", "[unit]") {
    const bool isLarge = GENERATE(false, true);
    desktop::Appearance looks;
    if (isLarge) looks.textPercent = 200;
    AskedTime way(at("2026-11-01T12:00:00Z"), isLarge ? QSize(1024, 700) : QSize(1280, 800), looks);
    way.typeTime("01:30");
    CHECK(way.isSaid("which one it was is asked next"));
    way.pressButton("Take this time");
    CHECK(way.isSaid("showed that time twice. Which one was it?"));
    CHECK_FALSE(way.isSaid("Write"));
    const auto both = way.buttons("01:30 (");
    REQUIRE(both.size() == 2);
    way.waitUntil("both are in sight", [&] {
        return std::ranges::all_of(
            both, [&](const auto* each) { return way.seenOf(*each) == each->rect(); });
    }, 5'000);
    CHECK(both[0]->y() == both[1]->y());
    way.key(Qt::Key_Tab);
    CHECK(both[0]->hasFocus());
    way.key(Qt::Key_Tab);
    CHECK(both[1]->hasFocus());
    way.press(both[1]);
    CHECK(way.isSaid("For 01:30 (second, CST)"));
    CHECK(way.all<QPushButton>(isLarge ? "When? 01:30 (second" : "A time").size() == 1);
    CHECK(way.keptAt() == R"({"at":"2026-11-01T07:30:00Z")");
}
