// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The history of a unit: read, filtered, corrected, looked back at.
#include "desktop/bedside/history_model.h"

#include "busy.h"
#include "station/answers.h"
#include "window_world.h"

#include <QAbstractItemModelTester>
#include <QLineEdit>
#include <QListView>
#include <QTextBrowser>

namespace {

using support::WindowWorld;

std::shared_ptr<const report::History> historyOf(WindowWorld& world, const std::string& device) {
    const station::Surroundings surroundings{world.clock, station::system::systemZones(),
                                             *words::Words::builtIn(), "desk"};
    const station::WholeStanding whole{
        *world.window->workplace().fleet()->standing,
        std::make_shared<const station::WholeLog>(world.logRead())};
    return std::make_shared<const report::History>(
        station::history(surroundings, whole, device));
}

void openHistory(WindowWorld& world, const QString& serial) {
    world.key(Qt::Key_K, Qt::ControlModifier);
    world.type(serial);
    world.key(Qt::Key_Return);
    WindowWorld::waitUntil("the unit is shown", [&] { return world.isSaid(serial); });
    world.press(QStringLiteral("History"));
    WindowWorld::waitUntil("the entries are read", [&] {
        const auto lists = world.all<QListView>(QStringLiteral("Entries on this unit"));
        return !lists.empty() && lists.front()->model()->rowCount() > 0;
    });
}

// As a person presses a line.
void pressLine(QListView& list, int row) {
    const auto index = list.model()->index(row, 0);
    list.scrollTo(index);
    REQUIRE(list.visualRect(index).height() >= desktop::targetSize);
    QTest::mouseClick(list.viewport(), Qt::LeftButton, {}, list.visualRect(index).center());
}

}  // namespace

TEST_CASE("the entries keep to the manners of a model", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    desktop::HistoryModel model;
    const QAbstractItemModelTester tester(&model,
                                          QAbstractItemModelTester::FailureReportingMode::Fatal);
    model.show(historyOf(world, "KB-0142"));
    const int all = model.rowCount();
    CHECK(all > 10);
    int sorted = 0;
    for (const auto sort : {report::EntrySort::Check, report::EntrySort::SetUp,
                            report::EntrySort::Use, report::EntrySort::Trouble,
                            report::EntrySort::Other}) {
        model.showSort(sort);
        sorted += model.rowCount();
        for (int row = 0; row < model.rowCount(); ++row) CHECK(model.lineAt(row).sort == sort);
    }
    CHECK(sorted == all);
    model.showSort({});
    model.show(historyOf(world, "KB-0101"));
    CHECK(model.rowCount() > 0);
}

TEST_CASE("an entry is struck through from the history, with a reason", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    openHistory(world, QStringLiteral("KB-0142"));
    auto* list = world.one<QListView>(QStringLiteral("Entries on this unit"));
    const auto says = list->model()->index(0, 0).data(desktop::HistoryModel::SaysRole).toString();
    pressLine(*list, 0);
    world.press(QStringLiteral("Strike it through"));
    world.press(QStringLiteral("Strike it through"));
    CHECK(world.isSaid(QStringLiteral("Say why first")));
    world.press(QStringLiteral("Entered twice"));
    world.press(QStringLiteral("Strike it through"));
    world.type(QStringLiteral("m.toller"));
    world.key(Qt::Key_Return);
    world.type(QStringLiteral("414376"));
    world.key(Qt::Key_Return);
    // The strike is an entry too, and the latest.
    int row = 0;
    WindowWorld::waitUntil("it is lined through", [&] {
        for (row = 0; row < list->model()->rowCount(); ++row) {
            const auto index = list->model()->index(row, 0);
            if (index.data(desktop::HistoryModel::SaysRole).toString() == says &&
                index.data(desktop::HistoryModel::StrikeRole)
                    .toString()
                    .contains(QStringLiteral("Entered twice")))
                return true;
        }
        return false;
    });
    WindowWorld::waitUntil("the sheet is gone", [&] { return world.sheet() == nullptr; });
    pressLine(*list, row);
    CHECK(world.all<QPushButton>(QStringLiteral("Strike it through")).empty());
}

TEST_CASE("an entry is moved to the unit that was meant, by two scans", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    openHistory(world, QStringLiteral("KB-0142"));
    auto* list = world.one<QListView>(QStringLiteral("Entries on this unit"));
    pressLine(*list, 0);
    world.press(QStringLiteral("It was another unit: move it"));
    world.scan(QStringLiteral("KB-0101"));
    WindowWorld::waitUntil("the scan is taken", [&] {
        return world.one<QLineEdit>(QStringLiteral("KB-0101"))->isVisible();
    });
    world.press(QStringLiteral("Wrong unit"));
    world.press(QStringLiteral("Move it"));
    // It is looked at what it would be there, before anybody signs for it.
    WindowWorld::waitUntil("a name is asked for", [&] {
        return !world.all<QLineEdit>(QStringLiteral("Short name or badge")).empty();
    });
    world.type(QStringLiteral("m.toller"));
    world.key(Qt::Key_Return);
    world.type(QStringLiteral("414376"));
    world.key(Qt::Key_Return);
    WindowWorld::waitUntil("it is told", [&] {
        return world.isSaid(QStringLiteral("Moved to KB-0101, entered anew there: 1."));
    });
    WindowWorld::waitUntil("the other unit has it", [&] {
        return historyOf(world, "KB-0101")->lines.front().record.station == "demo-desk";
    });
}

TEST_CASE("a look back is marked as past and keeps to the time asked", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    openHistory(world, QStringLiteral("KB-0142"));
    world.press(QStringLiteral("Look back"));
    world.type(QStringLiteral("yesterday"));
    world.key(Qt::Key_Return);
    auto* text = world.one<QTextBrowser>(QStringLiteral("What could be known then"));
    WindowWorld::waitUntil("it is told", [&] {
        return text->toPlainText().contains(QStringLiteral("\"yesterday\" is no time."));
    });
    CHECK_FALSE(world.isSaid(QStringLiteral("THE PAST")));
    auto* when = world.one<QLineEdit>(QStringLiteral("yesterday"));
    when->selectAll();
    when->setFocus();
    world.type(QStringLiteral("2026-11-20 0214"));
    {
        const support::BusyReader busy(world);
        world.key(Qt::Key_Return);
        CHECK(text->toPlainText().startsWith(QStringLiteral("One moment")));
    }
    WindowWorld::waitUntil("the past is shown",
                           [&] { return world.isSaid(QStringLiteral("THE PAST: 20 Nov 2026")); });
    CHECK(text->toPlainText().contains(QStringLiteral("20 Nov 2026 02:14")));
    world.key(Qt::Key_Escape);
    CHECK_FALSE(world.isSaid(QStringLiteral("THE PAST")));
}
