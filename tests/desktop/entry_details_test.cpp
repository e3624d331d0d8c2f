// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// An entry that is opened from the history: all that it states, in words; and before several are
// struck through or moved together, which they are.
#include "acts_world.h"
#include "busy.h"
#include "desktop/bedside/history_model.h"

#include <QListView>

namespace {

using support::ActsWorld;

struct DetailsWorld : ActsWorld {
    void keep(const std::string& kind, const std::string& device, logbook::json::Object body,
              std::optional<std::string> batch = {}) {
        station::Entry entry{manager(), kind, device};
        entry.body = std::move(body);
        entry.batch = std::move(batch);
        REQUIRE(station::writeEntry(surroundings(), file, entry));
    }
    // The history of the unit, once what was kept is read.
    QListView* history(const std::string& device, const QString& latest) {
        window->workplace().refresh();
        openUnit(device);
        key(Qt::Key_F8);
        QListView* list = nullptr;
        waitUntil("the entries are read", [&] {
            const auto lists = all<QListView>(QStringLiteral("Entries on this unit"));
            list = lists.empty() ? nullptr : lists.front();
            return list != nullptr && list->model()->rowCount() > 0 &&
                   list->model()->index(0, 0).data().toString().contains(latest);
        });
        return list;
    }
    void openLine(QListView& list, int row) const {
        const auto index = list.model()->index(row, 0);
        list.scrollTo(index);
        QTest::mouseClick(list.viewport(), Qt::LeftButton, {}, list.visualRect(index).center());
        (void)awaitSheet();
    }
    [[nodiscard]] bool says(const QString& label, const QString& text) const {
        const auto labels = sheet()->findChildren<QLabel*>();
        const auto has = [&](const QString& wanted) {
            return std::ranges::any_of(labels, [&](const QLabel* each) {
                return each->isVisible() && each->text() == wanted;
            });
        };
        return has(label) && has(text);
    }
};

}  // namespace

TEST_CASE("an entry that is opened tells all that it states", "[unit]") {
    DetailsWorld world;
    world.keep("use_start", world.idle,
               {{"group", "adult"}, {"location", "ICU room 7"}, {"emergency", true},
                {"precautions", false}, {"reason", "Called to a reanimation"}});
    auto* list = world.history(world.idle, QStringLiteral("emergency, for Adult"));
    world.openLine(*list, 0);
    CHECK(world.says("Emergency", "yes"));
    CHECK(world.says("Patient group", "Adult"));
    CHECK(world.says("Place", "ICU room 7"));
    CHECK(world.says("Isolation precautions", "no"));
    CHECK(world.says("Reason", "Called to a reanimation"));
    world.key(Qt::Key_Escape);
    int fits = 0;
    for (int row = 0; row < list->model()->rowCount(); ++row) {
        if (!list->model()->index(row, 0).data().toString().contains("Fern coaxial 22")) continue;
        ++fits;
        world.openLine(*list, row);
        CHECK(world.says("Position", "Breathing circuit"));
        CHECK(world.says("Model", "Fern coaxial 22"));
        CHECK(world.says("Lot", "C-4471"));
        CHECK(world.says("Expires", "22 Oct 2027"));
        CHECK(world.says("Patient groups", "Adult and Adult transport"));
        CHECK(world.says("Layout", "coaxial"));
        world.key(Qt::Key_Escape);
    }
    CHECK(fits == 1);
}

TEST_CASE("a check that is opened tells its values with units and what was stated", "[unit]") {
    DetailsWorld world;
    world.keep("check", world.idle,
               {{"check", "leak"},
                {"outcome", "fail"},
                {"measures", logbook::json::Object{{"leak", logbook::json::Object{
                                                                {"value", 260.0},
                                                                {"unit", "mL/min"}}}}},
                {"conditions", logbook::json::Array{"gas_supply", "mains_power"}}});
    auto* list = world.history(world.idle, QStringLiteral("failed"));
    world.openLine(*list, 0);
    CHECK(world.says("Leak", "260 mL/min"));
    CHECK(world.says("Stated", "Gas supply connected and On mains power"));
}

TEST_CASE("all that is moved together is seen first, and why is asked so that it fits", "[unit]") {
    DetailsWorld world;
    for (const auto* text : {"Filter looked at", "Hose looked at", "Wheels looked at"})
        world.keep("note", world.idle, {{"text", text}}, "icu-1 one session");
    auto* list = world.history(world.idle, QStringLiteral("Wheels looked at"));
    world.openLine(*list, 0);
    world.pressButton(QStringLiteral("It was another unit: move all 3 entries of this session"));
    DetailsWorld::waitUntil("they are listed",
                            [&] { return world.isSaid("Entries that are moved: 3."); });
    for (const auto* text : {"Filter looked at", "Hose looked at", "Wheels looked at"})
        CHECK(world.isSaid(QString::fromLatin1(text)));
    CHECK(world.buttons(QStringLiteral("It was not done")).empty());
    CHECK(world.buttons(QStringLiteral("Entered twice")).empty());
    CHECK(world.buttons(QStringLiteral("The unit before was still open")).size() == 1);
    world.scan(QStringLiteral("KB-9999"));
    world.typeInto("Unit that was meant", "KB-9999");
    DetailsWorld::waitUntil("it is looked for",
                            [&] { return world.isSaid("No unit goes by KB-9999."); });
    world.pressButton(QStringLiteral("Move it"));
    CHECK(world.isSaid("Say why first"));
    CHECK(QApplication::focusWidget() == world.line("Reason"));
    world.pressButton(QStringLiteral("Wrong unit"));
    world.pressButton(QStringLiteral("Move it"));
    CHECK(world.isSaid("Scan the unit that was meant first."));
    CHECK(QApplication::focusWidget() == world.line("Unit that was meant"));
    world.typeInto("Unit that was meant", "a-0102");
    DetailsWorld::waitUntil("the unit is told", [&] {
        return world.isSaid("KB-0102 · A-0102 · Larch 4 · Equipment room");
    });
    CHECK(world.isSaid("In use since 08:00."));
    CHECK(world.buttons(QStringLiteral("Move it to KB-0102")).size() == 1);
    world.typeInto("Unit that was meant", "KB-0107");
    DetailsWorld::waitUntil("the unit is told", [&] {
        return world.isSaid("Out of service") && world.isSaid("Not in use.");
    });
    world.key(Qt::Key_Escape);
    world.pressButton(QStringLiteral("Leave it, lose what I typed"));
    world.openLine(*list, 1);
    world.pressButton(QStringLiteral("Strike all 3 entries of this session through"));
    DetailsWorld::waitUntil("they are listed",
                            [&] { return world.isSaid("Entries that are struck through: 3."); });
    CHECK(world.buttons(QStringLiteral("It was not done")).size() == 1);
    // One that comes in meanwhile is not struck unseen.
    world.signIn();
    world.keep("note", world.idle, {{"text", "Screen looked at"}}, "icu-1 one session");
    world.pressButton(QStringLiteral("Entered twice"));
    world.pressButton(QStringLiteral("Strike it through"));
    world.typePin();
    DetailsWorld::waitUntil("it is refused", [&] { return world.isSaid("not shown yet: 1."); });
    DetailsWorld::waitUntil("all are listed",
                            [&] { return world.isSaid("Entries that are struck through: 4."); });
    CHECK(world.isSaid("Screen looked at"));
    world.pressButton(QStringLiteral("Strike it through"));
    world.typePin();
    DetailsWorld::waitUntil("it is told",
                            [&] { return world.isSaid("Struck through: 4."); });
}

TEST_CASE("a session that could not be read is not struck unseen", "[unit]") {
    DetailsWorld world;
    for (const auto* text : {"Filter looked at", "Hose looked at"})
        world.keep("note", world.idle, {{"text", text}}, "icu-1 one session");
    auto* list = world.history(world.idle, QStringLiteral("Hose looked at"));
    world.openLine(*list, 0);
    const auto file = world.file.path;
    {
        const support::BusyReader busy(world);
        world.pressButton(QStringLiteral("Strike all 2 entries of this session through"));
        std::filesystem::rename(file, world.folder.file("away.logbook"));
    }
    QTest::qWait(500);
    REQUIRE(world.buttons(QStringLiteral("Strike it through")).size() == 1);
    CHECK_FALSE(world.buttons(QStringLiteral("Strike it through")).front()->isEnabled());
    CHECK(world.isSaid("There is no logbook"));
}

TEST_CASE("what is being struck or moved is not pressed again", "[unit]") {
    DetailsWorld world;
    world.signIn();
    world.keep("note", world.idle, {{"text", "Hose looked at"}});
    auto* list = world.history(world.idle, QStringLiteral("Hose looked at"));
    world.openLine(*list, 0);
    world.pressButton(QStringLiteral("It was another unit: move it"));
    world.typeInto("Unit that was meant", "KB-0107");
    world.waitUntil("the unit is told", [&] { return world.isSaid("Not in use."); });
    world.pressButton(QStringLiteral("Wrong unit"));
    const auto before = world.entries().size();
    auto* keep = world.buttons(QStringLiteral("Move it to KB-0107")).front();
    {
        const support::BusyWriter busy(world);
        world.pressSeen(keep);
        world.typePin();
        QTest::qWait(100);
        world.scan(QStringLiteral("KB-0102"));
        QTest::qWait(500);
        CHECK_FALSE(keep->isEnabled());
        CHECK(world.line("Unit that was meant")->text() == "KB-0107");
    }
    CHECK(world.entriesSince(before, 2).back().find("KB-0107") != std::string::npos);
}
