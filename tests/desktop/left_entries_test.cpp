// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Leaving an entry for another unit: what was typed is a draft of whoever typed it, on its unit.
#include "acts_world.h"
#include "desktop/bedside/measure_sheet.h"

using support::ActsWorld;

namespace {

const QString first = QString::fromLatin1(ActsWorld::idle);
const QString second = QString::fromLatin1(ActsWorld::repair);

void startNote(ActsWorld& world, const QString& text) {
    world.openUnit(first.toStdString());
    world.key(Qt::Key_F7);
    world.pressButton("Note");
    world.typeInto("What is to be noted", text);
}

void leaveFor(ActsWorld& world, const QString& unit) {
    world.scan(unit);
    ActsWorld::waitUntil("what becomes of it is told", [&] {
        return world.isSaid("What you typed stays here as a draft");
    });
    bool isShown = false;
    const auto shown = QObject::connect(world.window->findChild<desktop::BedsideDesk*>(),
                                        &desktop::BedsideDesk::unitShown, world.window.get(),
                                        [&](const QString& open) { isShown |= open == unit; });
    world.pressButton("Leave it, open " + unit);
    ActsWorld::waitUntil("it is open", [&] { return isShown; });
    QObject::disconnect(shown);
}

}  // namespace

TEST_CASE("what was being entered is back when the unit is opened again", "[unit]") {
    ActsWorld world;
    world.signIn();
    const auto before = world.entries().size();
    startNote(world, "fan is loud");
    leaveFor(world, second);
    CHECK(world.sheet() == nullptr);
    CHECK(world.entries().size() == before);
    world.scan(first);
    (void)world.awaitSheet();
    CHECK(world.line("What is to be noted")->text() == "fan is loud");
    CHECK(world.isSaid("is not kept yet"));
    world.pressButton("Keep this note");
    CHECK(world.entriesSince(before, 1) ==
          std::vector<std::string>{"note " + first.toStdString() +
                                   " {\"text\":\"fan is loud\"}"});
    world.scan(second);
    world.scan(first);
    QTest::qWait(300);
    CHECK(world.sheet() == nullptr);
}

TEST_CASE("a draft is for whoever typed it, and for its unit", "[unit]") {
    ActsWorld world;
    world.signIn();
    startNote(world, "fan is loud");
    leaveFor(world, second);
    auto& presence = world.window->workplace().presence();
    presence.lock();
    world.signIn("p.quill");
    world.openUnit(first.toStdString());
    QTest::qWait(300);
    CHECK(world.sheet() == nullptr);
    presence.lock();
    world.signIn();
    QTest::qWait(300);
    CHECK(world.sheet() == nullptr);  // another unit was open when it was left
    world.scan(first);
    (void)world.awaitSheet();
    CHECK(world.line("What is to be noted")->text() == "fan is loud");
}

TEST_CASE("what nobody in particular typed is back for anybody", "[unit]") {
    ActsWorld world;
    startNote(world, "fan is loud");
    leaveFor(world, second);
    world.signIn();
    world.scan(first);
    (void)world.awaitSheet();
    CHECK(world.line("What is to be noted")->text() == "fan is loud");
    // Called off, it is not said to be there any more.
    CHECK(world.isSaid("is not kept yet"));
    world.key(Qt::Key_Escape);
    world.pressButton("Leave it, lose what I typed");
    CHECK(world.sheet() == nullptr);
    CHECK_FALSE(world.isSaid("is not kept yet"));
}

TEST_CASE("a sheet in which nobody typed or chose anything is no draft", "[unit]") {
    ActsWorld world;
    world.signIn();
    world.openUnit(first.toStdString());
    world.key(Qt::Key_F7);
    const auto act = GENERATE(as<QString>(), "Note", "Switched off", "Fault");
    world.pressButton(act);
    (void)world.awaitSheet();
    CHECK_FALSE(world.sheet()->isDraft());
    SECTION("left for another unit, after a question") {
        leaveFor(world, second);
        world.openUnit(first.toStdString());
    }
    SECTION("left by locking") {
        auto& presence = world.window->workplace().presence();
        presence.lock();
        CHECK(world.sheet() == nullptr);
        world.signIn();
    }
    QTest::qWait(300);
    CHECK(world.sheet() == nullptr);
}

TEST_CASE("a draft that is back tells and offers what is so now", "[unit]") {
    ActsWorld world;
    world.signIn();
    const auto unit = first.toStdString();
    for (const auto* hold : {"repair", "incident"})
        world.write("withdraw", unit, {{"hold", hold}, {"reason", ""}});
    world.openUnit(unit);
    world.key(Qt::Key_F7);
    world.pressButton("Back in service");
    (void)world.awaitSheet();
    world.pressButton("Out of service for repair");
    CHECK(world.sheet()->isDraft());
    leaveFor(world, second);
    world.write("release", unit, {{"hold", "repair"}});
    world.window->workplace().refresh();
    ActsWorld::waitUntil("it is read", [&] { return world.device(unit).holds.size() == 1; });
    world.scan(first);
    (void)world.awaitSheet();
    ActsWorld::waitUntil("it is read again",
                         [&] { return world.buttons("Out of service for repair").empty(); });
    // By the keyboard what is asked comes first, as before.
    world.sheet()->setFocus();
    do world.key(Qt::Key_Tab);
    while (qobject_cast<QPushButton*>(QApplication::focusWidget()) == nullptr);
    const auto* focused = QApplication::focusWidget();
    INFO(support::saysOf(*focused).toStdString());
    CHECK(focused == world.buttons("Held after an incident").front());
    // A scan over it is a question, whatever is left of it.
    world.scan(second);
    ActsWorld::waitUntil("it is asked",
                         [&] { return world.isSaid("What you typed stays here as a draft"); });
}

TEST_CASE("a part that was being fitted is proposed anew when it is back, but for what was typed",
          "[unit]") {
    ActsWorld world;
    world.signIn();
    const auto unit = first.toStdString();
    world.openUnit(unit);
    world.key(Qt::Key_F6);
    world.pressButton("Swap: Breathing circuit");
    world.typeInto("Lot", "4472");
    world.window->workplace().presence().lock();
    CHECK(world.sheet() == nullptr);
    const auto model = [&](const std::string& expected) {
        world.window->workplace().refresh();
        ActsWorld::waitUntil("it is read", [&] {
            const auto& fitted = world.device(unit).fitted;
            const auto circuit = fitted.find("circuit");
            return circuit == fitted.end() ? expected.empty()
                                           : circuit->second.attributes.text("model") == expected;
        });
    };
    world.fit(unit, "circuit", {{"model", "Fern dual 15"}, {"lot", "C-9"}});
    world.write("remove", unit, {{"position", "circuit"}});
    model("");
    world.signIn();
    (void)world.awaitSheet();
    ActsWorld::waitUntil("it is proposed anew", [&] {
        return world.line("Model")->text() == "Fern dual 15";
    });
    CHECK(world.line("Lot")->text() == "4472");
    CHECK(world.sheet()->accessibleName() == "Fit: Breathing circuit");
    CHECK(world.buttons("This one was fitted").size() == 1);
}
