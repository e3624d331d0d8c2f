// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a press states is that of the press, whatever happens while it is tried out; and what must
// never wait is not tried out.
#include "acts_world.h"
#include "busy.h"
#include "station/settings.h"

using support::ActsWorld;
using support::BusyReader;
using support::BusyWriter;

namespace {

// Nothing is asked of a unit there.
struct ReadyUnit : support::BedsideWorld {
    ReadyUnit() {
        found("format = 1\ntitle = \"Ward\"\nedition = \"1\"\ntime_zone = \"America/Chicago\"\n"
              "[groups.adult]\nlabel = \"Adult\"\n");
        enrol("KB-0109");
        REQUIRE(station::changeSettings(surroundings(), file,
                                        {manager(), {{"place", "ICU 4"}}}));
        open();
        waitUntil("the place is known", [this] { return !!window->workplace().place(); });
    }
};

}  // namespace

TEST_CASE("what is locked away while it is tried out is kept by nobody", "[unit]") {
    ActsWorld world;
    world.beginNote("Filter housing wiped");
    const auto before = world.entries().size();
    {
        const BusyReader busy(world);
        world.pressButton("Keep this note");
        world.window->workplace().presence().lock();
        world.signIn("p.quill");
    }
    world.waitUntil("it is told",
                    [&] { return world.isSaid("whoever pressed it is not signed in any more"); });
    QTest::qWait(300);
    CHECK(world.entries().size() == before);
}

TEST_CASE("nobody is asked for another while an entry is kept", "[unit]") {
    ActsWorld world;
    world.beginNote("Splash, MRN 4471203");
    const auto before = world.entries().size();
    const bool isAnother = GENERATE(true, false);
    auto& presence = world.window->workplace().presence();
    {
        const BusyWriter busy(world);
        world.pressButton("Keep this note");
        QTest::qWait(300);
        presence.lock();
        if (isAnother) world.signIn("p.quill");
    }
    QTest::qWait(500);
    CHECK_FALSE(world.isSaid("Does it name none?"));
    CHECK(world.buttons("Yes, keep it").empty());
    CHECK(world.sheet() == nullptr);
    world.signIn();
    CHECK(world.line("What is to be noted")->text() == "Splash, MRN 4471203");
    CHECK(world.entries().size() == before);
    world.pressButton("Keep this note");
    world.pressButton("Yes, keep it");
    CHECK(world.entriesSince(before, 1).front().find("4471203") != std::string::npos);
}

TEST_CASE("what would not count is asked of whoever pressed it alone", "[unit]") {
    ActsWorld world;
    world.signIn();
    world.openUnit(ActsWorld::idle);
    world.key(Qt::Key_F7);
    world.pressButton("Patient group");
    (void)world.awaitSheet();
    world.pressButton("Adult");
    const auto before = world.entries().size();
    {
        const BusyReader busy(world);
        world.pressButton("Selected on the unit");
        world.window->workplace().presence().lock();
        world.signIn("p.quill");
    }
    world.waitUntil("it is told",
                    [&] { return world.isSaid("whoever pressed it is not signed in any more"); });
    QTest::qWait(300);
    CHECK(world.sheet() == nullptr);
    CHECK(world.entries().size() == before);
}

TEST_CASE("an emergency start waits for nothing that is read", "[unit]") {
    ActsWorld world;
    world.openUnit(ActsWorld::idle);
    world.key(Qt::Key_F7);
    const auto before = world.entries().size();
    {
        const BusyReader busy(world);
        world.pressButton("Emergency start");
        // Who starts it is asked at once, over the button: it is not pressed twice.
        CHECK(world.sheet() != nullptr);
    }
    CHECK(world.entries().size() == before);
}

TEST_CASE("a unit that was started from the list is not offered again", "[unit]") {
    ReadyUnit world;
    const QString start = "Emergency start of unit KB-0109";
    world.waitUntil("it is offered", [&] { return world.buttons(start).size() == 1; });
    world.window->workplace().presence().begin(*world.manager().session);
    const auto before = world.records().size();
    {
        const BusyReader busy(world);
        world.pressButton(start);
        bool isTold = false;
        QObject::connect(&world.window->workplace(), &desktop::Workplace::kept,
                         world.window.get(), [&](const auto&) { isTold = true; });
        world.pressButton("Started now, emergency");
        // It is dead before anything else of the program runs.
        for (auto* each : world.buttons(start)) CHECK_FALSE(each->isEnabled());
        world.waitUntil("it is kept", [&] { return isTold; });
        QCoreApplication::processEvents();
        CHECK(world.buttons(start).empty());
    }
    REQUIRE(world.records().size() == before + 1);
    CHECK(world.records().back().find(R"("body":{"emergency":true,"location":"ICU 4"})") !=
          std::string::npos);
}

TEST_CASE("a unit that is scanned away from where it is recorded is asked about", "[unit]") {
    ReadyUnit world;
    world.window->workplace().presence().begin(*world.manager().session);
    const auto before = world.records().size();
    world.scan("KB-0109");
    world.waitUntil("it is asked",
                    [&] { return world.isSaid("is recorded at another place"); });
    CHECK(world.isSaid("Is it here now, ICU 4?"));
    CHECK(world.records().size() == before);
    world.pressButton("It is here: record that");
    world.waitUntil("it is kept", [&] { return world.records().size() == before + 1; });
    CHECK(world.records().back().find(R"("body":{"location":"ICU 4"})") != std::string::npos);
    CHECK(world.records().back().find(R"("kind":"move")") != std::string::npos);
}

TEST_CASE("a unit whose start was called off can be started", "[unit]") {
    ReadyUnit world;
    const QString start = "Emergency start of unit KB-0109";
    world.pressButton(start);
    (void)world.awaitSheet();
    world.key(Qt::Key_Escape);
    world.waitUntil("it is offered again", [&] {
        return world.sheet() == nullptr && world.buttons(start).size() == 1 &&
               world.buttons(start).front()->isEnabled();
    });
}
