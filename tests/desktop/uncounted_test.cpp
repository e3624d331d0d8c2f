// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is known not to count is said to be so before it is kept, whatever the reason and wherever
// it is entered; and values that nothing measured can be.
#include "way_world.h"

using namespace support;

namespace {

constexpr std::string_view withHme =
    "[positions.hme]\nlabel = \"HME\"\nreuse = \"single_patient\"\n"
    "[checks.j_flow]\nlabel = \"Flow sensor calibration\"\ntakes = \"PT1M\"\n"
    "not_with = [{ position = \"hme\" }]\n"
    "[checks.k_oxygen]\nlabel = \"Oxygen sensor calibration\"\ntakes = \"PT1M\"\n"
    "needs_second = true\n"
    "not_before = [{ event = \"power_on\", wait = \"PT20M\" }]\n"
    "[checks.l_share]\nlabel = \"Oxygen concentration\"\ntakes = \"PT1M\"\n"
    "[checks.l_share.measures.oxygen]\nlabel = \"Oxygen\"\nunit = \"%\"\nrequired = true\n"
    "[checks.l_share.measures.flow]\nlabel = \"Flow\"\nunit = \"L/min\"\n";

struct Uncounted : Way {
    Uncounted() : Way(withHme) {}

    // The sheet of values, once it is there.
    void awaitValues() const {
        waitUntil("the value is asked for", [this] { return sheet() != nullptr; });
    }
    [[nodiscard]] bool isStill(std::size_t count) const {
        QTest::qWait(200);
        return records().size() == count;
    }
};

}  // namespace

TEST_CASE("a check that something in line keeps from counting is asked about first", "[unit]") {
    Uncounted way;
    way.write("fit", "KB-0142", {{"position", "hme"}, {"part", logbook::json::Object{}}});
    way.openSignedIn();
    const auto before = way.records().size();
    way.doFirst("Flow sensor calibration");
    way.press("Passed");
    way.waitUntil("it is asked", [&] { return way.isSaid("does not count"); });
    CHECK(way.isSaid("Unit KB-0142."));
    CHECK(way.isSaid("HME"));
    way.press("Do not keep it");
    CHECK(way.isStill(before));
    way.press("Passed");
    way.press("Keep it all the same");
    CHECK(way.lastOf(before + 1).find(passed("j_flow")) != std::string::npos);
}

TEST_CASE("too early and without a second person is asked about once", "[unit]") {
    Uncounted way;
    way.write("power", "KB-0142", {{"on", true}});
    way.openSignedIn();
    const auto before = way.records().size();
    way.doFirst("Oxygen sensor calibration");
    way.press("Passed");
    way.waitUntil("it is asked", [&] { return way.isSaid("does not count"); });
    way.press("Keep it all the same");
    way.press("Nobody is here");
    CHECK(way.lastOf(before + 1).find(passed("k_oxygen")) != std::string::npos);
}

TEST_CASE("a group that is selected already is not kept in silence", "[unit]") {
    Uncounted way;
    way.openSignedIn();
    const auto before = way.records().size();
    way.key(Qt::Key_F7);
    way.pressButton("Patient group");
    way.pressButton("Adult");
    way.pressButton("Selected on the unit");
    way.pressButton("Do not keep it");
    CHECK(way.isStill(before));
    way.pressButton("Selected on the unit");
    way.waitUntil("it is asked", [&] { return way.isSaid("changes nothing"); });
    way.pressButton("Keep it all the same");
    CHECK(way.lastOf(before + 1).find(R"("group":"adult")") != std::string::npos);
}

TEST_CASE("a text that looks as if it named a patient is asked about, in a warning too", "[unit]") {
    Uncounted way;
    way.openSignedIn();
    const auto before = way.records().size();
    way.key(Qt::Key_F7);
    way.pressButton("Soiled");
    (void)way.awaitSheet();
    way.type("Splash, MRN 4471203");
    CHECK(way.isSaid("No patient belongs in an entry: a place is enough."));
    way.pressButton("The unit was soiled");
    way.waitUntil("it is asked", [&] { return way.isSaid("Does it name none?"); });
    CHECK(way.isSaid("MRN 4471203"));
    way.pressButton("No, look again");
    CHECK(way.isStill(before));
    way.pressButton("The unit was soiled");
    way.pressButton("Yes, keep it");
    CHECK(way.lastOf(before + 1).find("Splash, MRN 4471203") != std::string::npos);
}

TEST_CASE("a start of use is never held up by what its text looks like", "[unit]") {
    Uncounted way;
    way.openSignedIn();
    const auto before = way.records().size();
    way.key(Qt::Key_F7);
    way.pressButton("Emergency start");
    (void)way.awaitSheet();
    QApplication::focusWidget()->setProperty("text", QString());
    way.type("ICU 4, MRN 4471203");
    CHECK(way.isSaid("No patient belongs in an entry: a place is enough."));
    way.pressButton("Started in an emergency");
    const auto last = way.lastOf(before + 1);
    CHECK(last.find("\"emergency\":true") != std::string::npos);
    CHECK(last.find("4471203") == std::string::npos);
}

TEST_CASE("a value that nothing measured can be is kept only by who stands by it", "[unit]") {
    Uncounted way;
    way.openSignedIn();
    const auto before = way.records().size();
    way.doFirst("Oxygen concentration");
    way.press("Passed");
    way.awaitValues();
    way.type("300");
    way.press(way.mainButton());
    CHECK(way.isSaid("Oxygen cannot be 300 %: it is never more than 100 %."));
    way.press("Type it again");
    CHECK(way.isStill(before));
    CHECK(way.typed() == "300");
    way.press(way.mainButton());
    way.press("Keep it all the same");
    CHECK(way.lastOf(before + 1).find(R"("oxygen":{"unit":"%","value":300})") !=
          std::string::npos);
}

TEST_CASE("a value that may be left out is never dropped half typed", "[unit]") {
    Uncounted way;
    way.openSignedIn();
    const auto before = way.records().size();
    way.doFirst("Oxygen concentration");
    way.press("Passed");
    way.awaitValues();
    way.type("21");
    way.press("Next: Flow");
    CHECK(way.isSaid("may be left out"));
    way.type("5.5.");
    SECTION("where the check has passed") {
        way.press(way.mainButton());
        CHECK(way.isSaid("5.5. is no number. Type it again."));
        CHECK(way.isStill(before));
    }
    SECTION("where another value is stood by") {
        way.press("Back");
        way.type("00");
        way.press(way.mainButton());
        way.press("Keep it all the same");
        CHECK(way.isSaid("5.5. is no number. Type it again."));
        CHECK(way.isStill(before));
        way.key(Qt::Key_Backspace);
        CHECK(way.typed() == "5.5");
        way.press(way.mainButton());
        const auto last = way.lastOf(before + 1);
        INFO(last);
        CHECK(last.find(R"("flow":{"unit":"L/min","value":5.5})") != std::string::npos);
        CHECK(last.find(R"("oxygen":{"unit":"%","value":2100})") != std::string::npos);
    }
}

TEST_CASE("with a failure too nothing half typed is dropped", "[unit]") {
    Way way("[checks.b_leak.measures.afterwards]\nlabel = \"Afterwards\"\nunit = \"mL/min\"\n");
    way.openSignedIn();
    const auto before = way.records().size();
    way.doFirst("B leak");
    way.press("Passed");
    way.waitUntil("the value is asked for", [&] { return way.sheet() != nullptr; });
    way.type("80");
    way.press("Next: Afterwards");
    way.type("1.2.3");
    way.press("Back");
    way.type("0");
    way.press(way.mainButton());
    way.press("Keep it as failed");
    CHECK(way.isSaid("1.2.3 is no number. Type it again."));
    QTest::qWait(200);
    CHECK(way.records().size() == before);
    way.key(Qt::Key_Backspace);
    way.key(Qt::Key_Backspace);
    CHECK(way.mainButton()->text().startsWith("Failed"));
    way.press(way.mainButton());
    const auto last = way.lastOf(before + 1);
    INFO(last);
    CHECK(last.find(R"("outcome":"fail")") != std::string::npos);
    CHECK(last.find(R"("afterwards":{"unit":"mL/min","value":1.2})") != std::string::npos);
    CHECK(last.find(R"("leak":{"unit":"mL/min","value":800})") != std::string::npos);
}

TEST_CASE("once a question over a form is answered, Escape leaves the form", "[unit]") {
    Uncounted way;
    way.openSignedIn();
    way.key(Qt::Key_F7);
    way.pressButton("Patient group");
    way.pressButton("Adult");
    way.pressButton("Selected on the unit");
    way.pressButton("Do not keep it");
    way.waitUntil("the form can be pressed again", [&] {
        const auto found = way.buttons("Selected on the unit");
        return !found.empty() && found.front()->isEnabled();
    });
    way.key(Qt::Key_Escape);
    way.waitUntil("the form is gone",
                  [&] { return way.WindowWorld::sheet() == nullptr; }, 5'000);
}
