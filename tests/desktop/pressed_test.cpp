// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What a press states is that of the press, whatever happens while it is tried out; and what must
// never wait is not tried out.
#include "acts_world.h"
#include "busy.h"
#include "desktop/bedside/ready_list.h"
#include "desktop/shell/emergency_starts.h"
#include "desktop/theme/verdict_chip.h"
#include "station/settings.h"
#include "station/start_notes.h"

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
    // The start that stands, on the disk.
    void awaitNoted() const {
        waitUntil("it is noted", [this] {
            const auto& all = window->workplace().starts().all();
            return !all.empty() && !all.front().note.empty();
        });
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

namespace {

// Its start was pressed while the logbook lay elsewhere.
struct UnkeptStart : ReadyUnit {
    const QString start = "Emergency start of unit KB-0109";
    const QString told = "NOT recorded: emergency start of KB-0109, 08:00.";
    const std::filesystem::path away = folder.file("away.logbook");
    const std::size_t before = records().size();
    const std::string pressed = toText(clock.now());

    UnkeptStart() {
        waitUntil("it is offered", [this] { return buttons(start).size() == 1; });
        window->workplace().presence().begin(*manager().session);
        std::filesystem::rename(file.path, away);
        pressButton(start);
        pressButton("Started now, emergency");
        waitUntil("it is told", [this] { return isSaid(told); });
    }

    void bringBack() {
        std::filesystem::rename(away, file.path);
        clock.advance(logbook::Duration{7 * 60'000});
    }
    void awaitKept() const {
        waitUntil("it is kept", [this] { return records().size() > before; });
        waitUntil("nothing is said of it any more", [this] { return !isSaid("NOT recorded"); });
        CHECK(records().size() == before + 1);
        CHECK(records().back().find("\"at\":\"" + pressed + "\"") != std::string::npos);
        CHECK(records().back().find(R"("by":"m.toller")") != std::string::npos);
    }
    // Of starts that are not in the log.
    [[nodiscard]] std::size_t notes() const {
        const auto found = station::readStartNotes(*words::Words::builtIn(),
                                                   folder.file("notes/starts"), file);
        CHECK(found.damaged.empty());
        return found.starts.size();
    }
    // As after a power cut: nobody is asked, and nothing is put away.
    void openAnew() {
        window.reset();
        open();
    }
};

}  // namespace

TEST_CASE("a start that could not be kept stands on every desk, and is kept by itself", "[unit]") {
    UnkeptStart world;
    CHECK_FALSE(world.isSaid("Nothing is lost"));
    CHECK(world.isSaid("Pressed by Mara Toller. It is tried again every few seconds"));
    CHECK(world.buttons(world.start).empty());
    const auto& fleet = *world.window->workplace().fleet();
    CHECK(fleet.lines.front().verdict == "not known");
    CHECK(fleet.lines.front().missing.starts_with("not recorded: emergency start 08:00"));
    CHECK(fleet.board.groups.front().ready == 0);
    world.pressButton("Fleet");
    CHECK(world.isSaid(world.told));
    world.waitUntil("the table says so",
                    [&] { return world.buttons("Ready  0").size() == 1; });
    world.pressButton("Muster");
    world.waitUntil("it is left out", [&] {
        return world.isSaid("an emergency start of them is not recorded: KB-0109.");
    });
    world.key(Qt::Key_Escape);
    world.pressButton("Bedside");
    // Whoever presses it again while it cannot be kept is told so again, and loses nothing.
    world.pressButton("Record the start of KB-0109 now");
    world.waitUntil("it can be pressed again", [&] {
        const auto again = world.buttons("Record the start of KB-0109 now");
        return again.size() == 1 && again.front()->isEnabled();
    });
    world.window->workplace().presence().lock();
    CHECK(world.isSaid(world.told));
    world.awaitNoted();
    world.window->close();
    (void)world.awaitSheet();
    CHECK(world.isSaid("It is noted on this computer, and recorded once this window is open"));
    CHECK_FALSE(world.isSaid("lost"));
    world.pressButton("Leave it open");
    CHECK(world.window->isVisible());
    // Where text is large it takes one line, and the list of ready units keeps its room.
    const auto look = [&](int percent, QSize size) {
        desktop::apply(*qApp, {desktop::Theme::Light, percent});
        Q_EMIT world.window->workplace().appearanceChanged();
        world.window->resize(size);
    };
    look(200, {1024, 700});
    world.pressButton(world.told);
    CHECK(world.buttons("Record the start of KB-0109 now").size() == 1);
    world.key(Qt::Key_Escape);
    const auto* list = world.window->findChild<desktop::ReadyList*>()->findChild<QScrollArea*>();
    CHECK(list->viewport()->height() >= 3 * desktop::targetSize);
    look(100, {1280, 800});
    world.bringBack();
    world.awaitKept();
    CHECK(world.buttons(world.start).empty());
    world.waitUntil("its note is gone", [&] { return world.notes() == 0; });
    world.waitUntil("its unit is as the log says",
                    [&] { return world.window->workplace().fleet()->unrecorded.empty(); });
}

TEST_CASE("a start outlives the program that could not keep it", "[unit]") {
    UnkeptStart world;
    world.awaitNoted();
    CHECK(world.notes() == 1);
    SECTION("and is kept by the next, once") {
        world.bringBack();
        world.openAnew();
        world.awaitKept();
        CHECK(world.records().back().find(R"("confirmed":false)") != std::string::npos);
        world.waitUntil("its note is gone", [&] { return world.notes() == 0; });
        // What is no note is told until somebody has read that.
        world.folder.write("notes/starts/7-1.start.json", "{\"note\":");
        world.openAnew();
        world.waitUntil("it is told", [&] { return world.isSaid("cannot be read"); });
        CHECK(world.isSaid("7-1.start.json.unreadable"));
        world.pressButton("I have read that");
        CHECK_FALSE(world.isSaid("cannot be read"));
        world.awaitAnswers();
        CHECK(world.records().size() == world.before + 1);
    }
    SECTION("and whoever says too late that it is not to be recorded is told") {
        world.pressButton("It is not to be recorded");
        world.bringBack();
        world.waitUntil("it is kept", [&] { return world.records().size() == world.before + 1; });
        world.awaitAnswers();
        world.pressButton("It was not started: record nothing");
        CHECK(world.isSaid("has been recorded meanwhile"));
    }
    SECTION("unless somebody has said that it is not to be recorded") {
        world.pressButton("It is not to be recorded");
        world.pressButton("It was not started: record nothing");
        world.waitUntil("it is gone", [&] { return !world.isSaid("NOT recorded"); });
        world.bringBack();
        world.openAnew();
        world.waitUntil("it is offered", [&] { return world.buttons(world.start).size() == 1; });
        world.awaitAnswers();
        CHECK(world.records().size() == world.before);
    }
}

TEST_CASE("a start that is refused on its unit needs no sheet, and the unit says so", "[unit]") {
    ReadyUnit world;
    world.window->workplace().presence().begin(*world.manager().session);
    world.scan("KB-0109");
    world.pressButton("Leave it as it is");
    world.key(Qt::Key_F7);
    // It is seen where this computer stands, wherever the log has it.
    world.pressButton("Seen here");
    for (const auto* line : world.awaitSheet()->findChildren<QLineEdit*>())
        if (line->accessibleName().startsWith("Where")) CHECK(line->text() == "ICU 4");
    world.pressButton("Back");
    world.waitUntil("it is closed", [&] { return world.sheet() == nullptr; });
    world.pressButton("Emergency start");
    (void)world.awaitSheet();
    const auto before = world.records().size();
    const auto away = world.folder.file("away.logbook");
    std::filesystem::rename(world.file.path, away);
    world.pressButton("Started in an emergency");
    world.waitUntil("it stands", [&] {
        return world.sheet() == nullptr &&
               world.isSaid("NOT recorded: emergency start of KB-0109, 08:00.");
    });
    CHECK(world.isSaid("whether it is ready is not known"));
    CHECK(world.all<desktop::VerdictChip>("ready").empty());
    CHECK(world.all<desktop::VerdictChip>("not known").size() == 1);
    std::filesystem::rename(away, world.file.path);
    world.pressButton("Record the start of KB-0109 now");
    world.waitUntil("it is kept", [&] { return world.records().size() == before + 1; });
    CHECK(world.records().back().find("\"confirmed\"") == std::string::npos);
    world.waitUntil("the unit is in use",
                    [&] { return world.all<desktop::VerdictChip>("in use").size() == 1; });
}

TEST_CASE("until a start is kept it is said that it is not", "[unit]") {
    ReadyUnit world;
    const QString start = "Emergency start of unit KB-0109";
    world.pressButton(start);
    (void)world.awaitSheet();
    // Whoever closes the window while a name is waited for is asked.
    CHECK_FALSE(world.window->close());
    CHECK(world.isSaid("Not kept yet:\nEmergency start of unit KB-0109"));
    world.pressButton("Keep writing");
    const auto before = world.records().size();
    {
        const BusyWriter busy(world);
        world.pressButton("Keep it under the name of Mara Toller");
        CHECK(world.buttons(start).front()->text() == "Not recorded yet …");
        world.waitUntil("it is told", [&] {
            return world.isSaid("ecorded yet: emergency start of KB-0109, 08:00") ||
                   world.isSaid("NOT recorded: emergency start of KB-0109, 08:00");
        });
        CHECK(world.buttons(start).empty());
        world.awaitNoted();
        CHECK_FALSE(world.window->close());
        world.pressButton("Leave it open");
    }
    world.waitUntil("it is kept", [&] { return world.records().size() == before + 1; });
    world.waitUntil("that is told", [&] { return world.isSaid("Kept by Mara Toller"); });
}

TEST_CASE("by a clock that was set back no unit with later entries is offered", "[unit]") {
    ReadyUnit world;
    const QString start = "Emergency start of unit KB-0109";
    world.waitUntil("it is offered", [&] { return world.buttons(start).size() == 1; });
    world.clock.advance(logbook::Duration{3'600'000});
    // A note alone changes nothing of a unit.
    world.write("note", "KB-0109", {{"text", "Taken to ICU 4"}});
    world.clock.advance(logbook::Duration{-1'800'000});
    world.window->workplace().refresh();
    world.waitUntil("the note is told", [&] {
        return world.isSaid("clock says 28 Nov 08:30. Entries with a later time: 1");
    });
    CHECK(world.buttons(start).size() == 1);
    world.clock.advance(logbook::Duration{1'800'000});
    world.write("power", "KB-0109", {{"on", true}});
    world.clock.advance(logbook::Duration{-1'800'000});
    world.window->workplace().refresh();
    world.waitUntil("it is offered no more", [&] { return world.buttons(start).empty(); });
    CHECK(world.isSaid("This computer's clock says 28 Nov 08:30. Entries with a later time: 2"));
    world.scan("KB-0109");
    world.pressButton("Leave it as it is");
    world.waitUntil("the unit says so too",
                    [&] { return world.isSaid("so whether it is ready is not known"); });
}
