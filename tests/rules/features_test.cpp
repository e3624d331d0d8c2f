// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// The features that an edition asks for, wherever it does.
#include "rules/features.h"
#include "support/rulebook_texts.h"

using support::head;
using support::read;

namespace {

std::vector<std::string> featuresIn(const std::string& text) {
    const auto reading = read(text);
    REQUIRE(reading.rulebook);
    return rules::featuresOf(*reading.rulebook);
}

}  // namespace

TEST_CASE("what an edition asks of a part is found in every condition", "[unit]") {
    const auto reading = read(
        head + "applies_when = { \"circuit.layout\" = \"coaxial\", \"hme.technology\" = \"a\" }\n"
               "voided_by = [{ event = \"fit hme\", "
               "unless = { \"circuit.layout\" = [\"coaxial\", \"single_limb\"] } }]\n"
               "[positions.valve]\nrequired_when = { \"circuit.made_of\" = \"pvc\", "
               "\"circuit.fitted\" = true }\n");
    REQUIRE(reading.rulebook);
    CHECK(rules::attributesOf(*reading.rulebook, "circuit") ==
          rules::LookedForValues{{"layout", {"coaxial", "single_limb"}}, {"made_of", {"pvc"}}});
    CHECK(rules::attributesOf(*reading.rulebook, "hme") ==
          rules::LookedForValues{{"technology", {"a"}}});
    CHECK(rules::attributesOf(*reading.rulebook, "valve").empty());
}

TEST_CASE("features are found in every condition and among the labels", "[unit]") {
    CHECK(featuresIn(head).empty());
    CHECK(featuresIn(
              head +
              "applies_when = { \"feature.a\" = true }\n"
              "not_with = [{ position = \"hme\", when = { \"feature.b\" = true } }]\n"
              "voided_by = [{ event = \"use_end\", when = { \"feature.c\" = false } },\n"
              "{ event = \"fit hme\", unless = { \"feature.d\" = true, group = \"adult\" } }]\n"
              "[positions.valve]\nrequired_when = { \"feature.e\" = true }\n"
              "[conflicts.both]\nwhen = { \"feature.f\" = true, \"hme.fitted\" = true }\n"
              "[services.yearly]\napplies_when = { \"feature.g\" = true }\n"
              "[labels.features]\nh = \"Hot swap\"\na = \"Again\"\n") ==
          std::vector<std::string>{"a", "b", "c", "d", "e", "f", "g", "h"});
}
