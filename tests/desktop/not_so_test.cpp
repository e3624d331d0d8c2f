// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// What was not so at a check: what somebody marks stands in the entry, whichever button ends it.
#include "desktop/bedside/not_so_sheet.h"
#include "way_world.h"

using support::Way;

namespace {

// The last check of the way asks for both conditions.
void markGas(Way& way) {
    way.openSignedIn();
    way.doFirst("I surfaces");
    way.press("Not so");
    way.waitUntil("what was not so is asked",
                  [&] { return way.isSaid("The rest is kept as so."); });
    CHECK(QApplication::focusWidget()->accessibleName() == "What was seen");
    way.press("Gas supply");
}

// With the condition alone that was not marked.
bool isKept(const std::string& record, const std::string& outcome) {
    INFO(record);
    return record.find(R"({"check":"i_surfaces","conditions":["mains_power"],"outcome":")" +
                       outcome + "\"}") != std::string::npos;
}

constexpr auto needsBoth = "needs = [\"mains_power\", \"gas_supply\"]\n";

}  // namespace

TEST_CASE("what was not so stands in the entry, whichever button ends it", "[unit]") {
    Way way(needsBoth);
    markGas(way);
    const auto before = way.records().size();
    SECTION("not finished") {
        way.press("It was not finished");
        CHECK(isKept(way.lastOf(before + 1), "incomplete"));
        way.waitUntil("it is told on the way", [&] {
            return way.isSaid("as supply\" was not confirmed");
        });
        CHECK_FALSE(way.isSaid("ains power\" was not confirmed"));
    }
    SECTION("failed") {
        way.press("It failed");
        CHECK(isKept(way.lastOf(before + 1), "fail"));
    }
    SECTION("carried out all the same") {
        way.press("Keep it; it does not count");
        CHECK(isKept(way.lastOf(before + 1), "pass"));
    }
}

TEST_CASE("the way back is dead while an entry is being kept", "[unit]") {
    Way way(needsBoth);
    markGas(way);
    auto* sheet = way.window->findChild<desktop::NotSoSheet*>();
    REQUIRE(sheet != nullptr);
    auto* back = way.buttons("Back").front();
    sheet->setHeld(true);
    CHECK_FALSE(back->isEnabled());
    CHECK(way.isSaid("Being kept"));
    sheet->setHeld(false);
    CHECK(back->isEnabled());
    CHECK_FALSE(way.isSaid("Being kept"));
}
