// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Values that nothing measured can be, and editions that know better.
#include "rules/possible_values.h"

#include <catch2/catch.hpp>

using rules::Beyond;

namespace {

rules::MeasureRule rule(const std::string& unit, std::optional<double> min,
                        std::optional<double> max) {
    rules::MeasureRule rule;
    rule.unit = unit;
    if (min) rule.min = rules::Limit{min, {}};
    if (max) rule.max = rules::Limit{max, {}};
    return rule;
}

Beyond beyondIn(const rules::MeasureRule& rule, double value) {
    return rules::beyond(rules::possibleValues(rule), value);
}

}  // namespace

TEST_CASE("a share of a whole lies between nothing and the whole", "[unit]") {
    for (const auto& each : {rule("%", {}, {}), rule("%", 22, 40), rule("%", 0, 100)}) {
        CHECK(beyondIn(each, 300) == Beyond::Most);
        CHECK(beyondIn(each, -1) == Beyond::Least);
        CHECK(beyondIn(each, 0) == Beyond::Nothing);
        CHECK(beyondIn(each, 100) == Beyond::Nothing);
        CHECK(beyondIn(each, 100.00000001) == Beyond::Nothing);  // the same as far as limits go
    }
    CHECK(beyondIn(rule("fraction", {}, {}), 1.5) == Beyond::Most);
    CHECK(beyondIn(rule("mL/min", {}, 200), -5) == Beyond::Least);
    CHECK(beyondIn(rule("cmH2O", {}, {}), -5) == Beyond::Nothing);
}

TEST_CASE("an edition with a limit beyond a bound knows better what it measures", "[unit]") {
    const auto deviation = rule("%", -3, 3);
    CHECK(beyondIn(deviation, -20) == Beyond::Nothing);
    CHECK(beyondIn(deviation, 120) == Beyond::Most);
    const auto gain = rule("%", 90, 110);
    CHECK(beyondIn(gain, 130) == Beyond::Nothing);
    CHECK(beyondIn(gain, -1) == Beyond::Least);
    auto byGroup = rule("L/min", {}, {});
    byGroup.min = rules::Limit{{}, {{"adult", -0.5}, {"neonatal", 0}}};
    CHECK(beyondIn(byGroup, -1) == Beyond::Nothing);
}
