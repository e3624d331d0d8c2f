// SPDX-FileCopyrightText: 2026 The Airmuster developers
// SPDX-License-Identifier: GPL-3.0-or-later
//
// Keys, station names, names, and what is UTF-8.
#include "logbook/text.h"

#include <catch2/catch.hpp>

#include <string>

using namespace logbook;

TEST_CASE("A key is small letters, digits and underscores after a letter", "[unit]") {
    for (const char* text : {"a", "leak", "flow_sensor", "o2", "a_", "z9_"}) {
        INFO(text);
        CHECK(isKey(text));
    }
    for (const char* text : {"", "_a", "9a", "A", "flow-sensor", "flow sensor", "leak ", "größe"}) {
        INFO(text);
        CHECK_FALSE(isKey(text));
    }
}

TEST_CASE("A station's name has up to 32 characters", "[unit]") {
    for (const char* text : {"a", "0", "icu-1", "a-", "9-9"}) {
        INFO(text);
        CHECK(isStationName(text));
    }
    CHECK(isStationName(std::string(32, 'a')));
    CHECK_FALSE(isStationName(std::string(33, 'a')));
    for (const char* text : {"", "-a", "ICU", "icu_1", "icu 1", "icu/1", "ü"}) {
        INFO(text);
        CHECK_FALSE(isStationName(text));
    }
}

TEST_CASE("A name holds any letters of any script", "[unit]") {
    for (const char* text : {"KB-0142", "bay 1", "Größe", "Ward 3 / bay 2", "病房 4", "a", "'", "😀",
                             "00844588003288 SN 7"}) {
        INFO(text);
        CHECK(isName(text));
    }
}

TEST_CASE("A name has blanks only one by one and inside", "[unit]") {
    for (const char* text : {"", " ", " a", "a ", "a  b", "a\tb", "a\nb", "a\u00a0b", "a\u2003b",
                             "a\u2028b", "a\u2029b", "a\u0085b", "a\u3000b", "a\u007fb", "a\u202fb",
                             "\u00a0a"}) {
        INFO(text);
        CHECK_FALSE(isName(text));
    }
    CHECK_FALSE(isName(std::string_view("a\0b", 3)));
}

TEST_CASE("A name's length is counted in characters", "[unit]") {
    std::string letters;
    for (int count = 0; count < 64; ++count) {
        letters += "é";
    }
    CHECK(isName(letters));
    CHECK_FALSE(isName(letters + "é"));
    CHECK(isName(std::string(64, 'x')));
    CHECK_FALSE(isName(std::string(65, 'x')));
}

// Unicode Standard Annex #15, figures 3 (singletons), 4 (composites), 5 (several marks) and 6
// (compatibility); the numbers of the figures are from memory, the values agree with the Unicode
// data of Python's unicodedata.
TEST_CASE("A name is in NFC", "[reference]") {
    for (const char* text : {"\u00c5", "\u00f4", "\u1e0d\u0307", "q\u0323\u0307",
                             "\u1e9b\u0323", "\ufb01"}) {
        INFO(text);
        CHECK(isName(text));
    }
    for (const char* text :
         {"\u212b", "\u2126", "A\u030a", "o\u0302", "\u1e0b\u0323", "q\u0307\u0323"}) {
        INFO(text);
        CHECK_FALSE(isName(text));
    }
}

// Well-formed sequences: Unicode Standard, table 3-7.
TEST_CASE("UTF-8 is well formed", "[reference]") {
    for (const char* text :
         {"", "a", "\x7f", "\xc2\x80", "\xdf\xbf", "\xe0\xa0\x80", "\xed\x9f\xbf", "\xee\x80\x80",
          "\xef\xbf\xbf", "\xf0\x90\x80\x80", "\xf4\x8f\xbf\xbf", "Größe 1"}) {
        CHECK(isUtf8(text));
    }
    for (const char* text : {"\x80", "\xbf", "\xc0\x80", "\xc1\xbf", "\xc2", "\xc2\x41",
                             "\xe0\x9f\xbf", "\xe2\x82", "\xed\xa0\x80", "\xed\xbf\xbf",
                             "\xf0\x8f\xbf\xbf", "\xf4\x90\x80\x80", "\xf5\x80\x80\x80", "\xff",
                             "ab\xfe", "\xf0\x9f\x98"}) {
        CHECK_FALSE(isUtf8(text));
        CHECK_FALSE(isName(text));
    }
}
