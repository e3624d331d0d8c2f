// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Every pair of colours that is seen one on the other.
#include "desktop/theme/colours.h"

#include <catch2/catch.hpp>

using namespace desktop;

TEST_CASE("the contrast of black and white is 21", "[unit]") {
    // WCAG 2.1, definition of contrast ratio: from 1 to 21.
    CHECK(contrast(Qt::black, Qt::white) == Approx(21));
    CHECK(contrast(Qt::white, Qt::white) == Approx(1));
    // (1.05) / (0.2126 + 0.05), by the formula there for pure red.
    CHECK(contrast(Qt::red, Qt::white) == Approx(1.05 / 0.2626));
}

TEST_CASE("every pair of colours has the contrast that it must have", "[exhaustive]") {
    for (const auto theme : {Theme::Light, Theme::Dark}) {
        for (const auto& pair : colourPairs(coloursOf(theme))) {
            INFO(pair.what << (theme == Theme::Light ? ", light" : ", dark"));
            CHECK(contrast(pair.above, pair.below) >= pair.least);
        }
    }
}
