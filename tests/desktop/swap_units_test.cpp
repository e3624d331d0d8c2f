// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// One unit for another: what the one that takes over is held for, and answers that contradict each
// other.
#include "acts_world.h"

using support::ActsWorld;

namespace {

const QString first = QString::fromLatin1(ActsWorld::inUse);

void openSwap(ActsWorld& world, const char* other) {
    world.signIn();
    world.openUnit(first.toStdString());
    world.key(Qt::Key_F7);
    world.pressButton("Swap for another unit");
    (void)world.awaitSheet();
    world.scan(other);
}

bool isStill(const ActsWorld& world, std::size_t count) {
    QTest::qWait(200);
    return world.entries().size() == count;
}

}  // namespace

TEST_CASE("the unit that takes over is asked about where it is held with a sheet", "[unit]") {
    ActsWorld world;
    openSwap(world, ActsWorld::held);
    ActsWorld::waitUntil("it is told once it is scanned",
                         [&] { return world.isSaid("KB-0106: ON HOLD since 08:00"); });
    const auto before = world.entries().size();
    world.pressButton(first + " is off the patient");
    ActsWorld::waitUntil("it is asked", [&] {
        return world.isSaid("This entry may change what has to stay as it is.");
    });
    CHECK(world.isSaid(QString("Unit %1.").arg(ActsWorld::held)));
    CHECK(world.isSaid("Do not clean, reset, switch off or unplug the unit"));
    world.pressButton("Leave the unit as it is");
    CHECK(isStill(world, before));
    world.pressButton(first + " is off the patient");
    world.pressButton("It was done: keep the entry");
    const auto kept = world.entriesSince(before, 2);
    CHECK(kept.front() == "use_end " + first.toStdString() + " {}");
    CHECK(kept.back().starts_with(std::string("use_start ") + ActsWorld::held));
}

TEST_CASE("a unit that is not ready says why before it takes over", "[unit]") {
    ActsWorld world;
    world.write("notice", "",
                {{"key", "fern_26"},
                 {"title", "Fern circuits crack"},
                 {"action", "stop_use"},
                 {"match", logbook::json::Object{{"lots", logbook::json::Array{"C-4471"}}}}});
    world.window->workplace().refresh();
    openSwap(world, ActsWorld::idle);
    ActsWorld::waitUntil("it is told once it is scanned", [&] {
        return world.isSaid("KB-0101 is not ready: breathing circuit under stop-use notice: Fern "
                            "circuits crack;");
    });
    CHECK(world.buttons(first + " is off the patient").front()->isEnabled());
}

TEST_CASE("a unit that is retired does not take over, and is told to be so", "[unit]") {
    ActsWorld world;
    world.write("retire", ActsWorld::repair, {{"reason", "sold"}});
    world.window->workplace().refresh();
    ActsWorld::waitUntil("it is read", [&] { return world.device(ActsWorld::repair).retired; });
    openSwap(world, "A-0107");
    ActsWorld::waitUntil("it is told",
                         [&] { return world.buttons("KB-0107 is retired.").size() == 1; });
    CHECK_FALSE(world.buttons("KB-0107 is retired.").front()->isEnabled());
    CHECK(world.sheet()->accessibleName() == "Swap for another unit");
}

TEST_CASE("a start on a unit that is held with a sheet is asked about, no emergency is", "[unit]") {
    ActsWorld world;
    world.signIn();
    world.openUnit(ActsWorld::held);
    world.key(Qt::Key_F7);
    const auto before = world.entries().size();
    SECTION("a start") {
        world.pressButton("Start of use");
        world.pressButton("The use began");
        world.pressButton("It was done: keep the entry");
    }
    SECTION("an emergency") {
        world.pressButton("Emergency start");
        world.pressButton("Started in an emergency");
    }
    CHECK(world.entriesSince(before, 1).front().starts_with(std::string("use_start ") +
                                                            ActsWorld::held));
}

TEST_CASE("a fault for a reason and no fault do not go together", "[unit]") {
    ActsWorld world;
    openSwap(world, ActsWorld::idle);
    const auto before = world.entries().size();
    const QString contradicts = "The reason is a fault of " + first;
    world.pressButton("Fault of the unit");
    CHECK(world.buttons(contradicts).size() == 1);
    world.pressButton("No fault");
    REQUIRE(world.buttons(contradicts).size() == 1);
    CHECK_FALSE(world.buttons(contradicts).front()->isEnabled());
    CHECK(isStill(world, before));
    SECTION("a fault is named") { world.pressButton("Screen damaged"); }
    SECTION("the reason was another") { world.pressButton("Patient's needs"); }
    world.pressButton(first + " is off the patient");
    ActsWorld::waitUntil("it is kept", [&] { return world.entries().size() > before; });
}

TEST_CASE("a unit that is in use by the log takes over once that use is over", "[unit]") {
    ActsWorld world;
    // Of neither use it was said where it is.
    world.write("use_start", ActsWorld::inUse, {});
    world.write("use_start", ActsWorld::idle, {});
    world.window->workplace().refresh();
    ActsWorld::waitUntil("both are read",
                         [&] { return world.device(ActsWorld::idle).use.has_value(); });
    openSwap(world, ActsWorld::idle);
    CHECK(world.isSaid("Where " + first + " is was not said."));
    world.typeInto("Where?", "ICU 9");
    const QString other = ActsWorld::idle;
    const auto before = world.entries().size();
    const auto says = first + " is off the patient, " + other +
                      " took over, which is in use by the log";
    world.pressButton(says);
    ActsWorld::waitUntil("it is asked", [&] {
        return world.isSaid("By the log " + other +
                            " is in use since 08:00, place not said at its start, last known: "
                            "Equipment room.");
    });
    world.pressButton("Back, look again");
    CHECK(isStill(world, before));
    world.pressButton(says);
    world.pressButton("That use is over, " + other + " took over");
    const auto kept = world.entriesSince(before, 3);
    CHECK(kept[0] == "use_end " + first.toStdString() + " {}");
    CHECK(kept[1] == "use_end " + other.toStdString() + " {}");
    CHECK(kept[2].starts_with("use_start " + other.toStdString()));
    CHECK(kept[2].find(R"("location":"ICU 9")") != std::string::npos);
}

TEST_CASE("what became of the other unit while it was asked is looked at again", "[unit]") {
    ActsWorld world;
    const QString other = ActsWorld::held;
    const bool wasInUse = GENERATE(true, false);
    if (wasInUse) world.write("use_start", ActsWorld::held, {});
    openSwap(world, ActsWorld::held);
    world.pressButton(first + " is off the patient");
    const auto wait = [&](const QString& question) {
        ActsWorld::waitUntil("it is asked", [&] { return world.isSaid(question); }, 10'000);
    };
    const QString ofTheUse = "By the log " + other + " is in use since 08:00";
    const QString ofTheHold = "This entry may change what has to stay as it is.";
    wait(wasInUse ? ofTheUse : ofTheHold);
    world.write(wasInUse ? "use_end" : "use_start", ActsWorld::held, {});
    world.window->workplace().refresh();
    ActsWorld::waitUntil("it is read", [&] {
        return world.device(ActsWorld::held).use.has_value() != wasInUse;
    });
    const auto before = world.entries().size();
    if (!wasInUse) world.pressButton("It was done: keep the entry");
    if (!wasInUse) wait(ofTheUse);
    world.pressButton("That use is over, " + other + " took over");
    wait(ofTheHold);
    world.pressButton("It was done: keep the entry");
    const auto kept = world.entriesSince(before, wasInUse ? 2 : 3);
    CHECK(kept.front() == "use_end " + first.toStdString() + " {}");
    if (!wasInUse) CHECK(kept[1] == "use_end " + other.toStdString() + " {}");
    CHECK(kept.back().starts_with("use_start " + other.toStdString()));
}
