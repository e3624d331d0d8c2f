// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The set-up: parts fitted, swapped, taken out and reprocessed; what is proposed and what is asked.
#include "acts_world.h"

#include "desktop/bedside/setup_part_fields.h"

using support::ActsWorld;
using Lines = std::vector<std::string>;

namespace {

void openSetup(ActsWorld& world, const std::string& serial) {
    world.openUnit(serial);
    world.key(Qt::Key_F6);
    ActsWorld::waitUntil("the positions are shown",
                            [&] { return world.isSaid("Breathing circuit"); });
}

const rules::PartAttributes& fitted(const ActsWorld& world, const std::string& serial,
                                    const std::string& position) {
    return world.device(serial).fitted.at(position).attributes;
}

}  // namespace

TEST_CASE("days are read as people and packages write them", "[unit]") {
    using desktop::typedDay;
    // GS1 General Specifications, AI (17): YYMMDD, day 00 is the last day of the month.
    CHECK(typedDay("2027-05-31") == logbook::parseDay("2027-05-31"));
    CHECK(typedDay("20270531") == logbook::parseDay("2027-05-31"));
    CHECK(typedDay("270531") == logbook::parseDay("2027-05-31"));
    CHECK(typedDay("270200") == logbook::parseDay("2027-02-28"));
    CHECK(typedDay("280200") == logbook::parseDay("2028-02-29"));
    CHECK_FALSE(typedDay("270532"));
    CHECK_FALSE(typedDay("27053"));
    CHECK_FALSE(typedDay("soon"));
}

TEST_CASE("a swap is a removal and a fit, with what is proposed but lot and expiry", "[unit]") {
    ActsWorld world;
    world.signIn();
    const auto unit = std::string(ActsWorld::idle);
    openSetup(world, unit);
    const auto before = fitted(world, unit, "circuit");
    const auto count = world.entries().size();
    world.pressButton("Swap: Breathing circuit");
    CHECK(world.line("Lot")->text().isEmpty());
    CHECK(world.line("Serial")->text().isEmpty());
    CHECK(world.line("Expires")->text().isEmpty());
    CHECK(world.line("Model")->text().toStdString() == before.text("model"));
    world.typeInto("Lot", "4472");
    world.typeInto("Expires", "270531");
    world.pressButton("The old one is out, this one is in");
    const auto kept = world.entriesSince(count, 2);
    CHECK(kept.at(0) == "remove " + unit + " {\"position\":\"circuit\"}");
    const auto fit = logbook::json::parse(kept.at(1).substr(kept.at(1).find('{')));
    const auto* part = fit->find("part");
    CHECK(*part->find("lot")->string() == "4472");
    CHECK(*part->find("expires")->string() == "2027-05-31");
    CHECK(*part->find("model")->string() == before.text("model"));
    REQUIRE(part->find("groups") != nullptr);
    CHECK(part->find("groups")->array()->size() == before.groups->size());
}

TEST_CASE("another group than before is confirmed in words", "[unit]") {
    ActsWorld world;
    world.signIn();
    const auto unit = std::string(ActsWorld::idle);
    openSetup(world, unit);
    const auto count = world.entries().size();
    world.pressButton("Swap: Breathing circuit");
    for (const auto& group : *fitted(world, unit, "circuit").groups)
        world.pressButton(group == "adult" ? "Adult" : "Adult transport");
    world.pressButton("Neonatal");
    CHECK(world.isSaid("Another group than before"));
    SECTION("no: nothing is kept") {
        world.pressButton("The old one is out");
        world.pressButton("Do not keep it");
        QTest::qWait(200);
        CHECK(world.entries().size() == count);
        CHECK(world.sheet() != nullptr);
    }
    SECTION("yes") {
        world.pressButton("The old one is out");
        // One question, also about what stands against ready with it.
        ActsWorld::waitUntil("it is asked", [&] {
            return world.isSaid("With this part KB-0101 is not ready.");
        });
        CHECK(world.isSaid("Another group than before"));
        world.pressButton("Keep it all the same");
        const auto kept = world.entriesSince(count, 2);
        CHECK(kept.at(1).find("\"groups\":[\"neonatal\"]") != std::string::npos);
    }
}

TEST_CASE("a part that has expired is told at once, and asked about but on a patient", "[unit]") {
    ActsWorld world;
    world.signIn();
    const bool isIdle = GENERATE(true, false);
    const auto unit = std::string(isIdle ? ActsWorld::idle : ActsWorld::inUse);
    openSetup(world, unit);
    const auto count = world.entries().size();
    world.pressButton(isIdle ? "Swap: Breathing circuit" : "Fit: Breathing circuit");
    world.typeInto("Lot", "4472");
    world.bringIntoSight(*world.one<QPushButton>("Adult transport"));
    if (!isIdle) world.pressButton("Adult transport");
    CHECK_FALSE(world.isSaid("expired on"));
    world.typeInto("Expires", "2026-11-01");
    ActsWorld::waitUntil("it is told", [&] { return world.isSaid("expired on 1 Nov"); });
    CHECK(world.entries().size() == count);
    if (!isIdle) {
        world.pressButton("This one was fitted");
        CHECK(world.entriesSince(count, 1).front().find("2026-11-01") != std::string::npos);
        return;
    }
    world.pressButton("The old one is out");
    ActsWorld::waitUntil("it is asked", [&] {
        return world.isSaid("With this part KB-0101 is not ready.");
    });
    world.pressButton("Do not keep it");
    QTest::qWait(200);
    CHECK(world.entries().size() == count);
    CHECK(world.line("Lot")->text() == "4472");
    world.pressButton("The old one is out");
    world.pressButton("Keep it all the same");
    CHECK(world.entriesSince(count, 2).at(1).find("2026-11-01") != std::string::npos);
}

TEST_CASE("a lot that is called back is told wherever it is scanned", "[unit]") {
    ActsWorld world;
    world.write("notice", "",
                {{"key", "fa_1"},
                 {"title", "Leaks"},
                 {"action", "stop_use"},
                 {"match", logbook::json::Object{{"position", "circuit"},
                                                 {"lots", logbook::json::Array{"C-4471"}}}}});
    world.window->workplace().refresh();
    ActsWorld::waitUntil("it is read", [&] {
        return !world.window->workplace().fleet()->standing->state.notices.empty();
    });
    // With no unit open: the notice, and where parts of it are.
    world.scan("C-4471");
    (void)world.awaitSheet();
    CHECK(world.isSaid("Lot C-4471: breathing circuit."));
    CHECK(world.isSaid("Stop-use notice fa 1: Leaks."));
    CHECK(world.buttons("KB-0106 · A-0106 · Larch 4").size() == 1);
    world.pressButton("KB-0101 · A-0101 · Larch 4");
    // Over a unit in use, whatever is shown of it: the sheet that fits it.
    ActsWorld::waitUntil("the unit is shown", [&] { return world.isSaid("KB-0101"); });
    world.signIn();
    world.openUnit(ActsWorld::inUse);
    const auto count = world.entries().size();
    world.scan("C-4471");
    ActsWorld::waitUntil("it is offered its position", [&] {
        return world.sheet() != nullptr &&
               world.sheet()->accessibleName() == "Fit: Breathing circuit";
    });
    CHECK(world.line("Lot")->text() == "C-4471");
    CHECK(world.line("Model")->text() == "Fern coaxial 22");
    ActsWorld::waitUntil("it is told", [&] {
        return world.isSaid("Breathing circuit lot C-4471 is under stop-use notice fa 1: Leaks.");
    });
    CHECK(world.entries().size() == count);
    world.pressButton("This one was fitted");
    CHECK(world.entriesSince(count, 1).front().find("C-4471") != std::string::npos);
    // It is the first of what stands there, and the first press is the first of what it takes.
    world.key(Qt::Key_F5);
    const QString called = "reathing circuit under stop-use notice: Leaks";
    ActsWorld::waitUntil("it stands there", [&] { return world.isSaid("B" + called); });
    CHECK(world.isSaid("In this order: pause the use, change: breathing circuit"));
    CHECK(world.buttons("Fit: Breathing circuit").empty());
    world.pressButton("The patient is disconnected for a while: pause the use");
    CHECK(world.entriesSince(count + 1, 1).front() ==
          "use_pause KB-0102 {\"reason\":\"Change: breathing circuit\"}");
    ActsWorld::waitUntil("the change is next",
                         [&] { return world.buttons("Fit: Breathing circuit").size() == 1; });
    // Seen at once by whoever looks at all units.
    world.key(Qt::Key_2, Qt::ControlModifier);
    ActsWorld::waitUntil("it is told", [&] {
        return world.isSaid("In use, although something stands against it: KB-0102 (b" + called);
    });
}

TEST_CASE("a lot of another position is told, and asked about but on a patient", "[unit]") {
    ActsWorld world;
    world.signIn();
    const bool isIdle = GENERATE(true, false);
    openSetup(world, isIdle ? ActsWorld::idle : ActsWorld::inUse);
    const auto count = world.entries().size();
    world.pressButton(isIdle ? "Fit: Flow sensor" : "Swap: Flow sensor");
    (void)world.awaitSheet();
    const auto press = isIdle ? "This one was fitted" : "The old one is out";
    const QString belongs = "By the log C-4471 belongs to: breathing circuit.";
    if (isIdle) {
        // Typed, and pressed before anything can be told.
        world.typeInto("Lot", "C-4471");
        world.pressButton(press);
        ActsWorld::waitUntil("it is asked", [&] {
            return !world.buttons("Do not keep it").empty() && world.isSaid(belongs);
        });
        world.pressButton("Do not keep it");
        QTest::qWait(200);
        CHECK(world.entries().size() == count);
        return;
    }
    world.scan("C-4471");
    ActsWorld::waitUntil("it is told", [&] { return world.isSaid(belongs); });
    CHECK(world.line("Lot")->text() == "C-4471");
    world.pressButton(press);
    CHECK(world.entriesSince(count, 2).back().find("C-4471") != std::string::npos);
}

TEST_CASE("a day that is none is told before it is kept", "[unit]") {
    ActsWorld world;
    world.signIn();
    openSetup(world, std::string(ActsWorld::idle));
    world.pressButton("Swap: Breathing circuit");
    world.typeInto("Expires", "31 May");
    const auto found = world.buttons("31 May is no day");
    REQUIRE(found.size() == 1);
    CHECK_FALSE(found.front()->isEnabled());
}

TEST_CASE("a part that stands elsewhere is offered its position and says so", "[unit]") {
    ActsWorld world;
    world.signIn();
    const auto unit = std::string(ActsWorld::idle);
    const std::string other = ActsWorld::inUse, serial = ActsWorld::sensor;
    world.openUnit(unit);
    const auto count = world.entries().size();
    for (const auto panel : {Qt::Key_F5, Qt::Key_F6}) {
        world.key(panel);
        world.scan(QString::fromStdString(serial));
        (void)world.awaitSheet();
        CHECK(world.sheet()->accessibleName() == "Fit: Flow sensor");
        CHECK(world.line("Serial")->text().toStdString() == serial);
        CHECK(world.isSaid("By the log this part stands in unit " +
                           QString::fromStdString(other)));
        ActsWorld::waitUntil("what becomes of that unit is told", [&] {
            return world.isSaid(QString::fromStdString(other) +
                                " is in use, and this then stands against it: flow sensor missing");
        });
        world.key(Qt::Key_Escape);
        CHECK(world.sheet() == nullptr);
    }
    CHECK(world.entries().size() == count);
}

TEST_CASE("what is scanned goes into the line with the focus, and presses nothing", "[unit]") {
    ActsWorld world;
    world.signIn();
    openSetup(world, std::string(ActsWorld::idle));
    const auto count = world.entries().size();
    world.pressButton("Swap: Breathing circuit");
    world.line("Lot")->setFocus();
    world.scan("LOT-90210");
    ActsWorld::waitUntil("the lot is read",
                            [&] { return world.line("Lot")->text() == "LOT-90210"; });
    CHECK(world.line("Serial")->text().isEmpty());
    CHECK(world.entries().size() == count);
}

TEST_CASE("a part is taken out, or reprocessed in place", "[unit]") {
    ActsWorld world;
    world.signIn();
    const std::string unit = ActsWorld::idle;
    openSetup(world, unit);
    const auto count = world.entries().size();
    world.pressButton("Reprocessing: Exhalation valve");
    world.pressButton("Reprocessed: high-level");
    world.typeInto("Load", "W-18");
    world.pressButton("It was reprocessed");
    CHECK(world.entriesSince(count, 1) ==
          Lines{"reprocess " + unit +
                " {\"level\":\"high\",\"load\":\"W-18\",\"positions\":[\"exhalation_valve\"]}"});
    world.pressButton("Take out: Exhalation valve");
    world.pressButton("It was taken out");
    CHECK(world.entriesSince(count + 1, 1) ==
          Lines{"remove " + unit + " {\"position\":\"exhalation_valve\"}"});
    // The very part, with one press.
    world.pressButton("Put back: Brookvale EV-2");
    const auto back = world.entriesSince(count + 2, 1).front();
    CHECK(back.starts_with("fit " + unit + " {\"part\":{\"model\":\"Brookvale EV-2\""));
    CHECK(back.find("\"serial\":\"EV-" + unit + "\"") != std::string::npos);
    ActsWorld::waitUntil("it is offered no more",
                         [&] { return world.buttons("Put back: ").empty(); });
}

TEST_CASE("a part that is scanned takes nothing that was typed without a question", "[unit]") {
    ActsWorld world;
    world.signIn();
    openSetup(world, ActsWorld::idle);
    const auto count = world.entries().size();
    world.pressButton("Fit: Flow sensor");
    (void)world.awaitSheet();
    world.typeInto("Model", "Of our own");
    world.scan(ActsWorld::sensor);
    world.pressButton("Keep what I typed");
    CHECK(world.line("Model")->text() == "Of our own");
    CHECK(world.line("Serial")->text().isEmpty());
    world.scan(ActsWorld::sensor);
    world.pressButton("Take what is known of FS-9");
    CHECK(world.line("Model")->text() == "Brookvale FS-A");
    CHECK(world.line("Serial")->text() == "FS-9");
    CHECK(world.entries().size() == count);
}

TEST_CASE("what the model before was like is not taken for one that nobody knows", "[unit]") {
    ActsWorld world;
    world.signIn();
    openSetup(world, ActsWorld::idle);
    world.pressButton("Swap: Breathing circuit");
    (void)world.awaitSheet();
    const auto model = world.line("Model")->text();
    REQUIRE_FALSE(model.isEmpty());
    REQUIRE(world.line("Layout")->text() == "coaxial");
    world.typeInto("Model", "Zcoax 22");
    CHECK(world.line("Layout")->text().isEmpty());
    CHECK(world.isSaid("Nothing is known of this model here"));
    world.typeInto("Layout", "dual limb");
    world.typeInto("Model", model);
    CHECK_FALSE(world.isSaid("Nothing is known of this model here"));
    CHECK(world.line("Layout")->text() == "dual limb");  // by hand
}

TEST_CASE("a lot that is known is read as a lot, and of an unknown part nothing is kept",
          "[unit]") {
    ActsWorld world;
    world.signIn();
    openSetup(world, ActsWorld::inUse);
    world.pressButton("Fit: Breathing circuit");
    (void)world.awaitSheet();
    CHECK(world.buttons("First: model, serial number or lot").size() == 1);
    world.line("Serial")->setFocus();
    world.scan("C-4471");  // of the circuit in another unit
    ActsWorld::waitUntil("it is read", [&] { return !world.line("Lot")->text().isEmpty(); });
    CHECK(world.line("Lot")->text() == "C-4471");
    CHECK(world.line("Serial")->text().isEmpty());
    // What the edition looks for is asked, where no part before said it either.
    world.line("Layout")->clear();
    world.pressButton("coaxial");
    CHECK(world.line("Layout")->text() == "coaxial");
    world.typeInto("Layout", "Coaxial");
    CHECK(world.buttons("This one was fitted").size() == 1);
}
