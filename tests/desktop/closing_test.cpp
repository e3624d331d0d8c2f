// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A window that is closed over what is not kept asks first.
#include "acts_world.h"
#include "desktop/shell/closing.h"

using namespace desktop;
using support::ActsWorld;

namespace {

void beginNote(ActsWorld& world) {
    world.signIn();
    world.openUnit(ActsWorld::idle);
    world.key(Qt::Key_F7);
    world.pressButton("Note");
    (void)world.awaitSheet();
    world.type("fan noise");
    ActsWorld::waitUntil("it is typed", [&] { return world.sheet()->isDraft(); });
}

}  // namespace

TEST_CASE("a window over what is not kept asks before it closes", "[unit]") {
    ActsWorld world;
    CHECK(world.window->close());
    world.window->show();
    beginNote(world);
    CHECK_FALSE(world.window->close());
    CHECK(world.isSaid("Not kept yet:\nNote, unit KB-0101\n"));
    CHECK_FALSE(world.window->close());  // it is asked once
    world.pressButton("Keep writing");
    REQUIRE(world.sheet() != nullptr);
    CHECK(world.sheet()->findChild<QLineEdit*>()->text() == "fan noise");
    // Where the session of the computer ends, it is told how to go on.
    auto* closing = world.window->findChild<Closing*>();
    CHECK_FALSE(closing->mayClose(Closing::Cause::Session));
    CHECK(world.isSaid("It was asked to wait"));
    world.key(Qt::Key_Escape);
    // What was put aside is lost as well, whoever closes it.
    world.key(Qt::Key_L, Qt::ControlModifier);
    CHECK_FALSE(world.window->close());
    CHECK(world.isSaid("Note, unit KB-0101, put aside by Mara Toller"));
    const auto before = world.records();
    world.pressButton("Close it, lose that");
    CHECK_FALSE(world.window->isVisible());
    CHECK(world.records() == before);
}
