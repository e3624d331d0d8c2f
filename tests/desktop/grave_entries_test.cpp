// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is grave: kept after the PIN once more, and by nobody who may not.
#include "acts_world.h"

using support::ActsWorld;

TEST_CASE("what is grave is kept by who types their PIN once more, else refused", "[unit]") {
    ActsWorld world;
    world.signIn();
    const std::string unit = ActsWorld::repair;
    world.openActs(unit);
    const auto before = world.entries().size();
    world.pressButton("Back in service");
    (void)world.awaitSheet();
    world.pressButton("This reason is gone");
    (void)world.awaitSheet();
    ActsWorld::waitUntil("the PIN is asked for",
                         [&] { return world.isSaid("Mara Toller, enter your PIN."); });
    CHECK(world.isSaid("For unit KB-0107: Released: Out of service for repair"));
    // A wrong one counts as anywhere.
    world.typePin("111223");
    ActsWorld::waitUntil("it is refused", [&] { return world.isSaid("not the PIN"); });
    world.clock.advance(logbook::Duration{60'000});  // as one has to wait
    world.key(Qt::Key_Escape);
    CHECK(world.entries().size() == before);
    CHECK(world.buttons("This reason is gone").size() == 1);
    world.key(Qt::Key_Escape);
    world.window->workplace().presence().lock();

    // Whoever may not is told so before a PIN is typed for nothing.
    world.signIn("p.quill");
    world.openActs(unit);
    world.pressButton("Back in service");
    (void)world.awaitSheet();
    world.pressButton("This reason is gone");
    ActsWorld::waitUntil("it is refused",
                         [&] { return world.isSaid("may not") && world.sheet()->isEnabled(); });
    CHECK(qobject_cast<desktop::PinSheet*>(world.sheet()) == nullptr);
    CHECK(world.entries().size() == before);
    CHECK(world.buttons("This reason is gone").size() == 1);
}
