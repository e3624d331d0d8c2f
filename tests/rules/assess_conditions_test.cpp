// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Conditions on a device's state, path by path, and which group a part suits.
#include "rules/evaluate.h"
#include "support/rules_world.h"

#include <catch2/catch.hpp>

using namespace support;

namespace {

struct Holding {
    bool inApplies = false;  // as in `applies_when`, `required_when` and `when`
    bool inUnless = false;
};

const std::string positions = "[positions.circuit]\nreuse = \"reusable\"\n[positions.sensor]\n";

// The condition is read from a rulebook, so that paths are those of the text.
Holding holding(const std::string& condition, const LogBuilder& log) {
    const auto rulebook = rules::readRulebook(
        bookOfLeak("applies_when = { " + condition + " }", positions), zones()).rulebook;
    REQUIRE(rulebook);
    const auto state = stateOf(log);
    const auto& read = rulebook->check("leak")->appliesWhen;
    return {rules::holds(read, deviceOf(state), *rulebook, rules::Unknown::Holds),
            rules::holds(read, deviceOf(state), *rulebook, rules::Unknown::HoldsNot)};
}

bool isTrue(const std::string& condition, const LogBuilder& log) {
    const auto found = holding(condition, log);
    CHECK(found.inApplies == found.inUnless);
    return found.inApplies;
}

LogBuilder start() { return logWith(book(positions), {"co2", "nebuliser"}); }

}  // namespace

TEST_CASE("a feature", "[unit]") {
    const auto log = start();
    CHECK(isTrue(R"("feature.co2" = true)", log));
    CHECK_FALSE(isTrue(R"("feature.co2" = false)", log));
    CHECK(isTrue(R"("feature.nebuliser" = true)", log));
    CHECK_FALSE(isTrue(R"("feature.battery" = true)", log));
    CHECK(isTrue(R"("feature.battery" = false)", log));
    CHECK(isTrue(R"("feature.battery" = [false, true])", log));
}

TEST_CASE("whether a part is fitted", "[unit]") {
    auto log = start();
    CHECK_FALSE(isTrue(R"("circuit.fitted" = true)", log));
    CHECK(isTrue(R"("circuit.fitted" = false)", log));
    log.on(device).fit("circuit");
    CHECK(isTrue(R"("circuit.fitted" = true)", log));
    CHECK_FALSE(isTrue(R"("circuit.fitted" = false)", log));
}

TEST_CASE("an attribute of a part", "[unit]") {
    auto log = start();
    CHECK_FALSE(isTrue(R"("circuit.layout" = "coaxial")", log));  // empty: never
    log.on(device).fit("circuit");
    const auto unknown = holding(R"("circuit.layout" = "coaxial")", log);
    CHECK(unknown.inApplies);
    CHECK_FALSE(unknown.inUnless);
    log.on(device).fit("circuit", {{"layout", "coaxial"}, {"lot", "L1"}});
    CHECK(isTrue(R"("circuit.layout" = "coaxial")", log));
    CHECK(isTrue(R"("circuit.layout" = ["twin", "coaxial"])", log));
    CHECK_FALSE(isTrue(R"("circuit.layout" = "twin")", log));
    CHECK_FALSE(isTrue(R"("circuit.layout" = ["twin", "single"])", log));
    CHECK(isTrue(R"("circuit.lot" = "L1")", log));
}

TEST_CASE("an attribute is as at the part's last fit", "[unit]") {
    auto log = start();
    log.on(device).fit("circuit", {{"serial", "C1"}, {"layout", "coaxial"}});
    log.on("KB-2").enrol({"adult"});
    log.on("KB-2").fit("circuit", {{"serial", "C1"}, {"layout", "twin"}});
    log.on(device).fit("circuit", {{"serial", "C1"}});
    CHECK(isTrue(R"("circuit.layout" = "twin")", log));
}

TEST_CASE("reuse falls back on the position's and so is never unknown", "[unit]") {
    auto log = start();
    log.on(device).fit("circuit");
    log.on(device).fit("sensor");
    CHECK(isTrue(R"("circuit.reuse" = "reusable")", log));
    CHECK_FALSE(isTrue(R"("circuit.reuse" = "permanent")", log));
    CHECK(isTrue(R"("sensor.reuse" = "permanent")", log));
    log.on(device).fit("circuit", {{"reuse", "single_use"}});
    CHECK(isTrue(R"("circuit.reuse" = "single_use")", log));
    CHECK_FALSE(isTrue(R"("circuit.reuse" = "reusable")", log));
}

TEST_CASE("a part's groups and expiry are attributes too", "[unit]") {
    auto log = start();
    log.on(device).fit("circuit");
    for (const std::string path :
         {R"("circuit.groups" = "adult")", R"("circuit.expires" = "2026-05-01")"}) {
        CHECK(holding(path, log).inApplies);
        CHECK_FALSE(holding(path, log).inUnless);
    }
    log.on(device).fit("circuit", {{"groups", list({"adult", "neonatal"})},
                                   {"expires", "2026-05-01"}});
    CHECK(isTrue(R"("circuit.groups" = "adult")", log));
    CHECK(isTrue(R"("circuit.groups" = ["pediatric", "neonatal"])", log));
    CHECK_FALSE(isTrue(R"("circuit.groups" = "pediatric")", log));
    CHECK(isTrue(R"("circuit.expires" = "2026-05-01")", log));
    CHECK_FALSE(isTrue(R"("circuit.expires" = "2026-05-02")", log));
}

TEST_CASE("the selected group and the model", "[unit]") {
    auto log = start();
    CHECK(isTrue(R"(group = "adult")", log));
    CHECK_FALSE(isTrue(R"(group = "pediatric")", log));
    CHECK(isTrue(R"(group = ["pediatric", "adult"])", log));
    log.on(device).enrol({"adult", "pediatric"});
    CHECK_FALSE(isTrue(R"(group = ["pediatric", "adult"])", log));  // none is selected
    CHECK(isTrue(R"(model = "Larch")", log));
    CHECK_FALSE(isTrue(R"(model = "Rowan")", log));
}

TEST_CASE("in use is connected and not paused", "[unit]") {
    auto log = start();
    CHECK_FALSE(isTrue("in_use = true", log));
    CHECK(isTrue("in_use = false", log));
    log.on(device).useStart();
    CHECK(isTrue("in_use = true", log));
    log.on(device).usePause();
    CHECK_FALSE(isTrue("in_use = true", log));
    CHECK(isTrue("in_use = false", log));
}

TEST_CASE("precautions of the last use", "[unit]") {
    auto log = start();
    CHECK(isTrue(R"("last_use.precautions" = false)", log));
    log.on(device).useStart({{"precautions", true}});
    log.on(device).useEnd();
    CHECK(isTrue(R"("last_use.precautions" = true)", log));
    CHECK_FALSE(isTrue(R"("last_use.precautions" = false)", log));
}

TEST_CASE("all entries hold", "[unit]") {
    auto log = start();
    CHECK(isTrue("", log));
    CHECK(isTrue(R"("feature.co2" = true, group = "adult")", log));
    CHECK_FALSE(isTrue(R"("feature.co2" = true, group = "pediatric")", log));
    CHECK_FALSE(isTrue(R"("feature.co2" = false, group = "adult")", log));
}

TEST_CASE("which group a part suits", "[unit]") {
    rules::PartAttributes part;
    CHECK(rules::suits(part, "adult", false));
    CHECK_FALSE(rules::suits(part, "adult", true));
    part.groups = Texts{"adult", "pediatric"};
    for (const bool strict : {false, true}) {
        CHECK(rules::suits(part, "adult", strict));
        CHECK(rules::suits(part, "pediatric", strict));
        CHECK_FALSE(rules::suits(part, "neonatal", strict));
    }
    auto log = start();
    const auto fits = [&log] {
        const auto state = stateOf(log);
        return rules::fittedSuits(deviceOf(state), "circuit", "adult");
    };
    CHECK_FALSE(fits());
    log.on(device).fit("circuit");
    CHECK_FALSE(fits());
    log.on(device).fit("circuit", {{"groups", list({"adult"})}});
    CHECK(fits());
    log.on(device).fit("circuit", {{"groups", list({"pediatric"})}});
    CHECK_FALSE(fits());
}
