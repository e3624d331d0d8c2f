// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What lies around the desks: signing in, the demo's people, help by keys, hints and the caution
// that fit at any size of text, and the look back as a page.
#include "acts_world.h"
#include "desktop/bedside/way_row.h"
#include "desktop/shell/shortcuts.h"

#include <QLineEdit>
#include <QScrollBar>
#include <QTextBrowser>

namespace {

using support::ActsWorld;
using support::WindowWorld;

// With the people of the demo.
void signIn(WindowWorld& world) {
    world.press(QStringLiteral("Sign in"));
    (void)world.awaitSheet();
    world.type(QStringLiteral("v.guest"));
    world.key(Qt::Key_Return);
    world.type(QStringLiteral("260302"));
    world.key(Qt::Key_Return);
    WindowWorld::waitUntil("somebody is signed in", [&] {
        return world.window->workplace().presence().session().has_value();
    });
}

QString focusName() {
    const auto* widget = QApplication::focusWidget();
    return widget == nullptr ? QString() : widget->accessibleName();
}

}  // namespace

TEST_CASE("the demo tells who can sign in, on the way in and where one signs in", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    WindowWorld::waitUntil("it is told on the way in", [&] {
        return world.isSaid(QStringLiteral("sign in as v.guest with the PIN 260302"));
    });
    world.press(QStringLiteral("Sign in"));
    WindowWorld::waitUntil("it is told again", [&] {
        for (const auto* said : {"v.guest", "260302", "Visitor of the demo", "m.toller", "414376"})
            if (!world.isSaid(QString::fromLatin1(said))) return false;
        return true;
    });
}

TEST_CASE("what was found wrong with the logbook stands across the head of each desk", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    auto bytes = support::bytesOf(world.file.path);
    const std::string text = "\"text\":\"";
    const auto place = bytes.find(text);
    REQUIRE(place != std::string::npos);
    bytes[place + text.size()] ^= 1;  // a letter of a note
    world.folder.write(world.file.path.filename().string(), bytes);
    world.open();
    for (const auto* desk : {"Bedside", "Fleet"}) {
        world.press(QString::fromLatin1(desk));
        const QLabel* told = nullptr;
        WindowWorld::waitUntil("it was verified", [&] {
            for (const auto* label : world.all<QLabel>(QStringLiteral("ATTENTION: Record ")))
                if (label->property("banner").toBool()) told = label;
            return told != nullptr;
        });
        CHECK(told->mapTo(world.window.get(), QPoint()).y() < world.window->height() / 4);
    }
}

TEST_CASE("another logbook tells nobody's PIN", "[unit]") {
    ActsWorld world;
    world.press(QStringLiteral("Sign in"));
    (void)world.awaitSheet();
    QTest::qWait(200);
    CHECK_FALSE(world.isSaid(QStringLiteral("402816")));
    CHECK_FALSE(world.isSaid(QStringLiteral("This is the demo")));
    // What is nobody's badge is told to be so, and what else it is.
    world.scan(QStringLiteral("ZX-4711"));
    WindowWorld::waitUntil("it is told", [&] {
        return world.isSaid(QStringLiteral("Read ZX-4711, which is nobody's badge here."));
    });
    world.scan(QStringLiteral("KB-0101"));
    WindowWorld::waitUntil("it is told", [&] {
        return world.isSaid(QStringLiteral("Unit KB-0101. That is nobody's badge."));
    });
    // A PIN that is typed as fast as a scanner sends stands nowhere.
    world.scan(QStringLiteral("402816"));
    WindowWorld::waitUntil("it is told", [&] {
        return world.isSaid(QStringLiteral("It is not shown, since it may be a PIN"));
    });
    CHECK_FALSE(world.isSaid(QStringLiteral("402816")));
    CHECK(world.line(QStringLiteral("Short name or badge"))->text().isEmpty());
    world.scan(QStringLiteral("p.quill"));
    WindowWorld::waitUntil("nothing stands against a badge", [&] {
        return !world.isSaid(QStringLiteral("nobody's badge"));
    });
    CHECK(world.line(QStringLiteral("Short name or badge"))->text() == QStringLiteral("p.quill"));
}

TEST_CASE("without a name nothing is tried, and the same word asks for it everywhere", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    world.press(QStringLiteral("Sign in"));
    (void)world.awaitSheet();
    CHECK(world.isSaid(QStringLiteral("type your short name")));
    world.key(Qt::Key_Tab);
    world.type(QStringLiteral("260302"));
    world.key(Qt::Key_Return);
    CHECK(world.isSaid(QStringLiteral("Nothing was tried. Say who it is first")));
    CHECK(focusName() == QStringLiteral("Short name or badge"));
}

TEST_CASE("after signing in the focus is where work goes on", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    signIn(world);
    WindowWorld::waitUntil("the sheet is gone", [&] { return world.sheet() == nullptr; });
    CHECK(focusName() == QStringLiteral("Scan, or type a serial or asset number"));
    const auto told = QStringLiteral("Of the last entry.");
    Q_EMIT world.window->workplace().told(told);
    CHECK(world.isSaid(told));
    world.key(Qt::Key_L, Qt::ControlModifier);
    CHECK_FALSE(world.isSaid(told));  // it was told to whoever is gone
    world.scan(QStringLiteral("KB-0110"));
    WindowWorld::waitUntil("the unit is shown", [&] {
        return world.isSaid("KB-0110") && !world.isSaid("ready by record.");
    });
    signIn(world);
    WindowWorld::waitUntil("the sheet is gone", [&] { return world.sheet() == nullptr; });
    const auto* button = qobject_cast<QPushButton*>(QApplication::focusWidget());
    REQUIRE(button != nullptr);
    const auto* card = world.window->findChild<desktop::StepCard*>();
    REQUIRE(card != nullptr);
    CHECK(card->isAncestorOf(button));
}

TEST_CASE("help is read to its end by keys", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open({1024, 700});
    world.key(Qt::Key_F1);
    auto* bar = world.awaitSheet()->findChild<QScrollArea*>()->verticalScrollBar();
    // Which logbook, and where it lies: two windows are told apart.
    const auto folder = QString::fromStdString(world.folder.path().string());
    CHECK(world.isSaid("Logbook: bedside.logbook, in the folder " + folder));
    CHECK(world.window->windowTitle() == "bedside.logbook in " + folder + " - Airmuster");
    QTest::qWait(50);
    REQUIRE(bar->maximum() > 0);
    world.key(Qt::Key_Down);
    const int line = bar->value();
    CHECK(line > 0);
    world.key(Qt::Key_PageDown);
    CHECK(bar->value() > line);
    world.key(Qt::Key_End);
    CHECK(bar->value() == bar->maximum());
    world.key(Qt::Key_PageUp);
    CHECK(bar->value() < bar->maximum());
    world.key(Qt::Key_Home);
    CHECK(bar->value() == 0);
}

TEST_CASE("at twice the text the hint fits and the caution is there", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open({1024, 700}, {desktop::Theme::Light, 200});
    auto* codes = world.one<QLineEdit>(QStringLiteral("Scan, or type"));
    QTest::qWait(50);
    CHECK(codes->fontMetrics().horizontalAdvance(codes->placeholderText()) < codes->width());
    CHECK(world.isSaid(QStringLiteral("Ready by record. Check the unit before connecting.")));
    for (auto* label : world.window->findChildren<QLabel*>())
        if (label->isVisible() && label->text().contains(QStringLiteral("Check the unit before")))
            CHECK(world.seenOf(*label).height() == label->height());
    world.window->resize(2200, 1200);
    QTest::qWait(50);
    CHECK(codes->placeholderText() == QStringLiteral("Scan, or type a serial or asset number"));
}

TEST_CASE("each part of a desk is reached by a key that is listed", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    world.scan(QStringLiteral("KB-0110"));
    WindowWorld::waitUntil("the unit is shown", [&] {
        return world.isSaid("KB-0110") && !world.isSaid("ready by record.");
    });
    const auto isIn = [&](const char* part) {
        for (auto* each = QApplication::focusWidget(); each != nullptr;
             each = each->parentWidget())
            if (std::string_view(each->metaObject()->className()) == part) return true;
        return false;
    };
    const std::pair<Qt::Key, const char*> panels[] = {{Qt::Key_F6, "desktop::SetupPanel"},
                                                      {Qt::Key_F7, "desktop::ActsPanel"},
                                                      {Qt::Key_F8, "desktop::HistoryPanel"},
                                                      {Qt::Key_F5, "desktop::WayPanel"}};
    for (const auto& [key, part] : panels) {
        world.key(key);
        INFO(part);
        CHECK(isIn(part));
    }
    world.key(Qt::Key_W, Qt::ControlModifier);
    CHECK(isIn("desktop::EntryStrip"));
    world.key(Qt::Key_F9);
    CHECK(isIn("desktop::ReadyList"));
    world.key(Qt::Key_2, Qt::ControlModifier);
    world.key(Qt::Key_G, Qt::ControlModifier);
    WindowWorld::waitUntil("the figures are there", [&] {
        world.key(Qt::Key_G, Qt::ControlModifier);
        return isIn("desktop::FleetOverview");
    });
    world.key(Qt::Key_T, Qt::ControlModifier);
    CHECK(isIn("desktop::UnitTable"));
    const auto help = desktop::shortcuts();
    for (const auto command : {desktop::Command::ShowWhen, desktop::Command::ShowFigures,
                               desktop::Command::ShowWaiting, desktop::Command::CloseUnit})
        CHECK(std::ranges::any_of(help, [&](const auto& each) { return each.command == command; }));
}

TEST_CASE("a look back is a page with titles and tables", "[unit]") {
    WindowWorld world;
    world.makeDemo();
    world.open();
    world.scan(QStringLiteral("KB-0142"));
    WindowWorld::waitUntil("the unit is shown", [&] { return world.isSaid("KB-0142"); });
    world.key(Qt::Key_F8);
    world.press(QStringLiteral("Look back"));
    world.type(QStringLiteral("2026-11-20 02:14"));
    world.key(Qt::Key_Return);
    WindowWorld::waitUntil("the past is shown",
                           [&] { return world.isSaid(QStringLiteral("THE PAST")); });
    const auto html = world.one<QTextBrowser>(QStringLiteral("What could be known"))->toHtml();
    CHECK(html.count(QStringLiteral("<table")) >= 3);
    CHECK(html.count(QStringLiteral("<h3")) >= 4);
    CHECK_FALSE(html.contains(QStringLiteral("Mono")));
}
