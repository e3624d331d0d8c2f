// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The fleet desk on the demo, as the charge therapist meets it.
#include "desktop/bedside/bedside_desk.h"
#include "desktop/fleet/fleet_filter.h"
#include "desktop/fleet/unit_table.h"
#include "desktop/looked_at.h"
#include "desktop/shell/press_row.h"
#include "desktop/window_world.h"

#include <QTextBrowser>
#include <ctime>

using namespace support;
using desktop::FleetRow;
using desktop::PressRow;
using desktop::UnitTable;

namespace {

// Once it was told who can sign in: that goes with the desk on which it was told.
void showFleet(const WindowWorld& world) {
    world.waitUntil("the demo has told who can sign in", [&] { return world.isSaid("v.guest"); });
    world.key(Qt::Key_2, Qt::ControlModifier);
    world.waitUntil("the soonest units are known", [&] {
        return world.isSaid("Soonest ready") && !world.isSaid("Working it out");
    });
}

UnitTable& tableOf(const WindowWorld& world) {
    return *world.one<UnitTable>("All units");
}

QString cell(const UnitTable& table, int row, FleetRow::Column column) {
    return table.model()->index(row, column).data().toString();
}

}  // namespace

TEST_CASE("The first screenful of the fleet desk needs no press", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    const bool isScarce = GENERATE(false, true);
    isScarce ? world.open({1024, 700}, {desktop::Theme::Light, 200}) : world.open();
    showFleet(world);
    QTest::qWait(100);
    const auto& board = world.window->workplace().fleet()->board;
    for (const auto& group : board.groups) {
        const auto label = QString::fromStdString(
            words::groupLabel(board.context(*words::Words::builtIn()), group.group));
        const auto* row = world.one<PressRow>(label + ": ");
        CHECK(row->accessibleName().contains(QStringLiteral("%1 ready").arg(group.ready)));
        CHECK_FALSE(row->visibleRegion().isEmpty());
    }
    // Three lapses and three units that can be ready soonest, each with its minutes; where room is
    // scarce a lapse that is days ahead, as these are, with its day alone.
    std::size_t timed = 0;
    for (const auto* row : world.all<PressRow>("KB-"))
        timed += row->accessibleName().contains(", in ") ? 1 : 0;
    CHECK(world.all<PressRow>("KB-").size() == 6);
    CHECK(timed == (isScarce ? 3 : 6));
    for (const auto* row : world.all<PressRow>("")) {
        INFO(row->accessibleName().toStdString());
        CHECK(row->visibleRegion().boundingRect().height() == row->height());
    }
    CHECK(world.isSaid("As of "));
    // Unless it is read again just then, as it is four times a minute.
    desktop::SharedFleetView read;
    world.waitUntil("the view tells its age", [&] {
        if (const auto now = world.window->workplace().fleet(); now != read) {
            read = now;
            world.clock.advance({40'000});
        }
        return world.isSaid("read 40 s ago");
    });
    CHECK(tableOf(world).model()->rowCount() == static_cast<int>(board.rows.size()));
}

TEST_CASE("The rows are chosen by group, verdict and typed words", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    showFleet(world);
    auto& table = tableOf(world);
    const int all = table.model()->rowCount();
    world.press(world.one<PressRow>("Neonatal: "));
    for (int row = 0; row < table.model()->rowCount(); ++row)
        CHECK(cell(table, row, FleetRow::Group) == "Neonatal");
    CHECK(table.model()->rowCount() < all);
    CHECK(world.isSaid(QStringLiteral("of %1 units are shown").arg(all)));
    world.press(world.one<PressRow>("Neonatal: "));
    CHECK(table.model()->rowCount() == all);
    world.press("Not ready");
    REQUIRE(table.model()->rowCount() > 0);
    CHECK(cell(table, 0, FleetRow::Verdict) == "not ready");
    CHECK_FALSE(cell(table, 0, FleetRow::Missing).isEmpty());
    const auto serial = cell(table, 0, FleetRow::Unit);
    world.press("All");
    world.key(Qt::Key_F, Qt::ControlModifier);
    world.type(serial);
    CHECK(table.model()->rowCount() == 1);
}

TEST_CASE("A row is opened at the bedside desk by keys and by a press", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    showFleet(world);
    auto& table = tableOf(world);
    const auto* bedside = world.window->findChild<desktop::BedsideDesk*>();
    SECTION("Enter on the row") {
        table.setFocus();
        world.key(Qt::Key_Down);
        world.key(Qt::Key_Down);
        const auto serial = cell(table, table.currentIndex().row(), FleetRow::Unit);
        world.key(Qt::Key_Return);
        CHECK(bedside->isVisible());
        CHECK(bedside->serial() == serial);
    }
    SECTION("not by an Enter right after characters: that is a code which came slowly") {
        table.setFocus();
        world.key(Qt::Key_Down);
        for (const char letter : std::string("KB-0142"))
            QTest::keyClick(&table, letter, Qt::NoModifier, 50);
        QTest::keyClick(&table, Qt::Key_Return, Qt::NoModifier, 50);
        CHECK(table.isVisible());
        CHECK(bedside->serial().isEmpty());
        world.key(Qt::Key_Down);
        world.key(Qt::Key_Return);
        CHECK(bedside->isVisible());
    }
    SECTION("a press on a lapse") {
        auto* lapse = world.all<PressRow>("KB-").front();
        const auto serial = lapse->accessibleName().section(QLatin1Char(' '), 0, 0);
        world.press(lapse);
        CHECK(bedside->isVisible());
        CHECK(bedside->serial() == serial);
    }
}

TEST_CASE("The table is sorted by keys too", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    showFleet(world);
    auto& table = tableOf(world);
    world.key(Qt::Key_T, Qt::ControlModifier);
    CHECK(table.hasFocus());
    world.key(Qt::Key_O, Qt::ControlModifier);  // what is missing
    world.key(Qt::Key_O, Qt::ControlModifier | Qt::ShiftModifier);
    CHECK(cell(table, 0, FleetRow::Missing).count(';') >= 3);
    CHECK(cell(table, table.model()->rowCount() - 1, FleetRow::Verdict) != "not ready");
}

TEST_CASE("The row that is marked stays marked when the fleet is read again", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    showFleet(world);
    auto& table = tableOf(world);
    table.setFocus();
    for (int i = 0; i < 6; ++i) world.key(Qt::Key_Down);
    // Its verdict is read from paper, not from the colour of what is marked.
    const auto chip = table.visualRect(table.currentIndex().siblingAtColumn(FleetRow::Verdict));
    const auto image = table.viewport()->grab().toImage();
    CHECK(image.pixelColor(chip.right() - 8, chip.top() + 6) == desktop::colours().surface);
    const auto serial = cell(table, table.currentIndex().row(), FleetRow::Unit);
    const auto before = world.window->workplace().fleet();
    world.clock.advance({20LL * 86'400'000});  // much lapses meanwhile
    world.window->workplace().refresh();
    world.waitUntil("the fleet is read again",
                    [&] { return world.window->workplace().fleet() != before; });
    world.waitUntil("its texts are made",
                    [&] { return world.isSaid("Not heard for more than 12 h"); });
    REQUIRE(table.currentIndex().isValid());
    CHECK(cell(table, table.currentIndex().row(), FleetRow::Unit) == serial);
}

TEST_CASE("Muster and a look ahead are one press away", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    showFleet(world);
    const auto answer = [&] { return world.one<QTextBrowser>("Answer")->toPlainText(); };
    SECTION("muster") {
        world.press("Muster");
        world.waitUntil("it is worked out",
                        [&] { return answer().startsWith("Muster for Neonatal"); });
        world.press(named<QPushButton>(*world.window, "People: more"));
        world.waitUntil("it is worked out anew", [&] { return answer().contains("3 people"); });
    }
    SECTION("look ahead") {
        world.press("Look ahead");
        world.waitUntil("it is worked out",
                        [&] { return answer().startsWith("Looking ahead from"); });
    }
    CHECK(tooSmall(*world.window).empty());
    world.press("Close");
    CHECK(world.all<QTextBrowser>("Answer").empty());
}

TEST_CASE("Nothing on the fleet desk is cut off, too small or without a name", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    for (const int percent : {100, 200}) {
        for (const auto size : {QSize{1024, 700}, QSize{1280, 800}}) {
            INFO(percent << " % at " << size.width());
            world.open(size, {desktop::Theme::Light, percent});
            showFleet(world);
            CHECK(cutOff(*world.window) == std::vector<std::string>());
            CHECK(tooSmall(*world.window) == std::vector<std::string>());
            CHECK(unnamed(*world.window) == std::vector<std::string>());
        }
    }
}

TEST_CASE("Five thousand units scroll without a stutter", "[unit]") {
    desktop::apply(*qApp, {});
    auto table = std::make_shared<desktop::FleetTable>();
    for (int number = 10'000; number < 15'000; ++number) {
        FleetRow row{QString::number(number), rules::Verdict::NotReady, "adult"};
        row.texts.fill(QStringLiteral("leak test failed; flow sensor calibration due"));
        row.texts[FleetRow::Unit] = row.serial;
        row.sortKeys.fill(number);
        table->rows.push_back(std::move(row));
    }
    desktop::FleetModel model;
    desktop::FleetFilter units(&model);
    UnitTable view(&units);
    view.resize(1200, 700);
    model.show(table);
    view.measureColumns();
    view.show();
    REQUIRE(QTest::qWaitForWindowExposed(&view));
    constexpr int steps = 100;
    const auto begin = std::clock();
    for (int step = 0; step < steps; ++step) {
        view.scrollTo(units.index(step * 49, 0), QAbstractItemView::PositionAtTop);
        view.repaint();
    }
    const double each = 1000.0 * static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC / steps;
    WARN("a page of 5,000 units: " << each << " ms of the processor");
    CHECK(each < 50);
}

TEST_CASE("What a key goes to on the fleet desk comes into sight", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open({1024, 700}, {desktop::Theme::Light, 200});
    showFleet(world);
    world.key(Qt::Key_F, Qt::ControlModifier);
    QTest::qWait(100);
    const auto* find = qobject_cast<QLineEdit*>(QApplication::focusWidget());
    REQUIRE(find != nullptr);
    CHECK(world.seenOf(*find).height() == find->height());
    const auto hint = find->fontMetrics().horizontalAdvance(find->placeholderText());
    CHECK(hint + 20 < find->width());
    world.key(Qt::Key_T, Qt::ControlModifier);
    QTest::qWait(100);
    const auto& table = tableOf(world);
    CHECK(table.isAncestorOf(QApplication::focusWidget()));
    CHECK(world.seenOf(table).height() >= 2 * desktop::targetSize);
    desktop::apply(*qApp, {});
}
