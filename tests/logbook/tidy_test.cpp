// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Typed names and keys are put into form where nothing has to be guessed.
#include "logbook/tidy.h"

#include <catch2/catch.hpp>
#include <string>

using logbook::tidyKey;
using logbook::tidyName;

TEST_CASE("A name loses what is too many in it, and nothing else", "[unit]") {
    CHECK(tidyName("Room 12") == "Room 12");
    CHECK(tidyName("  Room\t 12 ") == "Room 12");
    CHECK(tidyName("Room\u00A012") == "Room 12");
    CHECK(tidyName("Room\r\n") == "Room");
    CHECK(tidyName("Ro\x01om") == "Room");
    CHECK(tidyName("Größe") == "Größe");
    CHECK(tidyName("Gro\u0308ße") == "Größe");
    CHECK(tidyName("") == "");
    CHECK(tidyName(" \u2003 ") == "");
    CHECK_FALSE(tidyName(std::string(65, 'x')));
    CHECK(tidyName(std::string(64, 'x') + "  ") == std::string(64, 'x'));
    CHECK_FALSE(tidyName("Gr\xF6\xDF" "e"));
}

TEST_CASE("A key is found in its words", "[unit]") {
    CHECK(tidyKey("adult") == "adult");
    CHECK(tidyKey(" Adult mask ") == "adult_mask");
    CHECK(tidyKey("use-start") == "use_start");
    CHECK(tidyKey("") == "");
    CHECK_FALSE(tidyKey("2 adults"));
    CHECK_FALSE(tidyKey("größe"));
}
