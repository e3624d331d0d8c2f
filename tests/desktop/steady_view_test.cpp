// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is seen at one moment fits together: no verdict from before an entry beside what was told of
// it, nobody lit as whoever does it while nobody is signed in, the focus where it was.
#include "way_world.h"

#include "desktop/theme/verdict_chip.h"

using namespace support;

namespace {

QString verdictOf(const Way& way) {
    return way.window->findChild<desktop::VerdictChip*>()->accessibleName();
}

}  // namespace

TEST_CASE("after an entry no verdict from before it is shown", "[unit]") {
    Way way;
    way.openSignedIn();
    const auto before = verdictOf(way);
    QString atOnce;
    QObject::connect(&way.window->workplace(), &desktop::Workplace::kept, way.window.get(),
                     [&] { atOnce = verdictOf(way); });
    way.press("Passed");
    way.waitForNext("B leak");
    CHECK(before == "not ready");
    CHECK(atOnce == "one moment");
    CHECK(verdictOf(way) == "not ready");
    CHECK_FALSE(way.isSaid("One moment"));
}

TEST_CASE("nobody is lit as whoever does it while nobody is signed in", "[unit]") {
    Way way;
    way.open();
    way.openUnit("KB-0142");
    way.waitUntil("who is asked", [&] { return !way.buttons("Who: me").empty(); });
    CHECK_FALSE(way.buttons("Who: me").front()->isChecked());
    way.pressButton("Who: me");
    CHECK_FALSE(way.buttons("Who: me").front()->isChecked());
    CHECK(way.isSaid("Nobody is signed in"));
    way.window->workplace().presence().begin(*way.manager().session);
    CHECK(way.buttons("Who: me").front()->isChecked());
}

TEST_CASE("an emergency start says that it waits for no PIN", "[unit]") {
    Way way;
    way.open();
    way.openUnit("KB-0142");
    const auto before = way.records().size();
    way.key(Qt::Key_F7);
    way.pressButton("Emergency start");
    way.waitUntil("a name is asked for", [&] { return way.isSaid("No PIN is needed"); });
    CHECK(way.isSaid("somebody else"));
    way.pressButton("Keep it under the name of Mara Toller");
    CHECK(way.lastOf(before + 1).find(R"("confirmed":false)") != std::string::npos);
}

TEST_CASE("after a sheet is called off the focus is where it was", "[unit]") {
    Way way;
    way.openSignedIn();
    way.key(Qt::Key_F7);
    for (const auto* name : {"Note", "Soiled", "Start of use"}) {
        INFO(name);
        auto* button = way.buttons(name).front();
        button->setFocus();
        way.key(Qt::Key_Space);
        way.waitUntil("the sheet is there",
                      [&] { return !way.buttons("Back, keep nothing").empty(); });
        way.key(Qt::Key_Escape);
        QTest::qWait(50);
        CHECK(QApplication::focusWidget() == button);
        // Pressed by the mouse.
        way.press(button);
        way.waitUntil("the sheet is there",
                      [&] { return !way.buttons("Back, keep nothing").empty(); });
        way.key(Qt::Key_Escape);
        QTest::qWait(50);
        CHECK(QApplication::focusWidget() == button);
    }
}

TEST_CASE("after a sheet upon a sheet the focus is where it was", "[unit]") {
    Way way;
    way.openSignedIn();
    way.key(Qt::Key_F7);
    way.pressButton("Note");
    way.pressButton("When? Now");
    way.waitUntil("a time is asked for", [&] { return !way.buttons("Take this time").empty(); });
    way.key(Qt::Key_Escape);
    QTest::qWait(50);
    const auto* focused = qobject_cast<QPushButton*>(QApplication::focusWidget());
    REQUIRE(focused != nullptr);
    CHECK(focused->text() == "When? Now");
}

TEST_CASE("a service that stands in the way is recorded from its row", "[unit]") {
    Way way("[services.acceptance]\nlabel = \"Acceptance test\"\nbefore_first_use = true\n");
    way.openSignedIn();
    const auto before = way.records().size();
    if (way.buttons("Record: Acceptance test …").empty()) way.doFirst("Acceptance test");
    way.pressButton("Record: Acceptance test …");
    way.pressButton("Passed");
    way.pressButton("Acceptance test: Passed");
    const auto kept = way.lastOf(before + 1);
    CHECK(kept.find(R"("body":{"outcome":"pass","service":"acceptance"})") != std::string::npos);
    way.waitUntil("its row is gone",
                  [&] { return way.buttons("Record: Acceptance test …").empty(); });
}
