// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The size of text changed while the window is open: all of it is then as large as in a window
// that was opened so.
#include "desktop/bedside/bedside_desk.h"
#include "desktop/fleet/fleet_rows.h"
#include "desktop/fleet/unit_table.h"
#include "bedside_world.h"
#include "station/sample.h"

#include <QLineEdit>
#include <map>

using namespace support;

namespace {

using Sizes = std::map<QString, double>;

// Points by kind and text of what can be seen, whatever is told of the clock left out.
template <class Kind>
void gather(const QWidget& window, Sizes& sizes) {
    for (const auto* each : window.findChildren<Kind*>())
        if (each->isVisible())
            sizes[QString::fromLatin1(each->metaObject()->className()) + ' ' + saysOf(*each)] =
                each->font().pointSizeF();
}

Sizes sizesOf(const WindowWorld& world) {
    QTest::qWait(100);
    Sizes sizes;
    gather<QLabel>(*world.window, sizes);
    gather<QPushButton>(*world.window, sizes);
    gather<QLineEdit>(*world.window, sizes);
    return sizes;
}

void openUnit(const WindowWorld& world) {
    world.type("KB-0142");
    world.key(Qt::Key_Return);
    world.waitUntil("the unit is shown", [&] { return world.isSaid("KB-0142"); });
}

void showFleet(const WindowWorld& world) {
    world.key(Qt::Key_2, Qt::ControlModifier);
    world.waitUntil("the soonest units are known", [&] {
        return world.isSaid("Soonest ready") && !world.isSaid("Working it out");
    });
}

void requireSame(const Sizes& changed, const Sizes& opened) {
    REQUIRE(opened.size() > 10);
    for (const auto& [text, size] : opened) {
        INFO(text.toStdString());
        const auto found = changed.find(text);
        if (found != changed.end()) CHECK(found->second == Approx(size));
    }
}

}  // namespace

TEST_CASE("Text that grows while the window is open grows everywhere", "[unit]") {
    const int before = GENERATE(100, 200);
    const int after = 300 - before;
    WindowWorld world;
    world.makeDemo();
    world.open({1600, 1000}, {desktop::Theme::Light, before});
    openUnit(world);
    showFleet(world);
    desktop::apply(*qApp, {desktop::Theme::Light, after});
    Q_EMIT world.window->workplace().appearanceChanged();
    const auto fleet = sizesOf(world);
    world.key(Qt::Key_1, Qt::ControlModifier);
    const auto bedside = sizesOf(world);
    world.window->findChild<desktop::BedsideDesk*>()->closeUnit();
    const auto ready = sizesOf(world);
    world.open({1600, 1000}, {desktop::Theme::Light, after});
    requireSame(ready, sizesOf(world));
    openUnit(world);
    requireSame(bedside, sizesOf(world));
    showFleet(world);
    requireSame(fleet, sizesOf(world));
    desktop::apply(*qApp, {});
}

TEST_CASE("Text made large while the window is open fits into it", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open({1280, 900});
    const station::Surroundings surroundings{world.clock, station::system::systemZones(),
                                             *words::Words::builtIn(), "desk"};
    const auto guest = station::samplePeople().front();
    auto session =
        station::signIn(surroundings, world.file, guest.key, support::secretOf(guest.pin));
    REQUIRE(session);
    world.window->workplace().presence().begin(std::move(*session));
    showFleet(world);
    desktop::apply(*qApp, {desktop::Theme::Light, 200});
    Q_EMIT world.window->workplace().appearanceChanged();
    QTest::qWait(200);
    CHECK(world.window->minimumSizeHint().width() <= 1280);
    CHECK(world.window->width() == 1280);
    const auto* table = world.window->findChild<desktop::UnitTable*>();
    REQUIRE(table != nullptr);
    const auto letters = table->fontMetrics();
    CHECK(table->rowHeight(0) >= letters.height());
    CHECK(table->columnWidth(desktop::FleetRow::Unit) >
          letters.horizontalAdvance(QStringLiteral("KB-0142")));
    for (const auto* press : world.window->findChildren<QPushButton*>()) {
        if (!press->isVisible()) continue;
        INFO(saysOf(*press).toStdString());
        CHECK(press->mapTo(world.window.get(), QPoint(press->width(), 0)).x() <= 1280);
    }
    desktop::apply(*qApp, {});
}
