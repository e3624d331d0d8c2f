// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What the bar, the line below it and the lists say of how a unit stands: one thing, and true.
#include "acts_world.h"
#include "desktop/bedside/ready_list.h"
#include "desktop/theme/verdict_chip.h"

namespace {

using support::ActsWorld;
using support::WindowWorld;

void openUnit(WindowWorld& world, const QString& serial) {
    world.scan(serial);
    WindowWorld::waitUntil("the unit is shown", [&] {
        return world.isSaid(serial) && !world.isSaid("ready by record.");
    });
}

}  // namespace

TEST_CASE("a unit taken out of service during a use says both in one sentence", "[unit]") {
    ActsWorld world;
    world.write("withdraw", world.inUse, {{"hold", "repair"}, {"reason", ""}});
    world.window->workplace().refresh();
    ActsWorld::waitUntil("it is read", [&] { return !world.device(world.inUse).holds.empty(); });
    world.openUnit(world.inUse);
    auto* chip = world.window->findChild<desktop::VerdictChip*>();
    CHECK(chip->accessibleName().contains(QStringLiteral("out of service, in use")));
    CHECK(world.isSaid(QStringLiteral("In use, and taken out of service all the same")));
    CHECK_FALSE(world.isSaid(QStringLiteral("In use. This stands meanwhile:")));
}

TEST_CASE("a unit that is ready tells what is still done at the bedside, in its order", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    openUnit(world, QStringLiteral("KB-0101"));
    CHECK(world.isSaid(QStringLiteral("Ready. Before a patient is connected, this is still to be "
                                      "done at the bedside: ")));
    CHECK_FALSE(world.isSaid(QStringLiteral("Ready. No step is open.")));
    CHECK(world.isSaid(QStringLiteral("Before a patient is connected")));
    // The table tells them in the order in which they stand at the bedside.
    const auto& fleet = *world.window->workplace().fleet();
    const auto told = report::atEachStart(fleet.board, *words::Words::builtIn());
    const auto& checks = fleet.board.state.rulebook->checks;
    std::size_t last = 0;
    int found = 0;
    for (const auto& check : checks) {
        auto label = words::Words::builtIn()->label(check.label, check.key);
        label = words::Words::builtIn()->inside(label);
        const auto at = told.find(label);
        if (at == std::string::npos) continue;
        CHECK(at >= last);
        last = at;
        ++found;
    }
    CHECK(found >= 2);
}

TEST_CASE("what is to be remarked of a unit that is ready stands in the list of them", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    const auto& fleet = *world.window->workplace().fleet();
    int remarked = 0;
    for (std::size_t i = 0; i < fleet.lines.size(); ++i) {
        const auto& missing = fleet.lines[i].missing;
        if (fleet.board.rows[i].assessment.verdict != rules::Verdict::Ready || missing.empty())
            continue;
        INFO(missing);
        world.waitUntil("it is told",
                        [&] { return world.isSaid(QString::fromStdString(missing)); });
        ++remarked;
    }
    CHECK(remarked > 0);
}
