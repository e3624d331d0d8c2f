// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Codes that no speed tells from typing, and what is typed and left: it is asked about, and nothing
// is lost unasked.
#include "acts_world.h"

using support::ActsWorld;

namespace {

constexpr int slowMs = 50;  // a character, as some scanners send

void scanSlowly(const ActsWorld& world, const QString& text) {
    for (const auto letter : text) world.pressKey(letter.toLatin1(), slowMs);
    world.pressKey(Qt::Key_Return, slowMs);
}

void awaitQuestion(const ActsWorld& world) {
    ActsWorld::waitUntil("it is asked",
                         [&] { return world.isSaid("This text ends in KB-0102, a code"); });
}

}  // namespace

TEST_CASE("a code that comes as slowly as typing is asked about at its end", "[unit]") {
    ActsWorld world;
    const auto before = world.records();
    world.beginNote("Fan cover loose");
    const auto noted = [&] { return world.line("What is to be noted")->text(); };
    scanSlowly(world, "KB-0102");
    awaitQuestion(world);
    world.pressButton("It was scanned: take it out of the text");
    ActsWorld::waitUntil("it is a question, as any scan is", [&] {
        return world.isSaid("You are entering something on unit KB-0101.");
    });
    world.pressButton("Stay with KB-0101");
    CHECK(noted() == "Fan cover loose");
    // Right after a letter was typed a scanner's speed tells nothing.
    world.line("What is to be noted")->setFocus();
    world.type("!");
    for (const auto letter : QStringLiteral("KB-0102")) world.pressKey(letter.toLatin1(), 1);
    world.pressKey(Qt::Key_Return, 1);
    awaitQuestion(world);
    world.pressButton("It was typed: it stays in the text");
    CHECK(noted() == "Fan cover loose!KB-0102");
    // Escape loses no text unasked.
    world.key(Qt::Key_Escape);
    ActsWorld::waitUntil("it is asked", [&] { return world.isSaid("is not kept. Leave it?"); });
    world.key(Qt::Key_Escape);
    CHECK(noted() == "Fan cover loose!KB-0102");
    world.key(Qt::Key_Escape);
    world.pressButton("Leave it, lose what I typed");
    CHECK(world.sheet() == nullptr);
    CHECK(world.records() == before);
}

TEST_CASE("letters that a busy system stamps at once come to the field they are for", "[unit]") {
    ActsWorld world;
    world.press("Fleet");
    auto* find = world.one<QLineEdit>("Find units by any word of their row");
    find->setFocus();
    {
        const support::KeyStamps::Scanner atOnce(*world.stamps);
        for (const auto letter : QStringLiteral("larch")) world.pressKey(letter.toLatin1(), 1);
    }
    ActsWorld::waitUntil("they are there", [&] { return find->text() == "larch"; });
    CHECK(world.sheet() == nullptr);
    CHECK(find->isVisible());
    // A unit is one all the same.
    find->clear();
    {
        const support::KeyStamps::Scanner scanner(*world.stamps);
        for (const auto letter : QStringLiteral("KB-0101")) world.pressKey(letter.toLatin1(), 1);
    }
    ActsWorld::waitUntil("it is open", [&] {
        return world.window->findChild<desktop::BedsideDesk*>()->serial() == "KB-0101";
    });
    CHECK(find->text().isEmpty());
}
