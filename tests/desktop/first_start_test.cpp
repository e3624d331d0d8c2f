// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// From an empty folder to the first unit at the bedside desk, by what can be seen alone.
#include "desktop/bedside/bedside_desk.h"
#include "desktop/first_start/manager_page.h"
#include "desktop/looked_at.h"
#include "desktop/window_world.h"

#include <QLineEdit>
#include <QProcess>
#include <QRegularExpression>
#include <SQLiteCpp/Database.h>

using namespace support;

namespace {

// A person's own folder for data, for as long as the test runs.
struct Home {
    Home() { qputenv("XDG_DATA_HOME", QByteArray::fromStdString(folder.path().string())); }
    ~Home() { qunsetenv("XDG_DATA_HOME"); }
    Folder folder;
};

// The tab key until that widget has the focus, as who has no mouse does.
QWidget* reach(const WindowWorld& world, const QString& says) {
    for (int tries = 0; tries < 60; ++tries) {
        auto* focused = QApplication::focusWidget();
        if (focused != nullptr && (saysOf(*focused).startsWith(says) ||
                                   focused->accessibleName().startsWith(says)))
            return focused;
        world.key(Qt::Key_Tab);
    }
    FAIL("the tab key does not reach " << says.toStdString());
    return nullptr;
}

// A press by the keyboard on what is in sight and large enough.
void pressByKeys(const WindowWorld& world, const QString& says) {
    world.waitUntil("there is " + says.toStdString(),
                    [&] { return !world.all<QPushButton>(says).empty(); });
    const auto* button = reach(world, says);
    INFO("pressing " << says.toStdString());
    QTest::qWait(8 * typingMs);
    REQUIRE(button->height() >= desktop::targetSize);
    REQUIRE_FALSE(button->visibleRegion().isEmpty());
    QTest::qWait(8 * typingMs);  // whatever was typed has arrived, on a busy computer too
    auto* focused = QApplication::focusWidget();
    QTest::keyPress(focused, Qt::Key_Space);
    QTest::qWait(8 * typingMs);
    QTest::keyRelease(focused, Qt::Key_Space);
    QTest::qWait(2 * typingMs);
}

void fill(const WindowWorld& world, const QString& field, const QString& text) {
    reach(world, field);
    world.type(text);
}

void lookAt(const WindowWorld& world) {
    QTest::qWait(100);  // what was just said finds its place
    CHECK(cutOff(*world.window) == std::vector<std::string>());
    CHECK(tooSmall(*world.window) == std::vector<std::string>());
    CHECK(unnamed(*world.window) == std::vector<std::string>());
}

QString codeShown(const WindowWorld& world) {
    const auto* code = world.window->findChild<QLabel*>("code");
    return code != nullptr && code->isVisible() ? code->text() : QString();
}

QString textIn(const WindowWorld& world, const QString& field) {
    const auto* found = named<QLineEdit>(*world.window, field);
    INFO("looking for " << field.toStdString());
    REQUIRE(found != nullptr);
    return found->text();
}

void typeManager(const WindowWorld& world) {
    fill(world, "Name", "Runa Halvorsen");
    world.waitUntil("a short name is proposed",
                    [&] { return textIn(world, "Short name") == "r.halvorsen"; });
    fill(world, "PIN", "246813");
    fill(world, "The same PIN", "246813");
}

}  // namespace

namespace {

// A unit that is typed is neither left out nor enrolled for nobody without a word.
template <class Press>
void requireUnitKept(const WindowWorld& world, Press press) {
    press("Finish without");
    CHECK(world.isSaid("The unit that stands here is not enrolled yet."));
    press("Back to the unit");
    press("Enrol this unit");
    CHECK(world.isSaid("No group is chosen yet"));
    CHECK(textIn(world, "Serial number") == "KB-0500");
}

}  // namespace

TEST_CASE("From an empty folder to the first unit at the bedside desk", "[unit]") {
    const Home home;
    WindowWorld world;
    const bool isLarge = GENERATE(false, true);
    const auto press = [&](const QString& says) {
        if (isLarge)
            pressByKeys(world, says);
        else
            world.press(says);
    };
    world.open(isLarge ? QSize{1024, 700} : QSize{1280, 800},
               {desktop::Theme::Light, isLarge ? 200 : 100}, false);
    lookAt(world);
    press("Set up this department");
    lookAt(world);
    press("Go on");
    CHECK(world.isSaid("The hospital has no name yet"));
    fill(world, "Hospital", "Kestrel Bay Hospital");
    fill(world, "Department", "Respiratory Care");
    press("Go on");
    world.waitUntil("the next page is there", [&] { return world.isSaid("2 of 5"); });
    lookAt(world);
    typeManager(world);
    press("Go on");
    lookAt(world);
    press("Begin the logbook");
    CHECK(world.isSaid("No rulebook is chosen yet"));
    press("Example: adult intensive care");
    world.waitUntil("its warnings are told", [&] { return world.isSaid("To think about"); });
    CHECK(world.isSaid("Oxygen sensor calibration: This check blocks, yet"));
    CHECK_FALSE(world.isSaid("oxygen_cal"));
    lookAt(world);
    press("Begin the logbook");
    world.waitUntil("the code is shown", [&] { return !codeShown(world).isEmpty(); });
    CHECK(codeShown(world).contains(QRegularExpression("^[0-9A-Z]{4}(-[0-9A-Z]{4})+$")));
    lookAt(world);
    CHECK_FALSE(world.window->close());  // it would never be seen again
    CHECK(world.isSaid("The recovery code is shown this once"));
    press("Keep writing");
    press("I have written it down");
    CHECK(codeShown(world).isEmpty());
    world.waitUntil("the groups are there",
                    [&] { return !world.all<QPushButton>("Adult").empty(); });
    lookAt(world);
    world.scan("KB-0500");
    fill(world, "Model", "Larch 4");
    requireUnitKept(world, press);
    press("Adult");
    CHECK_FALSE(world.isSaid("No group is chosen yet"));
    press("Enrol this unit");
    world.waitUntil("it is enrolled", [&] { return world.isSaid("KB-0500 is enrolled"); });
    CHECK(world.buttons("Finish without a check").size() == 1);
    press("Go on to the first check");
    const auto* bedside = world.window->findChild<desktop::BedsideDesk*>();
    CHECK(bedside->isVisible());
    CHECK(bedside->serial() == "KB-0500");

    QProcess board;
    board.start(AIRMUSTER_CLI,
                {"board", QString::fromStdString(world.window->workplace().file().path.string()),
                 "--at", "2026-11-28T15:00:00Z"});
    REQUIRE(board.waitForFinished(60'000));
    const auto told = board.readAllStandardOutput().toStdString();
    CHECK(told.find("Respiratory Care, Kestrel Bay Hospital") != std::string::npos);
    CHECK(told.find("KB-0500") != std::string::npos);
}

TEST_CASE("Going back and forth in setting up loses nothing", "[unit]") {
    const Home home;
    WindowWorld world;
    world.open({1280, 800}, {}, false);
    const auto placeOfBack = [&] {
        const auto* back = world.one<QPushButton>("Back");
        return QRect(back->mapTo(world.window.get(), QPoint()), back->size());
    };
    world.press("Set up this department");
    CHECK(world.window->close());
    world.window->show();
    fill(world, "Hospital", "Kestrel Bay Hospital");
    fill(world, "Department", "Respiratory Care");
    const auto place = placeOfBack();
    world.press("Go on");
    world.waitUntil("the next page is there", [&] { return world.isSaid("2 of 5"); });
    typeManager(world);
    CHECK(placeOfBack() == place);
    CHECK_FALSE(world.window->close());
    CHECK(world.isSaid("This department is not set up yet"));
    world.press("Keep writing");
    world.press("Back");
    world.press("Back");
    world.press("Set up this department");
    CHECK(textIn(world, "Hospital") == "Kestrel Bay Hospital");
    world.press("Go on");
    world.waitUntil("the next page is there", [&] { return world.isSaid("2 of 5"); });
    CHECK(textIn(world, "Name") == "Runa Halvorsen");
    world.press("Go on");  // the PINs are there too
    CHECK(world.isSaid("3 of 5"));
    CHECK(std::filesystem::is_empty(home.folder.path()));
}

TEST_CASE("A PIN that is no good, or typed differently, is told with what to do", "[unit]") {
    const Home home;
    WindowWorld world;
    world.open({1280, 800}, {}, false);
    world.press("Set up this department");
    fill(world, "Hospital", "Kestrel Bay Hospital");
    fill(world, "Department", "Respiratory Care");
    world.press("Go on");
    world.waitUntil("the next page is there", [&] { return world.isSaid("2 of 5"); });
    fill(world, "Name", "Runa Halvorsen");
    const auto goOnWith = [&](const QString& pin, const QString& again) {
        fill(world, "PIN", pin);
        fill(world, "The same PIN", again);
        world.press("Go on");
    };
    goOnWith("123456", "123456");
    CHECK(world.isSaid("follow one another"));
    goOnWith("739104", "246813");
    CHECK(world.isSaid("The two PINs are not the same"));
    // What was no good is gone: else these would be typed after it, and only dots are seen.
    goOnWith("739104", "739104");
    world.waitUntil("it is taken", [&] { return world.isSaid("3 of 5"); });
    const auto* page = world.window->findChild<desktop::ManagerPage*>();
    REQUIRE(page != nullptr);
    CHECK(page->pin().text() == "739104");
}

TEST_CASE("The demo is one press away, and a second press opens the same", "[unit]") {
    const Home home;
    WindowWorld world;
    for (int round = 0; round < 2; ++round) {
        world.open({1280, 800}, {}, false);
        world.press("Open the demo");
        world.waitUntil("the demo is there", [&] {
            const auto& fleet = world.window->workplace().fleet();
            return fleet != nullptr && fleet->board.rows.size() > 30;
        }, 60'000);
        world.waitUntil("the fleet desk shows it",
                        [&] { return world.isSaid("Ready against par"); });
    }
}

TEST_CASE("A path without a file is told, and nothing is made there", "[unit]") {
    const Home home;
    WindowWorld world;
    desktop::apply(*qApp, {});
    world.window = std::make_unique<desktop::Window>(
        desktop::Start{{world.folder.file("none.logbook")}, world.clock, *words::Words::builtIn(),
                       &station::system::systemZones, "desk"});
    world.window->show();
    REQUIRE(QTest::qWaitForWindowExposed(world.window.get()));
    world.waitUntil("it is told", [&] { return world.isSaid("There is no file"); });
    CHECK_FALSE(std::filesystem::exists(world.folder.file("none.logbook")));
    // Once, and only where it was met.
    QTest::qWait(200);
    CHECK_FALSE(world.isSaid("There is no logbook at"));
    world.press("Set up this department");
    CHECK_FALSE(world.isSaid("none.logbook"));
}

TEST_CASE("A logbook without rules and people is asked for both", "[unit]") {
    const Home home;
    WindowWorld world;
    const station::Surroundings surroundings{world.clock, station::system::systemZones(),
                                             *words::Words::builtIn(), "desk"};
    REQUIRE(station::foundStation(surroundings, world.file, "desk-1"));
    world.open({1280, 800}, {}, false);
    world.window = std::make_unique<desktop::Window>(
        desktop::Start{world.file, world.clock, *words::Words::builtIn(),
                       &station::system::systemZones, "desk"});
    world.window->show();
    world.waitUntil("it is asked for", [&] { return world.isSaid("has no rules or no people"); });
    CHECK(named<QLineEdit>(*world.window, "Where the logbook lies")->isReadOnly());
}

TEST_CASE("A logbook whose entries are gone, or that is damaged, is not set up anew", "[unit]") {
    const Home home;
    WindowWorld world;
    const station::Surroundings surroundings{world.clock, station::system::systemZones(),
                                             *words::Words::builtIn(), "desk"};
    std::string told;
    SECTION("gone") {
        world.makeDemo();
        SQLite::Database(world.file.path.string(), SQLite::OPEN_READWRITE)
            .exec("DROP TRIGGER records_are_never_deleted; DELETE FROM records");
        told = "Entries on which everything rests are gone";
    }
    SECTION("damaged") {
        REQUIRE(station::foundStation(surroundings, world.file, "desk-1"));
        auto bytes = support::bytesOf(world.file.path);
        bytes.replace(100, 3000, 3000, '\0');  // the schema
        world.folder.write(world.file.path.filename().string(), bytes);
        told = "is damaged, so that it cannot be opened";
    }
    desktop::apply(*qApp, {});
    world.window = std::make_unique<desktop::Window>(
        desktop::Start{world.file, world.clock, *words::Words::builtIn(),
                       &station::system::systemZones, "desk"});
    world.window->show();
    world.waitUntil("it is told", [&] { return world.isSaid(QString::fromStdString(told)); });
    CHECK(world.all<QPushButton>("Set up this department").empty());
    CHECK(world.all<QPushButton>("Open a logbook file").size() == 1);
}

TEST_CASE("A key is proposed from a name", "[unit]") {
    CHECK(desktop::keyFor("Runa Halvorsen") == "r.halvorsen");
    CHECK(desktop::keyFor("  Étienne  de Brún ") == "e.brun");
    CHECK(desktop::keyFor("Wren") == "wren");
    CHECK(desktop::keyFor("") == "");
}

TEST_CASE("A logbook that lacks nothing and cannot be judged says why", "[unit]") {
    const Home home;
    WindowWorld world;
    const station::Surroundings surroundings{world.clock, station::system::systemZones(),
                                             *words::Words::builtIn(), "desk"};
    world.makeDemo();
    {
        // As an older program may have taken it in.
        const auto now = toText(world.clock.now());
        const std::vector records{*logbook::readRecord(logbook::json::Object{
            {"station", "er-9"}, {"seq", 1}, {"at", now}, {"entered", now}, {"by", "r.halvorsen"},
            {"device", ""}, {"kind", "adopt"},
            {"body", logbook::json::Object{{"edition", "9"}, {"text", "format = 1\n"}}}})};
        auto file = station::openLogbook(surroundings, world.file, station::Access::Write);
        REQUIRE(file);
        REQUIRE(file->append(records, {"desk", world.clock.now()}));
    }
    desktop::apply(*qApp, {});
    world.window = std::make_unique<desktop::Window>(
        desktop::Start{world.file, world.clock, *words::Words::builtIn(),
                       &station::system::systemZones, "desk"});
    world.window->show();
    world.waitUntil("it is told",
                    [&] { return world.isSaid("The policy edition in record er-9/1"); });
    CHECK(world.all<QPushButton>("Set up this department").empty());
    CHECK(world.all<QPushButton>("Fleet").size() == 1);
}
