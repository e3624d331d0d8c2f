// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A hold with a sheet: across the desk, shown and saved by presses, and asked before an entry may
// change what is to stay as it is. At any size of window and text.
#include "acts_world.h"

#include <filesystem>

using support::ActsWorld;
using Lines = std::vector<std::string>;

namespace {

constexpr const char* held = ActsWorld::held;
constexpr const char* banner = "Held after an incident since";

}  // namespace

TEST_CASE("the sheet of a hold is one press away and is saved as a PDF", "[unit]") {
    ActsWorld world;
    world.openUnit(held);
    world.pressButton(banner);
    (void)world.awaitSheet();
    CHECK(world.isSaid("Do not clean, reset, switch off or unplug the unit"));
    CHECK(world.isSaid("Risk manager"));
    const auto file = world.folder.file("sheet.pdf");
    world.typeInto("File for the sheet", QString::fromStdString(file.string()));
    world.pressButton("Save it as a PDF");
    ActsWorld::waitUntil("it is saved", [&] { return world.isSaid("Saved as"); });
    CHECK(support::bytesOf(file).starts_with("%PDF"));
    const auto bytes = std::filesystem::file_size(file);
    world.pressButton("Save it as a PDF");
    ActsWorld::waitUntil("it is told",
                         [&] { return world.isSaid("there is a file of that name"); });
    CHECK(std::filesystem::file_size(file) == bytes);
}

TEST_CASE("what a hold forbids is asked about and never prevented", "[unit]") {
    ActsWorld world;
    world.signIn();
    world.openUnit(held);
    world.key(Qt::Key_F6);
    const auto before = world.entries().size();
    world.pressButton("Take out: Breathing circuit");
    world.pressButton("It was taken out");
    ActsWorld::waitUntil("it is asked", [&] {
        return world.isSaid("This entry may change what has to stay as it is.");
    });
    CHECK(world.isSaid("Keep the circuit, the parts"));
    CHECK(world.entries().size() == before);
    SECTION("no") {
        world.pressButton("Leave the unit as it is");
        QTest::qWait(200);
        CHECK(world.entries().size() == before);
        CHECK(world.buttons("It was taken out").front()->isEnabled());
    }
    SECTION("yes") {
        world.pressButton("It was done: keep the entry");
        CHECK(world.entriesSince(before, 1) ==
              Lines{std::string("remove ") + held + " {\"position\":\"circuit\"}"});
    }
}

TEST_CASE("a note on a unit under such a hold is not asked about", "[unit]") {
    ActsWorld world;
    world.signIn();
    world.openUnit(held);
    world.key(Qt::Key_F7);
    const auto before = world.entries().size();
    world.pressButton("Note");
    world.typeInto("What is to be noted", "kept apart");
    world.pressButton("Keep this note");
    CHECK(world.entriesSince(before, 1) ==
          Lines{std::string("note ") + held + " {\"text\":\"kept apart\"}"});
}

TEST_CASE("at 1024 by 700 and 200 % text every act can be pressed", "[unit]") {
    ActsWorld world({1024, 700}, {desktop::Theme::Dark, 200});
    world.signIn();
    world.openUnit(held);
    world.key(Qt::Key_F7);
    const auto before = world.entries().size();
    world.pressButton("Service");
    world.pressButton("Preventive maintenance");
    world.pressButton("The unit was in use");
    world.pressButton("Preventive maintenance: The unit was in use");
    world.pressButton("It was done: keep the entry");
    CHECK(world.entriesSince(before, 1) ==
          Lines{std::string("service ") + held +
                " {\"outcome\":\"in_use\",\"service\":\"preventive_maintenance\"}"});
    world.key(Qt::Key_F6);
    world.pressButton("Swap: Breathing circuit");
    world.typeInto("Lot", "4473");
    CHECK(world.buttons("The old one is out").size() == 1);
    world.pressButton("Back, keep nothing");
    CHECK(world.entries().size() == before + 1);
}
