// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The list of keys: no two alike, each works where the list says so, none under a sheet.
#include "desktop/bedside/bedside_desk.h"
#include "desktop/fleet/fleet_desk.h"
#include "desktop/fleet/unit_table.h"
#include "desktop/shell/shortcuts.h"
#include "desktop/window_world.h"

#include <QHeaderView>
#include <QLineEdit>
#include <QShortcut>
#include <set>

using namespace support;
using desktop::Command;
using desktop::Where;

namespace {

// As a person presses it.
void strike(const WindowWorld& world, const QKeySequence& keys) {
    const auto pressed = keys[0];
    world.key(pressed.key(), pressed.keyboardModifiers());
    QTest::qWait(50);
}

// What can be seen of the window, as far as keys change it.
struct Seen {
    QStringList checked;  // buttons
    QString focus, sheet, unit;
    int column = -1;
    Qt::SortOrder order{};

    bool operator==(const Seen&) const = default;
};

Seen seenIn(const WindowWorld& world) {
    Seen seen;
    for (const auto* button : world.window->findChildren<QAbstractButton*>())
        if (button->isVisible() && button->isChecked()) seen.checked << saysOf(*button);
    if (const auto* focus = QApplication::focusWidget()) seen.focus = focus->accessibleName();
    if (const auto* sheet = world.sheet()) seen.sheet = sheet->accessibleName();
    seen.unit = world.window->findChild<desktop::BedsideDesk*>()->serial();
    const auto* head = world.window->findChild<desktop::UnitTable*>()->horizontalHeader();
    seen.column = head->sortIndicatorSection();
    seen.order = head->sortIndicatorOrder();
    return seen;
}

// Where the key is said to work, with something else in front than what it leads to.
void goTo(const WindowWorld& world, Where where, Command command) {
    while (auto* sheet = world.sheet()) {
        sheet->callOff();
        QTest::qWait(20);
    }
    const bool isFleet = where == Where::Fleet || command == Command::ShowBedside;
    world.press(isFleet ? QStringLiteral("Fleet") : QStringLiteral("Bedside"));
    if (isFleet) return;
    auto* desk = world.window->findChild<desktop::BedsideDesk*>();
    if (desk->serial().isEmpty()) desk->showUnit(QStringLiteral("KB-0129"));
    world.waitUntil("the unit is shown",
                    [&] { return !world.all<QPushButton>("History").empty(); });
    world.press(command == Command::ShowWay ? QStringLiteral("History")
                                            : QStringLiteral("Way to ready"));
}

}  // namespace

TEST_CASE("no two keys of the list are alike, and none is without a word", "[exhaustive]") {
    std::set<QString> keys;
    for (const auto& each : desktop::shortcuts()) {
        INFO(each.says.toStdString());
        CHECK(keys.insert(each.keys.toString()).second);
        CHECK_FALSE(each.keys.isEmpty());
        CHECK_FALSE(each.says.isEmpty());
        CHECK(each.keys == desktop::keysOf(each.command));
    }
}

TEST_CASE("each key of the list does something where the list says so", "[exhaustive]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    for (const auto& each : desktop::shortcuts()) {
        INFO(each.keys.toString().toStdString() << ": " << each.says.toStdString());
        // Those of the next step are pressed as its buttons are (way_entries_test.cpp).
        if (each.command == Command::StepDone || each.command == Command::StepNotSo ||
            each.command == Command::StepFailed)
            continue;
        goTo(world, each.where, each.command);
        const auto before = seenIn(world);
        strike(world, each.keys);
        CHECK_FALSE(seenIn(world) == before);
    }
}

TEST_CASE("no key of the list reaches what lies under a sheet", "[exhaustive]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    for (const auto where : {Where::Bedside, Where::Fleet}) {
        goTo(world, where, Command::ShowHistory);
        world.key(Qt::Key_F1);
        REQUIRE(world.sheet() != nullptr);
        const auto before = seenIn(world);
        for (const auto& each : desktop::shortcuts()) {
            INFO(each.keys.toString().toStdString());
            strike(world, each.keys);
            CHECK(seenIn(world) == before);
        }
    }
}

TEST_CASE("a key that is held down does nothing a second time", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    const auto all = world.window->findChildren<QShortcut*>();
    REQUIRE(all.size() > 10);
    for (const auto* each : all) {
        INFO(each->key().toString().toStdString());
        CHECK_FALSE(each->autoRepeat());
    }
}
