// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Attributes of parts as a person reads them.
#include "words/attribute_text.h"

#include "words/words.h"

#include <catch2/catch.hpp>

TEST_CASE("a word that rulebooks look for is read without underscores", "[unit]") {
    CHECK(words::attributeText("dual_limb") == "dual limb");
    CHECK(words::attributeText("coaxial") == "coaxial");
    // What is no such word stays as it was written.
    CHECK(words::attributeText("Type_4 B") == "Type_4 B");
    CHECK(words::attributeText("").empty());
}

TEST_CASE("what an attribute is called is said in the language", "[unit]") {
    const auto& english = *words::Words::builtIn();
    const auto& spanish = *words::Words::builtIn("es");
    CHECK(words::attributeLabel(english, "layout") == "layout");
    CHECK(words::attributeLabel(spanish, "layout") == "disposición");
    CHECK(words::attributeLabel(spanish, "technology") == "tecnología");
    // Of the department's own.
    CHECK(words::attributeLabel(spanish, "inner_tube") == "inner tube");
}
