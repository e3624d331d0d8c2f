// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The way to ready, as a person with gloves goes it: few presses, each of which says what it
// asserts, and nothing lost.
#include "desktop/bedside/unit_bar.h"

#include "way_world.h"

using namespace support;

TEST_CASE("a routine check before use takes no more than 14 presses", "[unit]") {
    Way way;
    const auto before = way.records().size();
    way.open();
    way.openUnit("KB-0142");
    PressCounter counter;
    const std::vector<QString> titles{"A power up", "B leak",  "C flow sensor",
                                      "D oxygen",   "E alarms", "F battery",
                                      "G gas",      "H filters", "I surfaces"};
    for (const auto& title : titles) {
        way.waitForNext(title);
        way.press("Passed");
        if (title == "A power up") {
            counter.pause(true);
            way.waitUntil("somebody is asked for", [&] { return way.isSaid("scan your badge"); });
            way.scan("m.toller");
            QTest::qWait(60);
            counter.pause(false);
            way.type("402816");
            way.key(Qt::Key_Return);
        } else if (title == "B leak") {
            way.waitUntil("the value is asked for", [&] { return way.sheet() != nullptr; });
            for (const auto* digit : {"1", "8", "0"}) way.press(way.key(digit));
            CHECK(way.typed() == "180");
            way.press(way.sheet()->findChildren<QPushButton*>().back());
        } else if (title == "F battery") {
            way.waitUntil("the value is asked for", [&] { return way.sheet() != nullptr; });
            way.type("96");
            way.press(way.sheet()->findChildren<QPushButton*>().back());
        }
    }
    way.waitUntil("the unit is ready", [&] { return way.isSaid("No step is open"); });
    CHECK(counter.presses() <= 14);
    std::printf("routine check: %d presses\n", counter.presses());

    const auto all = way.records();
    REQUIRE(all.size() == before + 9);
    std::vector<std::string> expected;
    int seq = static_cast<int>(before);
    for (const auto* check : {"a_power_up", "b_leak", "c_flow_sensor", "d_oxygen", "e_alarms",
                              "f_battery", "g_gas", "h_filters", "i_surfaces"}) {
        auto body = passed(check);
        if (std::string_view(check) == "b_leak")
            body = R"({"check":"b_leak","measures":{"leak":{"unit":"mL/min","value":180}},)"
                   R"("outcome":"pass"})";
        if (std::string_view(check) == "f_battery")
            body = R"({"check":"f_battery","measures":{"charge":{"unit":"%","value":96}},)"
                   R"("outcome":"pass"})";
        expected.push_back(checkLine(way, ++seq, body));
    }
    CHECK(std::vector<std::string>(all.begin() + static_cast<std::ptrdiff_t>(before), all.end()) ==
          expected);
}
