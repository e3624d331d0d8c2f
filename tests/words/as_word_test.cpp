// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Paths and names as a shell takes them for one word.
#include "words/as_word.h"

#include <catch2/catch.hpp>

using words::asWord;

TEST_CASE("A word stays plain where a shell takes it as it is, and is quoted else", "[unit]") {
    CHECK(asWord("ward.logbook") == "ward.logbook");
    CHECK(asWord("/srv/Füße/icu-1_b.logbook") == "/srv/Füße/icu-1_b.logbook");
    CHECK(asWord("") == "''");
    CHECK(asWord("our ward.logbook") == "'our ward.logbook'");
    CHECK(asWord("$HOME;*") == "'$HOME;*'");
    CHECK(asWord("~/ward.logbook") == "'~/ward.logbook'");
    CHECK(asWord("the nurse's.logbook") == R"('the nurse'\''s.logbook')");
}
