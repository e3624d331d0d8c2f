// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every other entry, by mouse and keys: the record that is kept is compared.
#include "acts_world.h"
#include "desktop/theme/verdict_chip.h"

using support::ActsWorld;
using Lines = std::vector<std::string>;

namespace {

// A button, what is pressed in its sheet, what ends it.
struct Steps {
    QString act;
    std::vector<QString> chosen{};
    std::vector<std::pair<QString, QString>> typed{};  // line, text
    QString keeps;
    bool isGrave = false;  // the PIN is asked for once more
};

Lines enter(ActsWorld& world, const Steps& steps, std::size_t count = 1) {
    world.awaitAnswers();  // a form from before the last entry is not kept at its first press
    const auto before = world.entries().size();
    world.pressButton(steps.act);
    (void)world.awaitSheet();
    for (const auto& each : steps.chosen) world.pressButton(each);
    for (const auto& [line, text] : steps.typed) world.typeInto(line, text);
    world.pressButton(steps.keeps);
    if (steps.isGrave) world.typePin();
    return world.entriesSince(before, count);
}

std::string placeOf(const ActsWorld& world, const std::string& serial) {
    return world.device(serial).location;
}

std::string groupOf(const ActsWorld& world, const std::string& serial) {
    return *world.device(serial).group();
}

// As JSON has it, members sorted; without a place nobody said one.
std::string use(const ActsWorld& world, const std::string& serial, const std::string& more,
                const std::string& place = {}) {
    return "use_start " + serial + " {" + more + "\"group\":\"" + groupOf(world, serial) + "\"" +
           (place.empty() ? "" : ",\"location\":\"" + place + "\"");
}

}  // namespace

TEST_CASE("from the parts that are fitted to the end of a use", "[unit]") {
    ActsWorld world;
    world.signIn();
    const auto unit = std::string(ActsWorld::idle);
    world.openUnit(unit);
    world.key(Qt::Key_F6);
    const auto parts =
        enter(world, {"Swap: Breathing circuit", {}, {{"Lot", "4472"}}, "The old one is out"}, 2);
    CHECK(parts.front() == "remove " + unit + " {\"position\":\"circuit\"}");
    CHECK(parts.back().starts_with("fit " + unit + " {\"part\":{"));
    CHECK(parts.back().find("\"lot\":\"4472\"") != std::string::npos);
    world.key(Qt::Key_F7);
    ActsWorld::waitUntil("it is no longer ready", [&] {
        return !world.all<desktop::VerdictChip>("not ready").empty();
    });
    // Where the unit stood is offered, and no more than that.
    const auto started = use(world, unit, "", placeOf(world, unit)) +
                         ",\"precautions\":false,\"reason\":\"Patient unstable\"}";
    CHECK(enter(world, {"Start of use", {"Equipment room", "No precautions", "Patient unstable"},
                        {}, "The use began, for Adult"}) == Lines{started});
    const auto wait = [&](const char* button) {
        ActsWorld::waitUntil(std::string(button) + " makes sense", [&] {
            return !world.buttons(button).front()->property("off").toBool();
        });
    };
    wait("Pause");
    CHECK(enter(world, {"Pause", {"Circuit change"}, {}, "Disconnected"}) ==
          Lines{"use_pause " + unit + " {\"reason\":\"Circuit change\"}"});
    wait("Resume");
    CHECK(enter(world, {"Resume", {}, {}, "Connected again"}) ==
          Lines{"use_resume " + unit + " {}"});
    wait("End of use");
    CHECK(enter(world, {"End of use", {}, {}, "This use is over"}) ==
          Lines{"use_end " + unit + " {}"});
}

TEST_CASE("an emergency start takes two presses", "[unit]") {
    ActsWorld world;
    const auto unit = std::string(ActsWorld::idle);
    const auto started = use(world, unit, "\"emergency\":true,") + "}";
    SECTION("of somebody who is signed in") {
        world.signIn();
        world.openActs(unit);
        CHECK(enter(world, {"Emergency start", {}, {},
                            "Started in an emergency, for Adult, place not said"}) ==
              Lines{started});
    }
    SECTION("of a unit out of service, which is said and asks for no press more") {
        world.signIn();
        const std::string held = ActsWorld::held;
        world.openActs(held);
        const auto before = world.entries().size();
        world.pressButton("Emergency start");
        (void)world.awaitSheet();
        CHECK(world.isSaid("Look whether another unit is at hand."));
        world.pressButton("Started in an emergency, for Adult");
        CHECK(world.entriesSince(before, 1).size() == 1);
    }
    SECTION("where this computer stands, if that is set") {
        world.signIn();
        world.openActs(unit);
        world.window->workplace().standAt("ICU 2");
        CHECK(enter(world, {"Emergency start", {}, {}, "Started in an emergency, for Adult"}) ==
              Lines{use(world, unit, "\"emergency\":true,", "ICU 2") + "}"});
    }
    SECTION("from the locked screen: the entry, and a name") {
        world.openActs(unit);
        const auto before = world.entries().size();
        world.pressButton("Emergency start");
        (void)world.awaitSheet();
        CHECK(world.isSaid("For unit KB-0101: Use started, place not said, emergency, for Adult"));
        world.pressButton("Petra Quill");
        CHECK(world.entriesSince(before, 1) == Lines{started});
    }
}

TEST_CASE("a start on a unit in use asks whether it is the same patient", "[unit]") {
    ActsWorld world;
    world.signIn();
    const auto unit = std::string(ActsWorld::inUse);
    world.openActs(unit);
    SECTION("another: the use before is over") {
        CHECK(enter(world, {"Start of use", {"That use is over"}, {}, "The use began"}, 2) ==
              Lines{"use_end " + unit + " {}", use(world, unit, "") + "}"});
    }
    SECTION("the same") {
        CHECK(enter(world, {"Start of use", {"The same patient"}, {}, "The use goes on"}) ==
              Lines{use(world, unit, "") + ",\"same_patient\":true}"});
    }
}

TEST_CASE("what came to be while a form was open is seen at its press", "[unit]") {
    ActsWorld world;
    world.signIn();
    const std::string unit = ActsWorld::idle;
    world.openActs(unit);
    const auto before = world.entries().size();
    world.pressButton("Start of use");
    (void)world.awaitSheet();
    SECTION("a use that began elsewhere") {
        world.write("use_start", unit, {{"group", "adult"}});
        world.pressButton("The use began");
        ActsWorld::waitUntil("it is told", [&] { return world.isSaid("Not kept yet: by the"); });
        ActsWorld::waitUntil("it is asked",
                             [&] { return world.isSaid("Is it the same patient?"); });
        world.pressButton("The same patient");
        world.pressButton("The use goes on");
        const auto kept = world.entriesSince(before, 2);
        CHECK(kept.back().find("\"same_patient\":true") != std::string::npos);
    }
    SECTION("a hold that was placed: the form shows it by itself") {
        world.write("withdraw", unit, {{"hold", "incident"}, {"reason", ""}});
        world.window->workplace().refresh();
        ActsWorld::waitUntil("it is told", [&] { return world.isSaid("Not ready by the log."); });
        ActsWorld::waitUntil("nothing but the hold is kept",
                             [&] { return world.entries().size() == before + 1; });
    }
}

TEST_CASE("what makes no sense on the unit says why when it is pressed", "[unit]") {
    ActsWorld world;
    world.openActs(std::string(ActsWorld::idle));
    const auto before = world.entries().size();
    const auto why = [&](Qt::Key key, const QString& says) {
        world.key(key, Qt::AltModifier);
        ActsWorld::waitUntil("it says why", [&] { return world.isSaid(says); });
        CHECK(world.sheet() == nullptr);
    };
    const QString notInUse = "By the log this unit is not in use.";
    why(Qt::Key_P, notInUse);
    why(Qt::Key_T, "No fault stands on this unit.");
    why(Qt::Key_R, notInUse);
    why(Qt::Key_B, "This unit is not out of service.");
    why(Qt::Key_E, notInUse);
    why(Qt::Key_O, "By the log the unit is on.");
    why(Qt::Key_W, notInUse);
    CHECK(world.buttons("Pause").front()->accessibleDescription() ==
          "By the log this unit is not in use.");
    CHECK(world.entries().size() == before);
}

TEST_CASE("trouble is entered and put right", "[unit]") {
    ActsWorld world;
    world.signIn();
    const auto unit = std::string(ActsWorld::idle);
    world.openActs(unit);
    CHECK(enter(world, {"Alarm", {"Flow sensor"}, {}, "The unit raised"}) ==
          Lines{"alarm " + unit + " {\"code\":\"flow_sensor\"}"});
    CHECK(enter(world,
                {"Fault", {"Fan noise"}, {{"What was seen", "left side"}}, "The unit has"}) ==
          Lines{"fault " + unit + " {\"code\":\"fan_noise\",\"text\":\"left side\"}"});
    ActsWorld::waitUntil("the fault stands", [&] {
        return !world.buttons("Fault put right").front()->property("off").toBool();
    });
    CHECK(enter(world, {"Fault put right", {}, {}, "Put right: Fan noise"}) ==
          Lines{"clear " + unit + " {\"code\":\"fan_noise\"}"});
    CHECK(enter(world, {"Out of service", {"Out of service for repair"}, {}, "Take it out"}) ==
          Lines{"withdraw " + unit + " {\"hold\":\"repair\",\"reason\":\"\"}"});
    ActsWorld::waitUntil("the hold stands", [&] {
        return !world.buttons("Back in service").front()->property("off").toBool();
    });
    CHECK(enter(world, {"Back in service", {}, {}, "This reason is gone", true}) ==
          Lines{"release " + unit + " {\"hold\":\"repair\"}"});
}

TEST_CASE("the unit's own entries", "[unit]") {
    ActsWorld world;
    world.signIn();
    const std::string unit = ActsWorld::idle;
    world.openActs(unit);
    CHECK(enter(world, {"Switched off", {}, {}, "The unit was switched off"}) ==
          Lines{"power " + unit + " {\"on\":false}"});
    CHECK(enter(world, {"Soiled", {"Splash"}, {}, "The unit was soiled"}) ==
          Lines{"soil " + unit + " {\"reason\":\"Splash\"}"});
    CHECK(enter(world, {"Seen here", {}, {{"Where", "Hall 3"}}, "The unit was seen at"}) ==
          Lines{"sighted " + unit + " {\"location\":\"Hall 3\"}"});
    CHECK(enter(world,
                {"Seen here", {"Moved there"}, {{"Where", "Hall 4"}}, "The unit was moved"}) ==
          Lines{"move " + unit + " {\"location\":\"Hall 4\"}"});
    CHECK(enter(world, {"Note", {}, {{"What is to be noted", "looked at"}}, "Keep this note"}) ==
          Lines{"note " + unit + " {\"text\":\"looked at\"}"});
    CHECK(enter(world, {"Service", {"Preventive maintenance", "Put off"}, {},
                        "Preventive maintenance: Put off"}) ==
          Lines{"service " + unit +
                " {\"outcome\":\"deferred\",\"service\":\"preventive_maintenance\"}"});
    const auto groups = enter(world, {"Patient group", {"Adult transport"}, {}, "Selected on"});
    CHECK(groups == Lines{"group " + unit + " {\"group\":\"adult_transport\"}"});
}

TEST_CASE("a deviation is permitted for a time, with a reason", "[unit]") {
    ActsWorld world;
    world.signIn();
    const std::string unit = ActsWorld::idle;
    world.openActs(unit);
    const auto until = toText(world.clock.now() + logbook::Duration{3 * 86'400'000LL});
    // Of 1, 3, 7, 14 and 30 days: Tuesday.
    const auto kept = enter(world, {"Permit a deviation",
                                    {"Battery check", "until 1 Dec"},
                                    {{"Why", "spare battery on order"}},
                                    "Permit it until", true});
    CHECK(kept == Lines{"waive " + unit +
                        " {\"finding\":\"due\",\"reason\":\"spare battery on order\","
                        "\"subject\":\"battery\",\"until\":\"" +
                        until + "\"}"});
}

TEST_CASE("a notice is carried out on the unit it names", "[unit]") {
    ActsWorld world;
    const std::string unit = ActsWorld::idle;
    world.write("notice", "",
                {{"key", "cable_26"},
                 {"title", "Look at the mains cable"},
                 {"action", "inspect"},
                 {"match", logbook::json::Object{{"devices", logbook::json::Array{unit}}}}});
    world.window->workplace().refresh();
    world.signIn();
    world.openActs(unit);
    ActsWorld::waitUntil("the notice is found on it", [&] {
        return !world.buttons("Notice carried out").front()->property("off").toBool();
    });
    CHECK(enter(world, {"Notice carried out",
                        {"Notice cable 26"},
                        {{"What was done", "cable is whole"}},
                        "Carried out on this unit"}) ==
          Lines{"notice_done " + unit + " {\"key\":\"cable_26\",\"text\":\"cable is whole\"}"});
    ActsWorld::waitUntil("nothing is left to be done", [&] {
        return world.buttons("Notice carried out").front()->property("off").toBool();
    });
}

TEST_CASE("the end of a use before what was done in it is asked about", "[unit]") {
    ActsWorld world;
    const std::string unit = ActsWorld::inUse;
    world.clock.advance(logbook::Duration{3'600'000});
    world.fit(unit, "circuit", {{"lot", "C-4480"}});
    world.clock.advance(logbook::Duration{5 * 60'000});
    world.window->workplace().refresh();
    world.signIn();
    world.openActs(unit);
    const auto before = world.records().size();
    world.pressButton("End of use");
    (void)world.awaitSheet();
    world.pressButton("When? Now");
    world.pressButton("10 min ago");
    world.pressButton("This use is over");
    ActsWorld::waitUntil("it is asked", [&] {
        return world.isSaid("By the log this use went on after 08:55:");
    });
    CHECK(world.isSaid("09:00: Fitted: breathing circuit lot C-4480"));
    world.pressButton("No, look again");
    QTest::qWait(200);
    CHECK(world.records().size() == before);
    world.pressButton("This use is over");
    world.pressButton("It was over by then: keep it");
    ActsWorld::waitUntil("it is kept", [&] { return world.records().size() == before + 1; });
    const auto then = toText(world.clock.now() - logbook::Duration{10 * 60'000});
    CHECK(world.records().back().starts_with(R"({"at":")" + then));
}

TEST_CASE("one unit takes over from another in two scans", "[unit]") {
    ActsWorld world;
    world.signIn();
    const auto first = std::string(ActsWorld::inUse);
    const auto second = std::string(ActsWorld::idle);
    world.openActs(first);
    const auto before = world.entries().size();
    world.pressButton("Swap for another unit");
    (void)world.awaitSheet();
    SECTION("the unit that is taken off is no answer") {
        world.scan(QString::fromStdString(first));
        ActsWorld::waitUntil("it is refused", [&] {
            return !world.buttons("That is the unit that is taken off").empty();
        });
        CHECK_FALSE(world.buttons("That is the unit that is taken off").front()->isEnabled());
    }
    SECTION("the other is") {
        world.scan(QString::fromStdString(second));
        world.pressButton("Fault of the unit");
        world.pressButton("Screen damaged");
        world.pressButton(QString::fromStdString(first) + " is off the patient");
        CHECK(world.entriesSince(before, 3) ==
              Lines{"use_end " + first + " {}",
                    "fault " + first + " {\"code\":\"screen\",\"text\":\"Fault of the unit\"}",
                    "use_start " + second + " {\"group\":\"" + groupOf(world, first) +
                        "\",\"location\":\"" + placeOf(world, first) +
                        "\",\"reason\":\"Fault of the unit\"}"});
        const auto* desk = world.window->findChild<desktop::BedsideDesk*>();
        ActsWorld::waitUntil("the unit that took over is open",
                             [&] { return desk->serial().toStdString() == second; });
        ActsWorld::waitUntil("it is in use", [&] {
            return !world.all<desktop::VerdictChip>("in use").empty();
        });
        CHECK(world.sheet() == nullptr);
    }
}

TEST_CASE("another unit's code is a question, never a text, and presses nothing", "[unit]") {
    ActsWorld world;
    world.signIn();
    const auto unit = std::string(ActsWorld::idle);
    world.openActs(unit);
    const auto before = world.entries().size();
    world.pressButton("Note");
    (void)world.awaitSheet();
    world.line("What is to be noted")->setFocus();
    world.scan(QString::fromStdString(std::string(ActsWorld::inUse)));
    world.pressButton("Stay with " + QString::fromStdString(unit));
    CHECK(world.line("What is to be noted")->text().isEmpty());
    CHECK(world.entries().size() == before);
    world.line("What is to be noted")->setFocus();
    world.scan("LOT-4471");
    QTest::qWait(300);
    CHECK(world.line("What is to be noted")->text() == "LOT-4471");
    CHECK(world.entries().size() == before);
}
