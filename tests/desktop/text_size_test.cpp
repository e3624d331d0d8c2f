// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The size of text changed while the window is open: all of it is then as large as in a window
// that was opened so.
#include "desktop/bedside/bedside_desk.h"
#include "desktop/window_world.h"

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
