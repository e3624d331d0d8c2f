// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Answers that come late: what is pressed, typed or opened while an entry is being kept, while the
// log is read again, or once it cannot be read any more.
#include "acts_world.h"
#include "busy.h"
#include "desktop/bedside/acts/act_sheet.h"
#include "desktop/bedside/history_model.h"
#include "desktop/bedside/history_panel.h"
#include "desktop/shell/pin_field.h"
#include "desktop/shell/sign_in_sheet.h"
#include "desktop/theme/verdict_chip.h"
#include "way_world.h"

#include <QListView>
#include <sqlite3.h>

using support::ActsWorld;
using support::Way;

namespace {

// As another program that writes: nobody else can till it is gone.
class Writer {
public:
    explicit Writer(const std::filesystem::path& path) {
        REQUIRE(sqlite3_open(path.c_str(), &m_database) == SQLITE_OK);
        sqlite3_busy_timeout(m_database, 5000);
        REQUIRE(sqlite3_exec(m_database, "BEGIN IMMEDIATE", nullptr, nullptr, nullptr) ==
                SQLITE_OK);
    }
    Writer(const Writer&) = delete;
    Writer& operator=(const Writer&) = delete;
    ~Writer() {
        sqlite3_exec(m_database, "ROLLBACK", nullptr, nullptr, nullptr);
        sqlite3_close(m_database);
    }

private:
    sqlite3* m_database = nullptr;
};

QString verdictOf(const Way& way) {
    return way.window->findChild<desktop::VerdictChip*>()->accessibleName();
}

void refresh(const support::WindowWorld& world) {
    auto& workplace = world.window->workplace();
    bool isRead = false;
    const auto reading = QObject::connect(&workplace, &desktop::Workplace::fleetChanged,
                                          [&] { isRead = true; });
    workplace.refresh();
    world.waitUntil("the fleet is read again", [&] { return isRead; });
    QObject::disconnect(reading);
    QTest::qWait(200);  // and the unit
}

}  // namespace

TEST_CASE("a PIN is typed on while the log is read again", "[unit]") {
    Way way;
    way.open();
    way.openUnit("KB-0142");
    way.waitUntil("there is a next step", [&] { return way.card() != nullptr; });
    way.doFirst("B leak");
    way.press("Passed");
    way.waitUntil("the value is asked for", [&] { return way.sheet() != nullptr; });
    way.type("180");
    way.press(way.mainButton());
    way.waitUntil("somebody is asked for", [&] { return way.isSaid("scan your badge"); });
    way.scan("m.toller");
    QTest::qWait(60);
    way.type("402");
    auto* field = QApplication::focusWidget();
    REQUIRE(qobject_cast<desktop::PinField*>(field) != nullptr);
    const auto before = way.records().size();
    refresh(way);
    CHECK(QApplication::focusWidget() == field);
    way.type("816");
    way.key(Qt::Key_Return);
    CHECK(way.lastOf(before + 1).find(R"("value":180)") != std::string::npos);
}

TEST_CASE("an entry is kept once, whatever is pressed meanwhile", "[unit]") {
    ActsWorld world;
    world.beginNote("Filter housing wiped");
    const auto before = world.entries().size();
    auto* sheet = world.sheet();
    {
        const Writer another(world.file.path);
        auto* keep = world.buttons("Keep this note").front();
        world.pressSeen(keep);
        QTest::qWait(100);
        CHECK_FALSE(keep->isEnabled());
        world.type("x");
        world.key(Qt::Key_Escape);
        QTest::qWait(100);
        CHECK(world.sheet() == sheet);
        CHECK_FALSE(keep->isEnabled());
    }
    const auto kept = world.entriesSince(before, 1);
    CHECK(kept.front().find("Filter housing wiped\"") != std::string::npos);
    ActsWorld::waitUntil("the sheet is gone", [&] { return world.sheet() == nullptr; });
    CHECK(world.entries().size() == before + 1);
}

TEST_CASE("a step that is being kept is not left by Escape", "[unit]") {
    Way way;
    way.openSignedIn();
    way.doFirst("B leak");
    way.press("Passed");
    way.waitUntil("the value is asked for", [&] { return way.sheet() != nullptr; });
    way.type("180");
    const auto before = way.records().size();
    {
        const Writer another(way.file.path);
        way.press(way.mainButton());
        QTest::qWait(100);
        way.key(Qt::Key_Escape);
        QTest::qWait(100);
        CHECK(way.sheet() != nullptr);
    }
    (void)way.lastOf(before + 1);
    way.waitUntil("the next step can be pressed", [&] {
        return way.sheet() == nullptr && way.card() != nullptr && way.card()->isEnabled();
    });
}

TEST_CASE("the time chosen for the next step is not that of the step before", "[unit]") {
    Way way;
    way.openSignedIn();
    way.waitForNext("A power up");
    const auto before = way.records().size();
    {
        const Writer another(way.file.path);
        way.press("Passed");
        QTest::qWait(100);
        way.press("10");
    }
    CHECK(way.lastOf(before + 1).find("\"at\":\"" + logbook::toText(way.clock.now())) !=
          std::string::npos);
    QTest::qWait(200);
    CHECK(way.one<QPushButton>("10")->isChecked());
}

TEST_CASE("the time chosen for another unit is not that of the sheet before", "[unit]") {
    ActsWorld world;
    world.beginNote("Filter housing wiped");
    const auto before = world.entries().size();
    {
        const support::BusyWriter busy(world);
        world.pressButton("Keep this note");
        QTest::qWait(300);
        world.scan(ActsWorld::repair);
        world.pressButton("Leave it, open " + QString(ActsWorld::repair));
        QTest::qWait(300);
        world.press("10");
        CHECK(world.one<QPushButton>("10")->isChecked());
    }
    ActsWorld::waitUntil("it is kept", [&] { return world.entries().size() == before + 1; });
    QTest::qWait(300);
    CHECK(world.one<QPushButton>("10")->isChecked());
}

TEST_CASE("a time stays that time, and is not told as so many minutes ago for ever", "[unit]") {
    Way way;
    way.openSignedIn();
    way.press("10");
    way.clock.advance(logbook::Duration{3 * 60'000});
    way.waitUntil("it is a time by now", [&] { return way.isSaid("13 min ago"); });
    CHECK_FALSE(way.one<QPushButton>("10")->isChecked());
    CHECK(way.one<QPushButton>("08:50")->isChecked());
    const auto before = way.records().size();
    way.press("Passed");
    const auto at = way.clock.now() - logbook::Duration{13 * 60'000};
    CHECK(way.lastOf(before + 1).find("\"at\":\"" + logbook::toText(at)) != std::string::npos);
}

TEST_CASE("a view that cannot be read again says so and shows nothing as ready", "[unit]") {
    Way way;
    for (const auto* check : {"a_power_up", "c_flow_sensor", "d_oxygen", "e_alarms", "g_gas",
                              "h_filters", "i_surfaces"})
        way.write("check", "KB-0142", {{"check", check}, {"outcome", "pass"}});
    using Object = logbook::json::Object;
    const auto value = [](double number, const char* unit) {
        return Object{{"value", number}, {"unit", unit}};
    };
    way.write("check", "KB-0142",
              {{"check", "b_leak"},
               {"outcome", "pass"},
               {"measures", Object{{"leak", value(100, "mL/min")}}}});
    way.write("check", "KB-0142",
              {{"check", "f_battery"},
               {"outcome", "pass"},
               {"measures", Object{{"charge", value(95, "%")}}}});
    way.open();
    way.openUnit("KB-0142");
    way.waitUntil("it is ready",
                  [&] { return !way.all<desktop::VerdictChip>("ready").empty(); });
    std::filesystem::rename(way.file.path, way.folder.file("away.logbook"));
    way.clock.advance(logbook::Duration{5 * 60'000});
    way.waitUntil("it says how old it is",
                  [&] { return way.isSaid("The logbook could not be read for 5 min"); });
    CHECK(way.all<desktop::VerdictChip>("ready").empty());
    CHECK(way.all<desktop::VerdictChip>("not known now").size() == 1);
    way.key(Qt::Key_F9);
    CHECK(way.isSaid("The logbook could not be read for 5 min"));
}

TEST_CASE("keys reach nothing behind a sheet", "[unit]") {
    ActsWorld world;
    world.signIn();
    world.openUnit(ActsWorld::idle);
    world.key(Qt::Key_F7);
    world.pressButton("Note");
    auto* sheet = world.awaitSheet();
    world.type("half a wo");
    world.key(Qt::Key_F9);
    world.key(Qt::Key_F5);
    world.key(Qt::Key_P, Qt::AltModifier);
    QTest::qWait(100);
    CHECK(world.sheet() == sheet);
    CHECK(world.window->findChild<desktop::BedsideDesk*>()->serial() == ActsWorld::idle);
    CHECK_FALSE(world.buttons("Back, keep nothing").empty());
    // To lock is always possible.
    world.key(Qt::Key_L, Qt::ControlModifier);
    CHECK_FALSE(world.window->workplace().presence().session());
}

TEST_CASE("the history of one unit is not shown under the next", "[unit]") {
    ActsWorld world;
    world.openUnit(ActsWorld::inUse);
    world.key(Qt::Key_F8);
    auto* model = world.window->findChild<desktop::HistoryModel*>();
    ActsWorld::waitUntil("its entries are there", [&] { return model->rowCount() > 0; });
    int most = 0;
    QObject::connect(world.window->findChild<desktop::BedsideDesk*>(),
                     &desktop::BedsideDesk::unitShown, world.window.get(),
                     [&] { most = std::max(most, model->rowCount()); });
    world.openUnit(ActsWorld::repair);
    CHECK(most == 0);
}

TEST_CASE("what is entered on one opening of a unit is struck together", "[unit]") {
    Way way;
    way.openSignedIn();
    way.waitForNext("A power up");
    const auto before = way.records().size();
    way.press("Passed");
    const auto first = way.lastOf(before + 1);
    way.doFirst("C flow sensor");
    way.press("Passed");
    const auto second = way.lastOf(before + 2);
    const auto batch = [](const std::string& line) {
        const auto at = line.find(R"("batch":)");
        return at == std::string::npos ? "" : line.substr(at, line.find(R"(","body")") - at);
    };
    CHECK_FALSE(batch(first).empty());
    CHECK(batch(first) == batch(second));
}

TEST_CASE("a step that was kept is dead until it is read, and others go on", "[unit]") {
    Way way;
    way.openSignedIn();
    way.waitForNext("A power up");
    const auto before = way.records().size();
    const auto away = way.folder.file("away.logbook");
    auto& workplace = way.window->workplace();
    bool isTroubled = false;
    QObject::connect(&workplace, &desktop::Workplace::troubled, way.window.get(),
                     [&] { isTroubled = true; });
    const auto taking = QObject::connect(&workplace, &desktop::Workplace::kept, way.window.get(),
                                         [&] { std::filesystem::rename(way.file.path, away); });
    way.press("Passed");
    way.waitUntil("it cannot be read", [&] { return isTroubled; });
    QTest::qWait(50);
    QObject::disconnect(taking);
    CHECK_FALSE(way.card()->isEnabled());
    way.doFirst("C flow sensor");
    CHECK(way.card()->isEnabled());
    std::filesystem::rename(away, way.file.path);
    refresh(way);
    CHECK(way.records().size() == before + 1);
    way.press("Passed");
    CHECK(way.lastOf(before + 2).find(support::passed("c_flow_sensor")) != std::string::npos);
}

TEST_CASE("a unit that is opened again is not shown as before its entry", "[unit]") {
    Way way;
    way.openSignedIn();
    way.waitForNext("A power up");
    const auto before = way.records().size();
    auto* bedside = way.window->findChild<desktop::BedsideDesk*>();
    QString verdict;
    bool isKept = false;  // before, it may be shown once more as it was read before
    bool isPressable = true;
    QObject::connect(&way.window->workplace(), &desktop::Workplace::kept, bedside, [&] {
        isKept = true;
        bedside->closeUnit();
        bedside->showUnit("KB-0142");
    });
    QObject::connect(bedside, &desktop::BedsideDesk::unitShown, bedside, [&] {
        if (!isKept || !verdict.isEmpty()) return;
        verdict = verdictOf(way);
        isPressable = way.card()->isEnabled();
    });
    way.press("Passed");
    way.waitForNext("B leak");
    CHECK(verdict == "one moment");
    CHECK_FALSE(isPressable);
    CHECK(verdictOf(way) == "not ready");
    CHECK(way.records().size() == before + 1);
}

TEST_CASE("a unit that cannot be read again stays open and says how old it is", "[unit]") {
    Way way;
    way.open();
    way.openUnit("KB-0142");
    auto* bedside = way.window->findChild<desktop::BedsideDesk*>();
    way.waitUntil("there is a next step", [&] { return way.card() != nullptr; });
    auto& workplace = way.window->workplace();
    bool isTroubled = false;
    QObject::connect(&workplace, &desktop::Workplace::troubled, way.window.get(),
                     [&] { isTroubled = true; });
    const auto isOver = [&] { return isTroubled || bedside->serial().isEmpty(); };
    std::filesystem::rename(way.file.path, way.folder.file("away.logbook"));
    Q_EMIT workplace.fleetChanged();
    way.waitUntil("it cannot be read", isOver);
    CHECK(bedside->serial() == "KB-0142");
    CHECK(way.card()->isVisible());
    way.clock.advance(logbook::Duration{5 * 60'000});
    way.waitUntil("it says how old it is",
                  [&] { return way.isSaid("The logbook could not be read for 5 min"); });
}

TEST_CASE("entries that cannot be read are not shown as none", "[unit]") {
    Way way;
    way.open();
    way.waitUntil("the fleet is read", [&] { return way.window->workplace().fleet() != nullptr; });
    const auto view = desktop::readUnitView(way.window->workplace().fleet(), way.surroundings(),
                                            way.file, "KB-0142");
    REQUIRE(view);
    way.scan("KB-0142");
    way.waitUntil("the unit is open", [&] { return way.isSaid("KB-0142"); });
    way.key(Qt::Key_F8);
    auto* history = way.window->findChild<desktop::HistoryPanel*>();
    way.waitUntil("its history is shown", [&] { return history->isVisible(); });
    std::filesystem::rename(way.file.path, way.folder.file("away.logbook"));
    history->show(*view);
    way.waitUntil("that is said", [&] {
        return std::ranges::any_of(history->findChildren<QLabel*>(), [&](const auto* label) {
            return label->isVisibleTo(history) && label->text().contains("could not be read now");
        });
    });
}
