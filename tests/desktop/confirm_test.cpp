// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What was kept under a name without its PIN: the person is told after signing in, and says that it
// was they, or that it was somebody else.
#include "acts_world.h"
#include "station/confirmation.h"

namespace {

using support::ActsWorld;

// Two entries under the name of the manager, one under that of somebody else.
struct WaitingWorld : ActsWorld {
    WaitingWorld() {
        using Taken = std::pair<const char*, const char*>;
        for (const auto& [person, unit] :
             {Taken{"m.toller", idle}, Taken{"m.toller", repair}, Taken{"p.quill", inUse}}) {
            station::Entry entry{station::Writer(person), "soil", unit};
            entry.body = {{"reason", "Splash"}};
            REQUIRE(station::writeEntry(surroundings(), file, entry));
        }
        window->workplace().refresh();
        waitUntil("they are read", [this] { return waiting().size() == 3; });
    }

    [[nodiscard]] std::vector<station::Unconfirmed> waiting() const {
        const auto& log = logRead();
        std::vector<station::Unconfirmed> all;
        for (const auto* person : {"m.toller", "p.quill"})
            for (auto& entry : station::waitingFor(surroundings(), file, log, person))
                all.push_back(std::move(entry));
        return all;
    }

    void signInByPress(const QString& person = QStringLiteral("m.toller")) const {
        press(QStringLiteral("Sign in"));
        BedsideWorld::signIn(person);
        waitUntil("somebody is signed in",
                  [this] { return window->workplace().presence().session().has_value(); });
    }
};

}  // namespace

TEST_CASE("who has signed in is told what waits for their name, and confirms it", "[unit]") {
    WaitingWorld world;
    CHECK(world.all<QPushButton>(QStringLiteral("Entries that wait for your name")).empty());
    world.signInByPress();
    world.press(QStringLiteral("Entries that wait for your name: 2"));
    (void)world.awaitSheet();
    CHECK(world.isSaid(QStringLiteral("KB-0101 · Soiled: Splash")));
    CHECK(world.isSaid(QStringLiteral("KB-0107 · Soiled: Splash")));
    CHECK_FALSE(world.isSaid(QStringLiteral("KB-0102")));
    const auto before = world.entries().size();
    world.pressButton(QStringLiteral("It was me: confirm all 2"));
    const auto kept = world.entriesSince(before, 2);
    CHECK(kept[0].starts_with(R"(review KB-0101 {"disposition":"confirmed","target":"icu-1/)"));
    CHECK(kept[1].starts_with(R"(review KB-0107 {"disposition":"confirmed","target":"icu-1/)"));
    CHECK(world.isSaid(QStringLiteral("Entries confirmed: 2.")));
    WaitingWorld::waitUntil("nothing waits any more", [&] {
        return world.all<QPushButton>(QStringLiteral("Entries that wait for your name")).empty();
    });
    CHECK(world.waiting().size() == 1);
    world.key(Qt::Key_I, Qt::ControlModifier);
    WaitingWorld::waitUntil("that is told",
                            [&] { return world.isSaid("No entry waits for your name."); });
}

TEST_CASE("of one entry it is said that it was somebody else, and it goes on standing", "[unit]") {
    WaitingWorld world;
    world.signInByPress();
    world.press(QStringLiteral("Entries that wait for your name: 2"));
    (void)world.awaitSheet();
    const auto before = world.entries().size();
    world.pressSeen(world.buttons(QStringLiteral("It was somebody else")).front());
    WaitingWorld::waitUntil("one is left", [&] {
        return world.buttons(QStringLiteral("It was me")).size() == 1;
    });
    CHECK_FALSE(world.isSaid(QStringLiteral("KB-0101 · Soiled")));
    world.pressButton(QStringLiteral("It was me"));
    const auto kept = world.entriesSince(before, 2);
    CHECK(kept[0].starts_with(R"(review KB-0101 {"disposition":"not_mine","target":"icu-1/)"));
    CHECK(kept[1].starts_with(R"(review KB-0107 {"disposition":"confirmed","target":"icu-1/)"));
    const auto all = station::unconfirmed(world.surroundings(), world.file, "m.toller");
    REQUIRE(all);
    REQUIRE(all->size() == 1);
    CHECK(all->front().isDisowned);
    CHECK(all->front().line.ends_with("(Mara Toller: it was somebody else)"));
    const auto stands = station::wholeStanding(world.surroundings(), world.file, {});
    REQUIRE(stands);
    const auto history = station::history(world.surroundings(), *stands, ActsWorld::idle);
    CHECK(std::ranges::count(history.lines, "not by Mara Toller, as they say",
                             &report::HistoryLine::who) == 1);
}

TEST_CASE("what waits is put off, and found again by its key", "[unit]") {
    WaitingWorld world;
    world.signInByPress(QStringLiteral("p.quill"));
    world.press(QStringLiteral("Entries that wait for your name: 1"));
    (void)world.awaitSheet();
    CHECK(world.buttons(QStringLiteral("It was me: confirm all")).empty());
    world.key(Qt::Key_Escape);
    world.press(QStringLiteral("Later"));
    CHECK(world.all<QPushButton>(QStringLiteral("Entries that wait for your name")).empty());
    world.window->workplace().refresh();
    WaitingWorld::waitUntil("it was read again",
                            [&] { return !world.window->workplace().isReading(); });
    QTest::qWait(100);
    CHECK(world.all<QPushButton>(QStringLiteral("Entries that wait for your name")).empty());
    world.key(Qt::Key_I, Qt::ControlModifier);
    (void)world.awaitSheet();
    CHECK(world.isSaid(QStringLiteral("KB-0102 · Soiled: Splash")));
}

TEST_CASE("whoever is not signed in signs in before seeing what waits", "[unit]") {
    WaitingWorld world;
    world.key(Qt::Key_I, Qt::ControlModifier);
    world.BedsideWorld::signIn();
    WaitingWorld::waitUntil("the entries are there",
                            [&] { return world.isSaid(QStringLiteral("KB-0101 · Soiled")); });
}

TEST_CASE("somebody else is written once, however often it is pressed", "[unit]") {
    WaitingWorld world;
    world.signInByPress(QStringLiteral("p.quill"));
    world.press(QStringLiteral("Entries that wait for your name: 1"));
    (void)world.awaitSheet();
    const auto before = world.entries().size();
    auto* button = world.buttons(QStringLiteral("It was somebody else")).front();
    button->click();
    button->click();
    (void)world.entriesSince(before, 1);
    QTest::qWait(300);
    CHECK(world.entries().size() == before + 1);
    const auto& session = world.window->workplace().presence().session();
    REQUIRE(session);
    const auto waiting = station::unconfirmed(world.surroundings(), world.file, "p.quill");
    REQUIRE(waiting->size() == 1);
    const auto again = station::confirm(
        world.surroundings(), world.file,
        {station::Writer(*session), {waiting->front().record}, false});
    REQUIRE(again);
    CHECK(again->empty());
}

TEST_CASE("after a refusal the list tells what waits still", "[unit]") {
    WaitingWorld world;
    world.signInByPress();
    world.press(QStringLiteral("Entries that wait for your name: 2"));
    (void)world.awaitSheet();
    // Confirmed elsewhere meanwhile.
    const auto& session = world.window->workplace().presence().session();
    REQUIRE(session);
    const auto waiting = station::unconfirmed(world.surroundings(), world.file, "m.toller");
    REQUIRE(station::confirm(world.surroundings(), world.file,
                             {station::Writer(*session), {waiting->front().record}}));
    world.pressButton(QStringLiteral("It was me: confirm all 2"));
    WaitingWorld::waitUntil("one is left", [&] {
        return world.buttons(QStringLiteral("It was me")).size() == 1;
    });
    CHECK_FALSE(world.isSaid(QStringLiteral("KB-0101 · Soiled")));
    CHECK(world.isSaid(QStringLiteral("KB-0107 · Soiled")));
}
