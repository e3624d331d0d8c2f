// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A scanner at 1 ms a character over everything that can be open: nothing is kept, pressed or lost,
// and what was read is answered or asked about, where it can be seen.
#include "acts_world.h"
#include "desktop/bedside/acts/act_list.h"
#include "desktop/bedside/not_so_sheet.h"
#include "first_start_world.h"
#include "scan_replay_world.h"

#include <QListView>

using namespace support;

namespace {

struct ReplayWorld : ActsWorld {
    ScanReplay replay{*this};

    // Opened by those presses, scanned over, and called off.
    void overSheet(const std::vector<QString>& presses, const std::string& unit = {}) {
        for (const auto& each : presses) pressButton(each);
        (void)awaitSheet();
        QTest::qWait(60);
        const auto where = sheet()->accessibleName().toStdString();
        if (!unit.empty()) replay.overWith(where, QString::fromStdString(unit));
        replay.over(where);
        callAllOff();
    }
    void callAllOff() {
        for (int i = 0; i < 8 && sheet() != nullptr; ++i) {
            sheet()->setFocus();
            const bool isAsked = !buttons("Leave it, lose what I typed").empty();
            isAsked ? pressButton("Leave it, lose what I typed") : key(Qt::Key_Escape);
            QTest::qWait(30);
        }
        REQUIRE(sheet() == nullptr);
    }
    // Every entry that opens a sheet on that unit.
    void overActs(const std::string& unit) {
        openUnit(unit);
        key(Qt::Key_F7);
        waitUntil("the entries are offered", [this] { return !buttons("Start of use").empty(); });
        const auto other = unit == held ? idle : held;
        for (const auto& group : desktop::actGroups()) {
            for (const auto& entry : group.entries) {
                auto label = entry.label;
                label.remove(QLatin1Char('&'));
                const auto* button = buttons(label).front();
                if (button->property("off").toBool()) continue;
                // The unit that takes over is what is to be scanned there.
                const bool isSwap = entry.kind == desktop::ActKind::SwapUnits;
                overSheet({label}, isSwap ? "" : other);
            }
        }
    }
};

}  // namespace

TEST_CASE("a scan over any entry on a unit keeps, presses and loses nothing", "[unit]") {
    ReplayWorld world;
    world.signIn();
    const auto before = world.records();
    SECTION("a unit that is ready to be used") { world.overActs(ActsWorld::idle); }
    SECTION("a unit in use") { world.overActs(ActsWorld::inUse); }
    SECTION("a unit held after an incident") { world.overActs(ActsWorld::held); }
    CHECK(world.records() == before);
}

TEST_CASE("a scan over checks, parts, when and who keeps, presses and loses nothing", "[unit]") {
    ReplayWorld world;
    world.signIn();
    world.openUnit(ActsWorld::idle);
    const auto before = world.records();
    SECTION("the set-up") {
        world.key(Qt::Key_F6);
        world.overSheet({"Swap: Breathing circuit"}, ActsWorld::held);
        world.overSheet({"Swap: Breathing circuit"});
        world.overSheet({"Take out: Breathing circuit"}, ActsWorld::held);
        world.overSheet({"Fit: Flow sensor"}, ActsWorld::held);
        world.replay.over("the set-up");
    }
    SECTION("when and who") {
        world.overSheet({"When: a time"});
        world.overSheet({"Who: another"});
        world.overSheet({"Who: with a second person"});
        world.overSheet({"Who: with a second person", "Petra Quill"});
    }
    CHECK(world.records() == before);
}

TEST_CASE("a scan over the values of a check keeps, presses and loses nothing", "[unit]") {
    Way way("[checks.a_mains]\ntakes = \"PT1M\"\nneeds = [\"mains_power\", \"gas_supply\"]\n");
    way.enrol("KB-0150", "40150");
    way.openSignedIn();
    const auto before = way.records();
    ScanReplay replay(way);
    way.waitForNext("A mains");
    way.press("Not so");
    way.press("Gas supply");
    replay.overWith("what was not so", "KB-0150");
    replay.over("what was not so");
    way.press("Back");
    way.waitUntil("the sheet is gone", [&] {
        return way.window->findChild<desktop::NotSoSheet*>() == nullptr;
    });
    replay.over("the way to ready");
    way.doFirst("B leak");
    way.press("Passed");
    way.waitUntil("the value is asked for", [&] { return way.sheet() != nullptr; });
    replay.overWith("the values", "KB-0150");
    replay.over("the values");
    CHECK(way.typed() == "12");
    CHECK(way.records() == before);
}

TEST_CASE("a scan over what is only read keeps, presses and loses nothing", "[unit]") {
    ReplayWorld world;
    world.signIn();
    const auto before = world.records();
    SECTION("the sheet of a hold") {
        world.openUnit(ActsWorld::held);
        world.overSheet({"Held after an incident since"}, ActsWorld::idle);
    }
    SECTION("the history and its corrections") {
        world.openUnit(ActsWorld::inUse);
        world.key(Qt::Key_F8);
        const auto openFirst = [&] {
            world.waitUntil("the entries are read", [&] {
                const auto lists = world.all<QListView>("Entries on this unit");
                return !lists.empty() && lists.front()->model()->rowCount() > 0;
            });
            auto* list = world.one<QListView>("Entries on this unit");
            const auto row = list->visualRect(list->model()->index(0, 0));
            QTest::mouseClick(list->viewport(), Qt::LeftButton, {}, row.center());
        };
        openFirst();
        world.overSheet({}, ActsWorld::idle);
        openFirst();
        world.overSheet({"Strike it through"}, ActsWorld::idle);
        openFirst();
        world.overSheet({"It was another unit: move it"});
        world.overSheet({"Look back"}, ActsWorld::idle);
        world.replay.over("the history");
    }
    SECTION("the fleet, its forecasts and the help") {
        world.pressButton("Fleet");
        world.waitUntil("the table is there", [&] { return !world.buttons("Muster").empty(); });
        world.overSheet({"Muster"}, ActsWorld::idle);
        world.overSheet({"Look ahead"}, ActsWorld::idle);
        world.overSheet({"Help"}, ActsWorld::idle);
    }
    CHECK(world.records() == before);
}

TEST_CASE("a code that is nobody's goes from the fleet to the bedside, the filter stays",
          "[unit]") {
    ReplayWorld world;
    world.pressButton("Fleet");
    auto* find = world.one<QLineEdit>("Find units by any word");
    world.press(find);
    world.type("KB");
    world.scan("ZX-4711");
    world.waitUntil("it is answered", [&] { return world.isSaid("ZX-4711"); });
    CHECK(find->text() == "KB");
}

TEST_CASE("a scan while somebody signs in loses nothing", "[unit]") {
    ReplayWorld world;
    const auto before = world.records();
    SECTION("at the head of the window") { world.overSheet({"Sign in"}, ActsWorld::idle); }
    SECTION("for an entry that waits for a PIN") {
        world.openUnit(ActsWorld::repair);
        world.key(Qt::Key_F7);
        world.pressButton("Back in service");
        world.pressButton("This reason is gone");
        world.waitUntil("somebody is asked for", [&] { return world.isSaid("scan your badge"); });
        world.overSheet({}, ActsWorld::idle);
    }
    SECTION("for an entry that does not") {
        world.openUnit(ActsWorld::inUse);
        world.key(Qt::Key_F7);
        world.pressButton("Pause");
        world.pressButton("Disconnected");
        world.waitUntil("a name is asked for", [&] { return world.isSaid("Press a name"); });
        world.overSheet({}, ActsWorld::idle);
    }
    CHECK(world.records() == before);
}

TEST_CASE("a scan over the first start presses and loses nothing", "[unit]") {
    FirstStartWorld world;
    world.home.folder.write("fleet.csv",
                            "serial,model,groups,commissioned\n"
                            "KB-0500,Larch 4,adult,2026-01-15\n");
    world.open({1280, 800}, {}, false);
    ScanReplay replay(world);
    SECTION("the welcome and the department") {
        replay.over("the welcome");
        world.toDepartment();
        replay.over("the department");
        world.pressButton("Choose another folder");
        replay.over("the choice of a folder");
    }
    SECTION("the manager") {
        world.toManager();
        replay.over("the manager");
    }
    SECTION("the rules") {
        world.toRules();
        replay.over("the rules");
        world.pressButton("Our own rulebook");
        replay.over("the choice of a rulebook");
    }
    SECTION("the code and the units") {
        world.toCode();
        world.waitUntil("the code is shown",
                        [&] { return !world.buttons("I have written it down").empty(); });
        replay.over("the code");
        world.pressButton("I have written it down");
        world.waitUntil("the edition is read", [&] { return !world.buttons("Adult").empty(); });
        replay.over("the units");
        world.pressButton("Enrol a fleet list");
        replay.over("the choice of a fleet list");
        world.pressButton("fleet.csv");
        world.waitUntil("it is previewed",
                        [&] { return !world.buttons("Enrol what is not refused").empty(); });
        replay.over("the preview of a fleet list");
        CHECK(world.window->workplace().fleet()->board.rows.empty());
    }
}

TEST_CASE("of fifty scans while a value is typed, the five of other units are asked about",
          "[unit]") {
    Way way;
    way.enrol("KB-0150", "40150");
    way.openSignedIn();
    way.doFirst("B leak");
    way.press("Passed");
    way.waitUntil("the value is asked for", [&] { return way.sheet() != nullptr; });
    way.type("18");
    const auto before = way.records();
    const auto* stack = way.window->findChild<desktop::SheetStack*>();
    int asked = 0;
    for (int i = 0; i < 50; ++i) {
        const bool isSwap = i % 10 == 7;
        const bool isSerial = i % 4 < 2;
        const QString code = isSwap ? (isSerial ? "KB-0150" : "40150")
                                    : (isSerial ? "KB-0142" : "40142");
        INFO("scan " << i << ", " << code.toStdString());
        way.scan(code);
        if (isSwap) {
            way.waitUntil("it is asked", [&] { return way.isSaid("Leave that and open"); });
            ++asked;
            way.press("Stay with KB-0142");
        } else {
            way.waitUntil("it is answered",
                          [&] { return way.isSaid("Unit KB-0142 is open."); });
            QTest::qWait(60);
        }
        REQUIRE(stack->top() == way.sheet());
        CHECK(way.typed() == "18");
        CHECK(way.window->findChild<desktop::BedsideDesk*>()->serial() == "KB-0142");
    }
    CHECK(asked == 5);
    CHECK(way.records() == before);
}
