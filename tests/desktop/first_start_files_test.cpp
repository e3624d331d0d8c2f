// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Files that somebody brings along to the first start: a rulebook of their own, a fleet list; and
// how they are chosen.
#include "first_start_world.h"

#include <utility>

using namespace support;

namespace {

void openNew(FirstStartWorld& world) {
    world.open({1280, 800}, {}, false);
}

QString textIn(const FirstStartWorld& world, const QString& name) {
    const auto* line = qobject_cast<QLineEdit*>(world.field(name));
    REQUIRE(line != nullptr);
    return line->text();
}

}  // namespace

TEST_CASE("a folder is chosen by presses, and files in it are none", "[unit]") {
    FirstStartWorld world;
    openNew(world);
    const auto inner = world.home.folder.file("wards") / "icu";
    std::filesystem::create_directories(inner);
    world.home.folder.write("notes.txt", "nothing");
    world.toDepartment();
    world.pressButton("Choose another folder");
    world.waitUntil("it is shown", [&] { return world.isSaid("In "); });
    // The data folder of the program is not there yet: it begins in the person's own.
    CHECK(world.buttons("notes.txt").empty());
    world.pressButton("wards");
    world.pressButton("icu");
    world.waitUntil("it is open",
                    [&] { return world.isSaid(QString::fromStdString(inner.string())); });
    world.pressButton("Up");
    world.pressButton("icu");
    world.waitUntil("it is open again",
                    [&] { return world.isSaid(QString::fromStdString(inner.string())); });
    world.pressButton("This folder");
    world.waitUntil("the sheet is gone", [&] { return world.sheet() == nullptr; });
    CHECK(textIn(world, "Where the logbook lies").toStdString() ==
          (inner / "department.logbook").string());
    world.pressButton("Choose another folder");
    world.pressButton("Up");
    world.pressButton("Back");
    CHECK(textIn(world, "Where the logbook lies").toStdString() ==
          (inner / "department.logbook").string());
}

TEST_CASE("a rulebook of one's own is told with its faults or its warnings", "[unit]") {
    FirstStartWorld world;
    world.home.folder.write("faulty.toml", "format = 1\ntitle = \"Ward\"\nedition = \"1\"\n");
    world.home.folder.write("policy.toml", policyOf("color = 3\n"));
    world.home.folder.write("mild.toml", policyOf());
    world.home.folder.write("list.csv", "serial\n");
    openNew(world);
    world.toRules();
    world.pressButton("Our own rulebook");
    world.waitUntil("files are offered", [&] { return !world.buttons("mild.toml").empty(); });
    CHECK(world.buttons("list.csv").empty());
    world.pressButton("faulty.toml");
    world.waitUntil("its faults are told",
                    [&] { return world.isSaid("These faults have to be put right first"); });
    CHECK(world.isSaid("time_zone"));
    world.pressButton("Begin the logbook");
    CHECK(world.isSaid("This rulebook cannot be used"));
    world.chooseOwn("policy.toml");
    world.waitUntil("the other's are told", [&] { return world.isSaid("color"); });
    world.chooseOwn("mild.toml");
    world.waitUntil("its warnings are told", [&] { return world.isSaid("To think about"); });
    CHECK_FALSE(std::filesystem::exists(world.home.folder.file("data")));
    world.pressButton("Begin the logbook");
    world.waitUntil("it is begun", [&] { return world.isSaid("4 of 5"); });
    const auto& fleet = world.window->workplace().fleet();
    world.waitUntil("it is read", [&] { return fleet != nullptr; });
    CHECK(fleet->board.state.rulebook->title.size() > 0);
}

TEST_CASE("a label that looks like a patient's name is taken once somebody says it is none",
          "[unit]") {
    FirstStartWorld world;
    world.home.folder.write("fleet.csv",
                            "serial,model,groups,commissioned,label\n"
                            "KB-0500,Larch 4,adult,2026-01-15,Mrs Harebell\n");
    openNew(world);
    world.toUnits();
    world.pressButton("Enrol a fleet list");
    world.pressButton("fleet.csv");
    world.waitUntil("it is refused", [&] { return world.isSaid("as if it named a patient"); });
    CHECK(world.isSaid("or say that it names no patient"));
    CHECK_FALSE(world.isSaid("--"));
    world.pressButton("None of them names a patient");
    world.waitUntil("it can be enrolled",
                    [&] { return world.isSaid("can be enrolled: 1. Lines refused: 0."); });
    world.pressButton("Enrol what is not refused");
    world.waitUntil("it is enrolled",
                    [&] { return world.isSaid("KB-0500 is enrolled."); });
}

TEST_CASE("a place that looks like a patient's name is asked about", "[unit]") {
    FirstStartWorld world;
    openNew(world);
    world.toUnits();
    world.fill("Serial", "KB-0600");
    world.fill("Model", "Larch 4");
    world.fill("Place", "Mrs Harebell");
    world.pressButton("Enrol this unit");
    world.pressButton("It names no patient: enrol it");
    world.waitUntil("it is enrolled",
                    [&] { return world.isSaid("KB-0600 is enrolled."); });
}

TEST_CASE("a fleet list shows every refused line before anything is written", "[unit]") {
    FirstStartWorld world;
    std::filesystem::create_directories(world.home.folder.file("lists"));
    world.home.folder.write("lists/fleet.csv",
                            "serial,model,groups,commissioned,shelf\n"
                            "KB-0500,Larch 4,adult,2026-01-15,1\n"
                            "KB-0501,Larch 4,giraffe,2026-01-15,2\n"
                            "KB-0500,Larch 4,adult,2026-01-15,3\n"
                            ",Larch 4,adult,2026-01-15,4\n"
                            "KB-0502,Rowan 2,adult,2026-01-15,5\n"
                            "KB-0503,Larch 4,adult,2026-01-15,6\n");
    openNew(world);
    world.toUnits();
    bool isLookedFor = true;
    const auto preview = [&] {
        world.pressButton("Enrol a fleet list");
        // The second time it begins where the list was found.
        if (std::exchange(isLookedFor, false)) world.pressButton("lists");
        world.pressButton("fleet.csv");
        world.waitUntil("it is previewed", [&] { return world.isSaid("Nothing is written yet"); });
    };
    preview();
    CHECK(world.isSaid("Units that can be enrolled: 2. Lines refused: 4."));
    CHECK(world.isSaid("Line 2, unit KB-0500, is refused."));
    CHECK(world.isSaid("Line 3, unit KB-0501, is refused."));
    CHECK(world.isSaid("giraffe"));
    CHECK(world.isSaid("Line 4, unit KB-0500, is refused."));
    CHECK(world.isSaid("Line 5 is refused."));
    CHECK(world.isSaid("The column shelf is not known"));
    world.pressButton("Back, enrol none");
    CHECK(world.window->workplace().fleet()->board.rows.empty());
    preview();
    world.pressButton("Enrol what is not refused");
    world.waitUntil("they are enrolled",
                    [&] { return world.isSaid("Enrolled from the list: 2."); });
    world.waitUntil("they are read", [&] {
        return world.window->workplace().fleet()->board.rows.size() == 2;
    });
    world.pressButton("Go on to the first check");
    world.waitUntil("the first is open", [&] { return world.isSaid("KB-0502"); });
}

TEST_CASE("a unit that is scanned before the last is enrolled is not taken for it", "[unit]") {
    FirstStartWorld world;
    openNew(world);
    world.toUnits();
    world.scan("KB-0500");
    world.waitUntil("it is read", [&] { return textIn(world, "Serial number") == "KB-0500"; });
    world.scan("KB-0501");
    world.waitUntil("it is told", [&] { return world.isSaid("Read KB-0501, but KB-0500"); });
    CHECK(textIn(world, "Serial number") == "KB-0500");
    world.pressSeen(world.field("Asset number"));
    world.scan("40142");
    world.waitUntil("it is read", [&] { return textIn(world, "Asset number") == "40142"; });
    CHECK(textIn(world, "Serial number") == "KB-0500");
}
