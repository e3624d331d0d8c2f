// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// A draft that comes back after a while says since when it was begun, and asks when it was done.
#include "acts_world.h"
#include "desktop/bedside/when_done_sheet.h"
#include "way_world.h"

using support::ActsWorld;
using support::BedsideWorld;
using support::Way;

namespace {

constexpr logbook::Duration sixteenMinutes{16 * 60'000};

struct LeftValue : Way {
    LeftValue() {
        openSignedIn();
        begun = clock.now();
        doFirst("B leak");
        press("Passed");
        waitUntil("the value is asked for", [&] { return sheet() != nullptr; });
        type("180");
        waitUntil("it is typed", [&] { return typed() == "180"; });
    }
    void leaveFor(logbook::Duration span) {
        auto& presence = window->workplace().presence();
        presence.lock();
        clock.advance(span);
        presence.begin(*manager().session);
        waitUntil("it is back", [&] { return sheet()->isVisible(); });
    }
    [[nodiscard]] bool isAsked() const {
        return window->findChild<desktop::WhenDoneSheet*>() != nullptr;
    }

    logbook::Instant begun;
};

class Draft : public desktop::Sheet {
public:
    using Sheet::Sheet;
    [[nodiscard]] bool isDraft() const override { return true; }
};

}  // namespace

TEST_CASE("a draft that was left is asked when it was done before it can be kept", "[unit]") {
    LeftValue way;
    way.leaveFor(sixteenMinutes);
    way.waitUntil("it is asked", [&] { return way.isAsked(); });
    CHECK(way.isSaid("16 min ago, and not kept yet. When was this done?"));
    CHECK_FALSE(way.mainButton()->isEnabled());
    const auto before = way.records().size();
    SECTION("when it was begun") {
        way.pressButton("At ");
        way.waitUntil("it says so", [&] { return way.isSaid(". Done at "); });
        CHECK(way.typed() == "180");
        way.press(way.mainButton());
        CHECK(way.lastOf(before + 1).starts_with(R"({"at":")" + toText(way.begun)));
    }
    SECTION("now") {
        way.pressButton("Now");
        way.waitUntil("it says so", [&] { return way.isSaid("Done now, when it is kept."); });
        way.press(way.mainButton());
        CHECK(way.lastOf(before + 1).starts_with(R"({"at":")" + toText(way.clock.now())));
    }
    SECTION("at another time") {
        way.pressButton("Another time");
        way.pressButton("10 min ago");
        const auto then = way.clock.now() - logbook::Duration{10 * 60'000};
        way.press(way.mainButton());
        CHECK(way.lastOf(before + 1).starts_with(R"({"at":")" + toText(then)));
    }
    SECTION("Escape answers nothing") {
        way.key(Qt::Key_Escape);
        CHECK(way.isAsked());
        CHECK(way.isSaid("First say when it was done."));
        CHECK_FALSE(way.mainButton()->isEnabled());
        way.pressButton("At ");
        way.press(way.mainButton());
        CHECK(way.lastOf(before + 1).starts_with(R"({"at":")" + toText(way.begun)));
    }
    SECTION("not answered before it is left again: it is asked once") {
        way.leaveFor(sixteenMinutes);
        QTest::qWait(100);
        CHECK(way.window->findChildren<desktop::WhenDoneSheet*>().size() == 1);
    }
}

TEST_CASE("a draft that comes back at once is not asked about", "[unit]") {
    LeftValue way;
    way.leaveFor(logbook::Duration{60'000});
    QTest::qWait(100);
    CHECK_FALSE(way.isAsked());
    CHECK(way.mainButton()->isEnabled());
}

TEST_CASE("other entries that were left are asked about as well", "[unit]") {
    ActsWorld world;
    world.signIn();
    world.openUnit(ActsWorld::idle);
    world.key(Qt::Key_F7);
    world.pressButton("Note");
    world.typeInto("What is to be noted", "fan is loud");
    world.waitUntil("it is typed", [&] {
        return world.line("What is to be noted")->text() == "fan is loud";
    });
    const auto begun = world.clock.now();
    auto& presence = world.window->workplace().presence();
    presence.lock();
    world.clock.advance(sixteenMinutes);
    world.signIn();
    world.waitUntil("it is asked", [&] { return world.isSaid("When was this done?"); });
    const auto before = world.records().size();
    world.pressButton("At ");
    world.pressButton("Keep this note");
    world.waitUntil("it is kept", [&] { return world.records().size() == before + 1; });
    CHECK(world.records().back().starts_with(R"({"at":")" + toText(begun)));
}

TEST_CASE("of drafts that lie one over the other each is asked about", "[unit]") {
    ActsWorld world;
    world.signIn();
    auto& workplace = world.window->workplace();
    auto& sheets = *world.window->findChild<desktop::SheetStack*>();
    const desktop::DeskTools tools{workplace, sheets};
    const auto begun = workplace.clock().now();
    std::vector<std::string> answers;
    const auto draft = [&](const char* name) {
        auto* sheet = new Draft(name);
        sheet->setParent(world.window.get());
        QObject::connect(
            sheet, &desktop::Sheet::cameBack, sheet,
            [&, sheet, name] {
                desktop::askWhenDone(tools, {*sheet, begun, [] { return false; }},
                                     [&, name](auto at) {
                                         answers.push_back(name + std::string(at ? " then" : ""));
                                     });
            },
            Qt::QueuedConnection);
        sheets.put(sheet);
        return sheet;
    };
    draft("lower");
    auto* upper = draft("upper");
    const int times = GENERATE(1, 2);
    for (int time = 0; time < times; ++time) {
        workplace.presence().lock();
        world.clock.advance(sixteenMinutes);
        world.signIn();
        world.waitUntil("it is asked", [&] { return world.isSaid("When was this done?"); });
    }
    CHECK(world.sheet()->accessibleName() == "upper");
    world.pressButton("Now");
    CHECK(world.sheet() == upper);
    QTest::qWait(100);
    CHECK(world.sheet() == upper);
    upper->callOff();
    world.waitUntil("it is asked", [&] { return world.isSaid("When was this done?"); });
    CHECK(world.sheet()->accessibleName() == "lower");
    world.pressButton("At ");
    QTest::qWait(100);
    CHECK(world.window->findChildren<desktop::WhenDoneSheet*>().empty());
    CHECK(answers == std::vector<std::string>{"upper", "lower then"});
}
