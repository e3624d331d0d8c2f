// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is entered on the way to ready: values and their limits, when and who, drafts, and the codes
// that come in between.
#include "desktop/bedside/unit_bar.h"
#include "station/settings.h"
#include "way_world.h"

using namespace support;

TEST_CASE("a value out of limits is said to be so before it is kept", "[unit]") {
    Way way;
    way.openSignedIn();
    const auto before = way.records().size();
    way.doFirst("B leak");
    way.press("Passed");
    way.waitUntil("the value is asked for", [&] { return way.sheet() != nullptr; });
    way.press(way.mainButton());
    CHECK(way.isSaid("Leak is wanted"));
    way.type("480");
    way.press(way.mainButton());
    CHECK(way.isSaid("480 mL/min"));
    CHECK(way.records().size() == before);
    way.press("Type it again");
    CHECK(way.typed() == "480");
    way.press(way.mainButton());
    way.press("Keep it as failed");
    CHECK(way.lastOf(before + 1).find(
              R"({"check":"b_leak","measures":{"leak":{"unit":"mL/min","value":480}},)"
              R"("outcome":"fail"})") != std::string::npos);
    way.waitUntil("the sheet is gone", [&] { return way.sheet() == nullptr; });
}

TEST_CASE("a value may be typed in any unit that measures the same", "[unit]") {
    Way way;
    way.openSignedIn();
    const auto before = way.records().size();
    way.doFirst("B leak");
    way.press("Passed");
    way.waitUntil("the value is asked for", [&] { return way.sheet() != nullptr; });
    CHECK(way.all<QPushButton>("L/min").empty());
    way.press("Another unit");
    way.press("L/min");
    for (const auto* digit : {"0", ".", "1", "8"}) way.press(way.key(digit));
    way.press(way.mainButton());
    CHECK(way.lastOf(before + 1).find(R"("leak":{"unit":"mL/min","value":180})") !=
          std::string::npos);
}

TEST_CASE("what is half typed outlives the lock, for its owner alone", "[unit]") {
    Way way;
    way.person("p.quill", "Petra Quill");
    way.openSignedIn();
    auto& presence = way.window->workplace().presence();
    way.press("20");
    way.doFirst("B leak");
    way.press("Passed");
    way.waitUntil("the value is asked for", [&] { return way.sheet() != nullptr; });
    way.type("18");
    presence.lock();
    CHECK_FALSE(way.sheet()->isVisible());
    presence.begin(*station::signIn(way.surroundings(), way.file, "p.quill",
                                    secretOf(BedsideWorld::pin)));
    way.openUnit("KB-0142");
    CHECK_FALSE(way.sheet()->isVisible());
    CHECK(way.one<QPushButton>("Now")->isChecked());
    presence.lock();
    presence.begin(*way.manager().session);
    way.waitUntil("it is back", [&] { return way.sheet()->isVisible(); });
    CHECK(way.typed() == "18");
    way.type("0");
    const auto before = way.records().size();
    way.press(way.mainButton());
    const auto then = toText(way.clock.now() - logbook::Duration{20 * 60'000LL});
    CHECK(way.lastOf(before + 1).starts_with(R"({"at":")" + then));
}

TEST_CASE("a value is typed in the station's unit unless another is pressed", "[unit]") {
    Way way;
    REQUIRE(station::changeSettings(way.surroundings(), way.file,
                                    {way.manager(), {{"flow", "L/min"}}}));
    way.openSignedIn();
    const auto before = way.records().size();
    way.doFirst("B leak");
    way.press("Passed");
    way.waitUntil("the value is asked for", [&] { return way.sheet() != nullptr; });
    CHECK(way.isSaid("at most 200 mL/min"));
    CHECK(way.isSaid("at most 0.2 L/min"));
    CHECK(way.one<QPushButton>("L/min")->isChecked());
    way.type("0.18");
    way.press(way.mainButton());
    CHECK(way.lastOf(before + 1).find(R"("leak":{"unit":"mL/min","value":180})") !=
          std::string::npos);
}

TEST_CASE("a hold with a sheet that came meanwhile is asked about before a check", "[unit]") {
    Way way("[holds.incident]\nlabel = \"Held after an incident\"\nsheet = [\"Do not clean.\"]\n");
    way.openSignedIn();
    way.doFirst("B leak");
    way.press("Passed");
    way.waitUntil("the value is asked for", [&] { return way.sheet() != nullptr; });
    way.type("180");
    way.write("withdraw", "KB-0142", {{"hold", "incident"}, {"reason", ""}});
    way.window->workplace().refresh();
    way.waitUntil("the hold is known", [&] {
        return !way.all<QPushButton>("Held after an incident since").empty();
    });
    const auto before = way.records().size();
    way.press(way.mainButton());
    way.press("Leave the unit as it is");
    QTest::qWait(100);
    CHECK(way.records().size() == before);
    CHECK(way.typed() == "180");
    way.press(way.mainButton());
    CHECK(way.isSaid("Do not clean."));
    way.press("It was done: keep the entry");
    CHECK(way.lastOf(before + 1).find(R"("value":180)") != std::string::npos);
}

TEST_CASE("a refused entry loses nothing that was typed", "[unit]") {
    Way way;
    way.openSignedIn();
    const auto before = way.records().size();
    way.doFirst("B leak");
    way.press("Passed");
    way.waitUntil("the value is asked for", [&] { return way.sheet() != nullptr; });
    way.type("180");
    const auto away = way.folder.file("away.logbook");
    std::filesystem::rename(way.file.path, away);
    way.press(way.mainButton());
    way.waitUntil("it is refused", [&] { return way.isSaid("There is no logbook"); });
    REQUIRE(way.sheet() != nullptr);
    CHECK(way.typed() == "180");
    std::filesystem::rename(away, way.file.path);
    way.press(way.mainButton());
    CHECK(way.lastOf(before + 1).find(R"("value":180)") != std::string::npos);
}

TEST_CASE("when it was done goes back to now after a press", "[unit]") {
    Way way;
    way.openSignedIn();
    const auto before = way.records().size();
    way.press("10");
    CHECK(way.isSaid("10 min ago"));
    way.press("Passed");
    const auto then = toText(way.clock.now() - logbook::Duration{10 * 60'000LL});
    CHECK(way.lastOf(before + 1).starts_with(R"({"at":")" + then));
    way.waitForNext("B leak");
    CHECK(way.one<QPushButton>("Now")->isChecked());
}

TEST_CASE("what did not hold is not asserted", "[unit]") {
    Way way("[checks.a_mains]\ntakes = \"PT1M\"\nneeds = [\"mains_power\", \"gas_supply\"]\n");
    way.openSignedIn();
    const auto before = way.records().size();
    way.waitForNext("A mains");
    way.press("Not so");
    way.press("Mains power");
    way.press("Keep it; it does not count");
    CHECK(way.lastOf(before + 1).find(
              R"({"check":"a_mains","conditions":["gas_supply"],"outcome":"pass"})") !=
          std::string::npos);
    way.waitUntil("it does not count", [&] { return way.isSaid("does not count"); });
}

TEST_CASE("a second person verifies with their own PIN", "[unit]") {
    Way way("[checks.a_mains]\ntakes = \"PT1M\"\nneeds_second = true\n");
    way.person("p.quill", "Petra Quill");
    way.openSignedIn();
    const auto before = way.records().size();
    way.waitForNext("A mains");
    way.press("Passed");
    way.press("Petra Quill");
    way.type("402816");
    way.key(Qt::Key_Return);
    CHECK(way.lastOf(before + 1).find(R"("witness":"p.quill")") != std::string::npos);
}

TEST_CASE("another unit is opened only after a question", "[unit]") {
    Way way;
    way.enrol("KB-0150", "40150");
    way.openSignedIn();
    way.doFirst("B leak");
    way.press("Passed");
    way.waitUntil("the value is asked for", [&] { return way.sheet() != nullptr; });
    way.type("18");
    way.scan("KB-0150");
    way.press("Stay with KB-0142");
    CHECK(way.typed() == "18");
    way.scan("40150");
    way.press("Leave it, open KB-0150");
    way.waitUntil("it is open", [&] { return way.isSaid("40150"); });
    CHECK_FALSE(way.sheet()->isVisible());  // put aside
}

TEST_CASE("of several units with one number it is asked which", "[unit]") {
    Way way;
    way.enrol("KB-0150");
    way.open();
    way.scan("40142");
    way.press("KB-0150 · 40142");
    way.waitUntil("it is open", [&] { return way.isSaid("KB-0150"); });
}

TEST_CASE("with text of 200 % the unit, the next step and its button are in sight", "[unit]") {
    Way way("[checks.a_mains]\nlabel = \"Breathing-circuit leak test\"\ntakes = \"PT1M\"\n"
            "needs = [\"mains_power\", \"gas_supply\"]\n");
    way.openSignedIn({1024, 700}, {desktop::Theme::Light, 200});
    way.waitForNext("Breathing-circuit leak test");
    CHECK(way.window->size() == QSize(1024, 700));
    QTest::qWait(100);
    const auto isInSight = [](const QWidget& widget) {
        return widget.visibleRegion().boundingRect() == widget.rect();
    };
    CHECK(isInSight(*way.window->findChild<desktop::UnitBar*>()));
    CHECK(isInSight(*way.card()->findChildren<QLabel*>().front()));
    CHECK(isInSight(*way.card()->button(desktop::StepLogging::Press::Done)));
}

TEST_CASE("a scan leads to the unit", "[unit]") {
    BedsideWorld world;
    world.makeDemo();
    world.open();
    QElapsedTimer timer;
    for (const auto* serial : {"KB-0142", "KB-0110", "KB-0129"}) {
        world.scan(serial);
        timer.start();
        world.waitUntil("the unit is shown", [&] {
            const auto* bar = world.window->findChild<desktop::UnitBar*>();
            const auto* label = bar->findChild<QLabel*>();
            return bar->isVisible() && label->text() == serial;
        });
        std::printf("scan of %s to the unit: %lld ms\n", serial, timer.elapsed());
    }
}
