// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a press states is that of the press, whatever happens while it is tried out; and what must
// never wait is not tried out.
#include "acts_world.h"
#include "busy.h"
#include "station/settings.h"

#include <QLineEdit>

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

TEST_CASE("a unit is seen where this computer stands, wherever the log has it", "[unit]") {
    ReadyUnit world;
    world.signIn();
    world.openUnit("KB-0109");
    world.key(Qt::Key_F7);
    world.pressButton("Seen here");
    (void)world.awaitSheet();
    CHECK(world.one<QLineEdit>("Where")->text() == "ICU 4");
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
        // The one at hand is told by all that stands on it and beside it.
        CHECK(world.isSaid("KB-0109 · 40142 · Larch 4 · "));
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

TEST_CASE("a start that could not be kept stands with the time of its press", "[unit]") {
    ReadyUnit world;
    const QString start = "Emergency start of unit KB-0109";
    world.waitUntil("it is offered", [&] { return world.buttons(start).size() == 1; });
    world.window->workplace().presence().begin(*world.manager().session);
    const auto before = world.records().size();
    const auto pressed = toText(world.clock.now());
    const auto away = world.folder.file("away.logbook");
    std::filesystem::rename(world.file.path, away);
    world.pressButton(start);
    world.pressButton("Started now, emergency");
    world.waitUntil("it is told", [&] {
        return world.isSaid("NOT recorded: emergency start of KB-0109, 08:00.");
    });
    CHECK_FALSE(world.isSaid("Nothing is lost"));
    CHECK(world.buttons(start).empty());
    // Whoever presses it again while it cannot be kept is told so again, and loses nothing.
    world.pressButton("Record the start of KB-0109 now");
    world.waitUntil("it can be pressed again", [&] {
        const auto again = world.buttons("Record the start of KB-0109 now");
        return again.size() == 1 && again.front()->isEnabled();
    });
    world.window->workplace().presence().lock();
    CHECK(world.isSaid("NOT recorded: emergency start of KB-0109, 08:00."));
    world.window->close();
    (void)world.awaitSheet();
    CHECK(world.isSaid("That is lost then."));
    world.pressButton("Keep writing");
    CHECK(world.window->isVisible());
    world.window->workplace().presence().begin(*world.manager().session);
    std::filesystem::rename(away, world.file.path);
    world.clock.advance(logbook::Duration{7 * 60'000});
    world.pressButton("Record the start of KB-0109 now");
    world.waitUntil("it is kept", [&] { return world.records().size() == before + 1; });
    CHECK(world.records().back().find("\"at\":\"" + pressed + "\"") != std::string::npos);
    world.waitUntil("nothing is said of it any more",
                    [&] { return !world.isSaid("NOT recorded"); });
    CHECK(world.buttons(start).empty());
}

TEST_CASE("by a clock that was set back no unit with later entries is offered", "[unit]") {
    ReadyUnit world;
    const QString start = "Emergency start of unit KB-0109";
    world.waitUntil("it is offered", [&] { return world.buttons(start).size() == 1; });
    world.clock.advance(logbook::Duration{3'600'000});
    world.write("note", "KB-0109", {{"text", "Taken to ICU 4"}});
    world.clock.advance(logbook::Duration{-1'800'000});
    world.window->workplace().refresh();
    world.waitUntil("it is offered no more", [&] { return world.buttons(start).empty(); });
    CHECK(world.isSaid("This computer's clock says 28 Nov 08:30. Entries with a later time: 1"));
    world.scan("KB-0109");
    world.pressButton("Leave it as it is");
    world.waitUntil("the unit says so too",
                    [&] { return world.isSaid("so whether it is ready is not known"); });
}

TEST_CASE("a logbook without units says where they are enrolled", "[unit]") {
    support::BedsideWorld world;
    world.found("format = 1\ntitle = \"Ward\"\nedition = \"1\"\n"
                "time_zone = \"America/Chicago\"\n[groups.adult]\nlabel = \"Adult\"\n");
    world.open();
    world.waitUntil("it is said", [&] { return world.isSaid("No unit is enrolled"); });
    CHECK_FALSE(world.isSaid("ready by record"));
    world.pressButton("Enrol units");
    CHECK(world.awaitSheet() != nullptr);
}
